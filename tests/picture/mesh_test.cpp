#include "opened/panels.h"
#include "picture/mesh_files.h"
#include "picture/read_mesh.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <rapidcheck/gtest.h>

#include <numbers>
#include <set>

namespace fanwright::picture {
namespace {

struct Case {
  opened::Panel panel;
  opened::Form form;
};

/// A leaf with sloping rows and a round cut-out, and a plain one, opened by the solver once for all tests.
const std::vector<Case>& cases() {
  static const std::vector<Case> all = [] {
    std::vector<Case> list;
    for (const opened::Panel& panel : {opened::small_panel(), opened::sloped_panel()})
      list.push_back({panel, std::get<opened::Form>(opened::open(panel))});
    return list;
  }();
  return all;
}

Body body(const Case& c, std::size_t most = most_mesh_triangles) {
  return std::get<Body>(body_of(c.panel, c.form, "A & B", "#bcbcbc", most));
}

double paper_area(const opened::Panel& panel) {
  double area = sample::ring_area(panel.outline);
  for (const auto& hole : panel.cut_outs)
    area -= std::abs(sample::ring_area(hole));
  return area;
}

TEST(picture, triangulates_a_square_with_a_square_hole) {
  const std::vector<Place> places{{0, 0}, {90, 0}, {90, 90}, {0, 90}, {30, 30}, {30, 60}, {60, 60}, {60, 30}, {15, 45}};
  const auto triangles = triangulated(places, {{0, 1, 2, 3}, {4, 5, 6, 7}});
  ASSERT_TRUE(triangles);
  // Euler: a ring-shaped area with 8 points on its edges and one inside has 8 + 2 triangles.
  EXPECT_EQ(triangles->size(), 10U);
}

TEST(picture, refuses_to_triangulate_rings_that_cross) {
  EXPECT_FALSE(triangulated({{0, 0}, {100, 0}, {100, 100}, {0, 100}, {50, 50}, {150, 50}, {150, 60}},
                            {{0, 1, 2, 3}, {4, 5, 6}}));
  EXPECT_FALSE(triangulated({{0, 0}, {10, 0}, {0, 10}, {10, 0}}, {{0, 1, 2}}));
  EXPECT_FALSE(triangulated({{0, 0}, {most_steps + 1, 0}, {0, 10}}, {{0, 1, 2}}));
}

// A coarse lattice makes points on one line and on one circle common.
RC_GTEST_PROP(picture, fills_a_ring_with_triangles_whatever_points_lie_inside, ()) {
  std::vector<Place> places{{0, 0}, {20, 0}, {20, 20}, {0, 20}};
  std::set<std::pair<int, int>> taken;
  for (const auto& [x, z] : *rc::gen::container<std::vector<std::pair<int, int>>>(
           rc::gen::pair(rc::gen::inRange(1, 20), rc::gen::inRange(1, 20))))
    if (taken.insert({x, z}).second)
      places.push_back({x, z});
  const auto triangles = triangulated(places, {{0, 1, 2, 3}});
  RC_ASSERT(triangles.has_value());
  RC_ASSERT(triangles->size() == 2 * (places.size() - 4) + 2); // Euler
  std::int64_t area = 0;
  for (const auto& [a, b, c] : *triangles) {
    const Place p = places[static_cast<std::size_t>(a)], q = places[static_cast<std::size_t>(b)],
                r = places[static_cast<std::size_t>(c)];
    const std::int64_t twice = (q.x - p.x) * (r.z - p.z) - (q.z - p.z) * (r.x - p.x);
    RC_ASSERT(twice > 0);
    area += twice;
  }
  RC_ASSERT(area == 800);
  RC_ASSERT(sample::open_edges(*triangles) == 4);
}

TEST(picture, covers_the_flat_paper_and_keeps_its_edges_in_one_line_each) {
  for (const Case& c : cases()) {
    const auto half = std::get<HalfPanel>(half_panel(c.panel, c.form));
    double area = 0;
    for (const auto& [i, j, k] : half.triangles) {
      const double twice =
          2 * sample::ring_area({half.flat[static_cast<std::size_t>(i)], half.flat[static_cast<std::size_t>(j)],
                                 half.flat[static_cast<std::size_t>(k)]});
      EXPECT_GT(twice, 0);
      area += twice / 2;
    }
    EXPECT_NEAR(area, paper_area(c.panel), 1e-3 * area); // rings are straightened to 0.01 mm
    std::map<int, int> from, to;
    for (const auto& [a, b] : half.edge)
      ++from[a], ++to[b];
    for (const auto& [point, times] : from)
      EXPECT_TRUE(times == 1 && to[point] == 1);
    // Euler's number of a disc is 1, of a disc with a hole 0.
    const auto edges = (3 * half.triangles.size() + half.edge.size()) / 2;
    EXPECT_EQ(half.points.size() + half.triangles.size(), edges + 1 - c.panel.cut_outs.size());
  }
}

TEST(picture, makes_closed_outward_solids_of_the_papers_volume) {
  for (const Case& c : cases()) {
    const Body whole = body(c);
    const Solid solid = thickened(whole.half, whole.thickness_mm);
    EXPECT_EQ(sample::open_edges(solid.triangles), 0);
    double sum = 0;
    for (int k = 0; k < whole.half_panels; ++k) {
      const double one = sample::volume(in_wedge(whole, solid, k));
      EXPECT_GT(one, 0) << "wedge " << k;
      sum += one;
    }
    // A leaf is two halves. The bar of 1 % is the acceptance limit; membrane strain of the opened paper is within it.
    const double paper = 2 * paper_area(c.panel) * c.panel.sheet.thickness_mm * c.panel.leaves;
    EXPECT_NEAR(sum, paper, 0.01 * paper);
  }
}

TEST(picture, writes_stl_in_mm_with_z_up_closed_and_without_empty_triangles) {
  for (const Case& c : cases()) {
    const Body whole = body(c);
    const std::string bytes = stl(whole);
    EXPECT_NE(bytes.substr(0, 5), "solid");
    const Solid read = sample::read_stl(bytes);
    EXPECT_EQ(bytes.size(), 84 + 50 * read.triangles.size());
    const std::size_t each = read.triangles.size() / static_cast<std::size_t>(whole.half_panels);
    for (auto from = read.triangles.begin(); from != read.triangles.end(); from += static_cast<std::ptrdiff_t>(each))
      EXPECT_EQ(sample::open_edges({from, from + static_cast<std::ptrdiff_t>(each)}), 0);
    const double paper = 2 * paper_area(c.panel) * c.panel.sheet.thickness_mm * c.panel.leaves;
    EXPECT_NEAR(sample::volume(read), paper, 0.01 * paper);
    double low = 1e9, high = -1e9, reach = 0;
    for (const auto& p : read.points) {
      low = std::min(low, p[2]), high = std::max(high, p[2]);
      reach = std::max(reach, std::hypot(p[0], p[1]));
    }
    EXPECT_NEAR(low, 0, 1e-5);
    EXPECT_NEAR(high, c.form.height_mm, c.panel.sheet.thickness_mm);
    EXPECT_NEAR(2 * reach, c.form.diameter_mm, c.panel.sheet.thickness_mm);
    double smallest = 1e9;
    for (const auto& t : read.triangles) {
      const auto at = [&](std::size_t i) { return read.points[static_cast<std::size_t>(t[i])]; };
      const auto a = at(0), b = at(1), d = at(2);
      const opened::Point3 u{b[0] - a[0], b[1] - a[1], b[2] - a[2]}, v{d[0] - a[0], d[1] - a[1], d[2] - a[2]};
      smallest = std::min(
          smallest, std::hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2);
    }
    EXPECT_GT(smallest, 1e-4); // mm2; the coordinates' own rounding is below 1e-5 mm
  }
}

nlohmann::json json_of_glb(const std::string& glb) {
  std::uint32_t length = 0;
  std::memcpy(&length, glb.data() + 12, 4);
  return nlohmann::json::parse(glb.substr(20, length));
}

TEST(picture, writes_gltf_in_metres_with_y_up_one_node_for_each_half) {
  const Case& c = cases()[1];
  const Body whole = body(c);
  const std::string glb = gltf(whole);
  EXPECT_EQ(glb.substr(0, 4), "glTF");
  const auto document = json_of_glb(glb);
  EXPECT_EQ(document["meshes"].size(), 2U);
  ASSERT_EQ(document["nodes"].size(), static_cast<std::size_t>(whole.half_panels) + 1);
  EXPECT_EQ(document["nodes"].back()["name"], "A & B");
  const auto& positions = document["accessors"][0];
  EXPECT_NEAR(positions["min"][1].get<double>(), 0, 1e-8);
  EXPECT_NEAR(positions["max"][1].get<double>(), c.form.height_mm / 1000, c.panel.sheet.thickness_mm / 1000);
  const auto& material = document["materials"][0];
  EXPECT_TRUE(material["doubleSided"].get<bool>());
  // IEC 61966-2-1: ((188 / 255 + 0.055) / 1.055)^2.4 = 0.5029
  EXPECT_NEAR(material["pbrMetallicRoughness"]["baseColorFactor"][0].get<double>(), 0.5029, 1e-4);
}

// The node's turn about Y of the (mirrored) place with Y up is the place in its wedge.
TEST(picture, turns_gltf_nodes_into_their_wedges) {
  const Case& c = cases()[0];
  const auto document = json_of_glb(gltf(body(c)));
  for (int k : {0, 1, 2, 7, 30, 47}) {
    const auto& node = document["nodes"][static_cast<std::size_t>(k)];
    EXPECT_EQ(node["mesh"], k % 2);
    const double y = node["rotation"][1], w = node["rotation"][3];
    const double turn = 2 * std::atan2(y, w);
    const opened::Point3 p{30, 2, 10};
    const double px = p[0], pz = k % 2 != 0 ? p[1] : -p[1]; // Y up: Z is minus the old Y
    const double x = px * std::cos(turn) + pz * std::sin(turn), z = -px * std::sin(turn) + pz * std::cos(turn);
    const auto placed = opened::in_wedge(c.form, k, p);
    EXPECT_NEAR(x, placed[0], 1e-9);
    EXPECT_NEAR(-z, placed[1], 1e-9);
  }
}

TEST(picture, writes_the_same_bytes_again) {
  const Body whole = body(cases()[1]);
  for (auto* write : {gltf, stl, obj, three_mf})
    EXPECT_TRUE(write(whole) == write(whole));
}

TEST(picture, sets_points_wider_when_a_mesh_would_be_too_large) {
  const Case& c = cases()[1];
  const std::size_t full = stl(body(c)).size() / 50;
  for (const std::size_t most : {full / 2, full / 8}) {
    const Body coarse = body(c, most);
    const Solid solid = thickened(coarse.half, coarse.thickness_mm);
    EXPECT_LE(solid.triangles.size() * static_cast<std::size_t>(coarse.half_panels), most);
    EXPECT_EQ(sample::open_edges(solid.triangles), 0);
  }
  EXPECT_TRUE(std::holds_alternative<std::string>(body_of(c.panel, c.form, "", "#bcbcbc", 100)));
}

TEST(picture, refuses_a_mesh_of_nothing) {
  Case c = cases()[0];
  EXPECT_TRUE(std::holds_alternative<std::string>(body_of(c.panel, {}, "", "#bcbcbc")));
  EXPECT_TRUE(std::holds_alternative<std::string>(body_of(c.panel, c.form, "", "red")));
  c.form.mesh.triangles.front()[1] = 1 << 30;
  EXPECT_TRUE(std::holds_alternative<std::string>(body_of(c.panel, c.form, "", "#bcbcbc")));
  c = cases()[0];
  c.form.mesh.points.front()[0] = std::nan("");
  EXPECT_TRUE(std::holds_alternative<std::string>(body_of(c.panel, c.form, "", "#bcbcbc")));
  c = cases()[0];
  c.panel.sheet.thickness_mm = 0;
  EXPECT_TRUE(std::holds_alternative<std::string>(body_of(c.panel, c.form, "", "#bcbcbc")));
}

} // namespace
} // namespace fanwright::picture
