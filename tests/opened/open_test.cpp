#include "opened/opened.h"
#include "opened/panels.h"
#include "opened/pieces.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstring>
#include <numbers>
#include <set>

namespace fanwright::opened {
namespace {

Form solved(const Panel& panel, const Options& options = {}) {
  auto result = open(panel, options);
  if (const auto* failure = std::get_if<Failure>(&result)) {
    ADD_FAILURE() << failure->sentence;
    return {};
  }
  return std::get<Form>(std::move(result));
}

TEST(opened, the_same_bits_on_every_run) {
  const Form first = solved(sloped_panel());
  const Form second = solved(sloped_panel());
  ASSERT_EQ(first.mesh.points.size(), second.mesh.points.size());
  EXPECT_EQ(
      0, std::memcmp(first.mesh.points.data(), second.mesh.points.data(), first.mesh.points.size() * sizeof(Point3)));
  EXPECT_EQ(first.holding_moment_nmm, second.holding_moment_nmm);
}

TEST(opened, lengths_scaled_by_two_give_the_form_scaled_by_two) {
  // With every length doubled, strains stay; energies grow with length cubed.
  Panel big = small_panel();
  for (leaf::Point& p : big.outline) {
    p = {2 * p.x, 2 * p.z};
  }
  for (leaf::GlueRow& glue : big.rows) {
    glue = {glue.side, {2 * glue.from.x, 2 * glue.from.z}, {2 * glue.to.x, 2 * glue.to.z}, 2 * glue.width_mm};
  }
  big.sheet.thickness_mm *= 2;
  const Form one = solved(small_panel(), {2.0, 6, {}, {}});
  const Form two = solved(big, {4.0, 6, {}, {}});
  // The contact's stiffness per mm does not scale, which moves the form by less than the sinking, 0.005 mm.
  EXPECT_NEAR(two.height_mm, 2 * one.height_mm, 0.02);
  EXPECT_NEAR(two.diameter_mm, 2 * one.diameter_mm, 0.02);
  EXPECT_NEAR(two.bending_energy_nmm / one.bending_energy_nmm, 8.0, 0.08);
}

TEST(opened, swapping_the_walls_keeps_the_form) {
  // Inside and between differ only by the spine, which lies on wall A; away from it the two are mirror images.
  Panel swapped = small_panel();
  for (leaf::GlueRow& glue : swapped.rows) {
    glue.side = glue.side == design::Side::inside ? design::Side::between : design::Side::inside;
  }
  const Form one = solved(small_panel());
  const Form other = solved(swapped);
  EXPECT_NEAR(one.diameter_mm, other.diameter_mm, 0.01 * one.diameter_mm);
  EXPECT_NEAR(one.height_mm, other.height_mm, 0.01 * one.height_mm);
}

TEST(opened, raising_the_leaf_raises_nothing_else) {
  Panel raised = small_panel();
  for (leaf::Point& p : raised.outline) {
    p.z += 100;
  }
  for (leaf::GlueRow& glue : raised.rows) {
    glue.from.z += 100;
    glue.to.z += 100;
  }
  const Form one = solved(small_panel());
  const Form other = solved(raised);
  EXPECT_NEAR(one.height_mm, other.height_mm, 1e-3);
  EXPECT_NEAR(one.diameter_mm, other.diameter_mm, 1e-3);
  EXPECT_NEAR(one.edge.back().height, other.edge.back().height, 1e-3);
}

TEST(opened, every_part_keeps_clear_of_both_walls) {
  const Panel panel = sloped_panel();
  const Form form = solved(panel);
  const double beta = form.wedge_rad;
  for (const Point3& p : form.mesh.points) {
    const double from_a = p[1];
    const double from_b = p[0] * std::sin(beta) - p[1] * std::cos(beta);
    // Half a caliper is 0.1 mm; contact may sink by a fraction of it.
    EXPECT_GT(from_a, 0.08);
    EXPECT_GT(from_b, 0.08);
  }
}

TEST(opened, glued_strips_lie_flat_on_their_walls) {
  const Panel panel = sloped_panel();
  const Form form = solved(panel);
  int seen = 0;
  for (std::size_t k = 0; k < form.mesh.points.size(); ++k) {
    const Point3& p = form.mesh.points[k];
    for (const leaf::GlueRow& glue : panel.rows) {
      const double t = (form.mesh.flat[k].x - glue.from.x) / (glue.to.x - glue.from.x);
      const double away = form.mesh.flat[k].z - (glue.from.z + t * (glue.to.z - glue.from.z));
      if (t < 0.05 || t > 0.95 || std::abs(away) > 0.5 * glue.width_mm) {
        continue;
      }
      ++seen;
      const double distance =
          glue.side == design::Side::inside ? p[1] : p[0] * std::sin(form.wedge_rad) - p[1] * std::cos(form.wedge_rad);
      EXPECT_NEAR(distance, 0.1, 1e-9);
    }
  }
  EXPECT_GT(seen, 100);
}

TEST(opened, hub_is_about_leaves_times_caliper_over_pi) {
  // 2 N layers of caliper t round a circle: circumference 2 N t, radius N t / pi; the bow of the spine adds to it.
  const Form form = solved(small_panel());
  const double packed = 24 * 0.2 / std::numbers::pi;
  EXPECT_GT(form.hub_radius_mm, 0.8 * packed);
  EXPECT_LT(form.hub_radius_mm, 2.5 * packed);
}

TEST(opened, rim_shrinks_with_the_square_of_the_wedge) {
  // Rim shrink per gap is c (beta R)^2 / s with c between 0.5 (taut) and 0.75: clamped strip with offset and free
  // ends, elastica h/S = 1 - 0.6 (D/S)^2.
  Panel panel = small_panel();
  panel.leaves = 40;
  const Form form = solved(panel);
  double low = 0;
  double high = 0;
  for (const EdgePoint& point : form.edge) {
    if (point.x > 39.99 && std::abs(point.z - 6) < 0.45) {
      low = point.height;
    }
    if (point.x > 39.99 && std::abs(point.z - 54) < 0.45) {
      high = point.height;
    }
  }
  const double swing = form.wedge_rad * 40;
  const double lost = (48 - (high - low)) / 3;
  EXPECT_GT(lost, 0.4 * swing * swing / 13);
  EXPECT_LT(lost, 0.8 * swing * swing / 13);
}

TEST(opened, lock_ratio_is_wedge_times_outer_end_over_clear_distance) {
  const Form form = solved(small_panel());
  EXPECT_NEAR(form.lock_ratio, std::numbers::pi / 24 * 37 / 13, 1e-12);
}

TEST(opened, every_gap_between_walls_has_its_lock_ratio) {
  Panel panel = small_panel();
  panel.rows[3] = row(design::Side::between, 3, 30, 56);
  const Form form = solved(panel);
  ASSERT_EQ(form.row_locks.size(), 3u);
  const double beta = std::numbers::pi / 24;
  // Clear distances 13, 13 and 15; the last two rows both reach only to x = 30.
  EXPECT_NEAR(form.row_locks[0].ratio, beta * 37 / 13, 1e-12);
  EXPECT_NEAR(form.row_locks[2].ratio, beta * 30 / 15, 1e-12);
  EXPECT_EQ(form.row_locks[2].lower, 2);
  EXPECT_EQ(form.row_locks[2].upper, 3);
  EXPECT_EQ(form.lock_ratio, form.row_locks[0].ratio);
}

TEST(opened, a_form_that_is_only_measured_has_no_mesh_and_the_same_measures) {
  Options options;
  options.mesh = false;
  const Form bare = solved(small_panel(), options);
  EXPECT_TRUE(bare.mesh.points.empty());
  EXPECT_EQ(bare.height_mm, solved(small_panel()).height_mm);
}

TEST(opened, half_panels_meet_in_their_walls) {
  const Form form = solved(small_panel());
  const Point3 on_a{20, 0, 5};
  const Point3 on_b{20 * std::cos(form.wedge_rad), 20 * std::sin(form.wedge_rad), 5};
  for (int k = 0; k < 48; ++k) {
    const Point3& shared = k % 2 == 0 ? on_b : on_a;
    const Point3 here = in_wedge(form, k, shared);
    const Point3 there = in_wedge(form, (k + 1) % 48, shared);
    for (std::size_t c = 0; c < 3; ++c) {
      EXPECT_NEAR(here[c], there[c], 1e-9);
    }
  }
}

TEST(opened, edge_runs_from_foot_to_top_and_measures_agree_with_it) {
  const Form form = solved(small_panel());
  EXPECT_EQ(form.edge.front().x, 0);
  EXPECT_EQ(form.edge.front().z, 0);
  EXPECT_EQ(form.edge.back().x, 0);
  EXPECT_EQ(form.edge.back().z, 60);
  double lowest = 1e300;
  double widest = 0;
  for (const EdgePoint& point : form.edge) {
    lowest = std::min(lowest, point.height);
    widest = std::max(widest, 2 * point.radius);
  }
  EXPECT_EQ(lowest, 0);
  EXPECT_EQ(widest, form.diameter_mm);
}

TEST(opened, a_slit_separates_the_tier_from_the_body) {
  // A slit 0.4 mm wide, far thinner than a cell, cut down beside the body.
  Panel panel = small_panel();
  panel.outline = {{0, 0}, {25, 0}, {25, 40}, {25.4, 40}, {25.4, 8}, {40, 8}, {40, 60}, {0, 60}};
  const Grid grid(panel, {4.0, 4});
  const Pieces pieces = cut(panel, grid);
  const int body = pieces.nearest(grid, 24.9, 20);
  const int tier = pieces.nearest(grid, 25.5, 20);
  ASSERT_NE(body, tier);
  const auto points = [&](int p) {
    const auto& list = pieces.pieces[static_cast<std::size_t>(p)].points;
    return std::set<int>(list.begin(), list.end());
  };
  for (const int point : points(body)) {
    EXPECT_EQ(points(tier).count(point), 0u);
  }
}

TEST(opened, pieces_hold_the_area_of_the_leaf) {
  const Panel panel = sloped_panel();
  const Grid grid(panel, {3.0, 6});
  double area = 0;
  for (const Piece& piece : cut(panel, grid).pieces) {
    area += piece.area;
  }
  // Grid coordinates shear the leaf between sloping rows; the map keeps area to within its stretch, here 4 %.
  EXPECT_NEAR(area, 40 * 60 - 12 * 4 * 3 * std::sin(2 * std::numbers::pi / 24), 0.04 * 2400);
  Panel straight = small_panel();
  const Grid even(straight, {3.0, 6});
  area = 0;
  for (const Piece& piece : cut(straight, even).pieces) {
    area += piece.area;
  }
  EXPECT_NEAR(area, 2400, 1e-9);
}

TEST(opened, refuses_a_leaf_without_rows) {
  Panel panel = small_panel();
  panel.rows.clear();
  EXPECT_TRUE(std::holds_alternative<Failure>(open(panel)));
}

TEST(opened, refuses_rows_that_run_into_each_other) {
  Panel panel = small_panel();
  panel.rows[1] = row(design::Side::between, 3, 37, 14, 3, 21);
  EXPECT_TRUE(std::holds_alternative<Failure>(open(panel)));
}

TEST(opened, stops_when_cancelled) {
  Options options;
  options.cancelled = [] { return true; };
  EXPECT_TRUE(std::holds_alternative<Failure>(open(small_panel(), options)));
}

} // namespace
} // namespace fanwright::opened
