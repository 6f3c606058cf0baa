// Seated fans as paper: what is drawn of them is what is cut, where it sits.
#include "fan/panel_paper.h"
#include "fan/space.h"
#include "leaf/contour.h"
#include "picture/line_drawing.h"
#include "picture/mesh_files.h"
#include "picture/read_mesh.h"
#include "picture/winged_figure.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::picture {
namespace {

using sample::deg;
using sample::leaves;
using sample::papers_of;
using sample::winged;

Body winged_body() {
  const sample::Figure& figure = winged();
  return std::get<Body>(
      body_of(figure.panel, figure.form, "Winged", "#bcbcbc", most_mesh_triangles, papers_of(figure)));
}

double edge_length(const fan::Strip& strip) {
  double length = 0;
  for (const auto& run : strip.edge)
    for (std::size_t i = 0; i + 1 < run.size(); ++i)
      length += std::hypot(run[i + 1].x - run[i].x, run[i + 1].z - run[i].z);
  return length;
}

double area_below(const fan::Strip& strip) {
  double area = 0;
  for (const auto& run : strip.edge)
    for (std::size_t i = 0; i + 1 < run.size(); ++i)
      area += (run[i + 1].x - run[i].x) * (run[i + 1].z + run[i].z) / 2;
  return area;
}

/// Length of the edges of all panels that lie off creases, sides and gathered end.
double rim_length(const FanPaper& fan) {
  double length = 0;
  for (const HalfPanel& piece : fan.panels)
    for (const auto& [i, j] : piece.edge) {
      const auto a = static_cast<std::size_t>(i), b = static_cast<std::size_t>(j);
      const double x = piece.flat[a].x / fan.depth_mm;
      const bool upright = std::abs(piece.flat[a].x - piece.flat[b].x) < 1e-6 && std::abs(x - std::round(x)) < 1e-3;
      if (!upright && piece.flat[a].z + piece.flat[b].z > 0.02)
        length += fan::distance(piece.points[a], piece.points[b]);
    }
  return length;
}

TEST(fan_paper, panels_are_the_strip_cut_at_its_creases) {
  for (const fan::Placed& placed : winged().seated.fans) {
    const fan::PanelPaper paper(placed);
    ASSERT_EQ(paper.count(), 32);
    EXPECT_NEAR(paper.area_mm2(), area_below(placed.strip), 1e-6 * paper.area_mm2());
    for (int k = 0; k < paper.count(); ++k)
      for (const leaf::Ring& ring : paper.flat(k)) {
        EXPECT_GT(leaf::signed_area(ring), 0);
        EXPECT_GE(leaf::bounds(ring).left, k * 8 - 1e-9);
        EXPECT_LE(leaf::bounds(ring).right, (k + 1) * 8 + 1e-9);
      }
  }
}

TEST(fan_paper, a_feather_that_overhangs_leaves_pieces_in_the_next_panel) {
  // Panels 10 wide; a lobe at height 20 to 30 hangs from panel 1 over panel 0, above the edge there.
  fan::Placed placed = winged().seated.fans.front();
  placed.strip.depth_mm = 10;
  placed.strip.panels = 2;
  placed.strip.edge = {{{0, 8}, {12, 8}, {12, 20}, {4, 20}, {4, 30}, {20, 30}}};
  const fan::PanelPaper paper(placed);
  ASSERT_EQ(paper.flat(0).size(), 2U);
  EXPECT_NEAR(leaf::signed_area(paper.flat(0)[0]) + leaf::signed_area(paper.flat(0)[1]), 10 * 8 + 6 * 10, 1e-9);
  ASSERT_EQ(paper.flat(1).size(), 1U);
  EXPECT_NEAR(leaf::signed_area(paper.flat(1)[0]), 10 * 30 - 2 * 12, 1e-9);
}

TEST(fan_paper, triangles_lie_on_the_spread_surface_and_cover_the_paper) {
  const fan::Placed& placed = winged().seated.fans.front();
  const FanPaper made = std::get<FanPaper>(fan_paper(placed, "wing", 0.2));
  double area = 0, off = 0;
  for (const HalfPanel& piece : made.panels)
    for (const auto& t : piece.triangles) {
      const auto a = static_cast<std::size_t>(t[0]), b = static_cast<std::size_t>(t[1]),
                 c = static_cast<std::size_t>(t[2]);
      area += sample::ring_area({piece.flat[a], piece.flat[b], piece.flat[c]});
      const leaf::Point middle{(piece.flat[a].x + piece.flat[b].x + piece.flat[c].x) / 3,
                               (piece.flat[a].z + piece.flat[b].z + piece.flat[c].z) / 3};
      const fan::Point3 drawn =
          fan::times(1.0 / 3, fan::plus(fan::plus(piece.points[a], piece.points[b]), piece.points[c]));
      off = std::max(off, fan::distance(drawn, placed.at.in_the_round(placed.spread.place(middle))));
    }
  EXPECT_NEAR(area, area_below(placed.strip), 1e-3 * area);
  EXPECT_LT(off, 0.05); // what fan_spacing_mm promises
}

TEST(fan_paper, its_rim_is_as_long_as_the_cut_line_of_the_strip) {
  const auto papers = papers_of(winged());
  for (std::size_t k = 0; k < papers.size(); ++k) {
    const double cut = edge_length(winged().seated.fans[k].strip);
    EXPECT_NEAR(rim_length(papers[k]), cut, 0.003 * cut); // the paper's own stretch is bound to that
  }
}

double distance_to(const FanPaper& fan, const fan::Point3& place) {
  double nearest = 1e9;
  for (const HalfPanel& piece : fan.panels)
    for (const auto& [a, b, c] : piece.triangles)
      nearest = std::min(nearest, fan::distance_to_triangle(place, piece.points[static_cast<std::size_t>(a)],
                                                            piece.points[static_cast<std::size_t>(b)],
                                                            piece.points[static_cast<std::size_t>(c)]));
  return nearest;
}

TEST(fan_paper, a_pair_is_drawn_as_mirror_images) {
  const auto papers = papers_of(winged());
  ASSERT_EQ(papers.size(), 2U);
  // The mirror plane of 24 leaves: the seam is on the wall at one wedge, 7.5 degrees; the front is opposite.
  const double front = 187.5 / deg;
  const fan::Point3 across{std::sin(front), -std::cos(front), 0};
  double off = 0;
  for (const HalfPanel& piece : papers[0].panels)
    for (std::size_t k = 0; k < piece.points.size(); k += 11) {
      const fan::Point3& p = piece.points[k];
      off = std::max(off, distance_to(papers[1], fan::minus(p, fan::times(2 * fan::dot(p, across), across))));
    }
  EXPECT_LT(off, 0.05);
}

TEST(fan_paper, a_line_drawing_is_as_wide_and_high_as_the_figure) {
  View view;
  view.azimuth_deg = 0;
  view.elevation_deg = 0;
  const auto page = std::get<drawing::Page>(line_drawing(winged_body(), view));
  // Drawn from the middle of a leaf, up to 7.5 degrees off the front.
  EXPECT_NEAR(page.width_mm - 2 * view.margin_mm, winged().seated.figure.width_mm,
              0.012 * winged().seated.figure.width_mm);
  EXPECT_NEAR(page.height_mm - 2 * view.margin_mm, winged().seated.figure.height_mm, 0.3);
}

TEST(fan_paper, meshes_hold_each_fan_as_closed_solids_of_its_papers_volume) {
  const Body body = winged_body();
  for (std::size_t k = 0; k < body.fans.size(); ++k) {
    const Solid solid = thickened(body.fans[k]);
    EXPECT_EQ(sample::open_edges(solid.triangles), 0);
    const double paper = 0.2 * area_below(winged().seated.fans[k].strip);
    EXPECT_NEAR(sample::volume(solid), paper, 0.01 * paper);
  }
  const Solid read = sample::read_stl(stl(body));
  double low = 1e9, high = -1e9;
  for (const auto& p : read.points)
    low = std::min(low, p[2]), high = std::max(high, p[2]);
  EXPECT_NEAR(low, 0, 1e-5);
  EXPECT_NEAR(high, winged().seated.figure.height_mm, 0.3);
}

TEST(fan_paper, mesh_files_name_each_fan_as_a_part_of_its_own) {
  const Body body = winged_body();
  const std::string text = obj(body);
  EXPECT_NE(text.find("\no fan_1_wing_right\n"), std::string::npos);
  EXPECT_NE(text.find("\no fan_2_wing_left\n"), std::string::npos);
  const std::string glb = gltf(body);
  std::uint32_t length = 0;
  std::memcpy(&length, glb.data() + 12, 4);
  const auto document = nlohmann::json::parse(glb.substr(20, length));
  ASSERT_EQ(document["nodes"].size(), 2U * leaves + 3);
  EXPECT_EQ(document["nodes"][2 * leaves]["name"], "wing, right");
  EXPECT_EQ(document["meshes"][document["nodes"][2 * leaves + 1]["mesh"].get<std::size_t>()]["name"], "wing, left");
  EXPECT_EQ(document["nodes"].back()["children"].size(), 2U * leaves + 2);
}

} // namespace
} // namespace fanwright::picture
