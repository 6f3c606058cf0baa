#include "picture/sample_forms.h"
#include "picture/sheet_edge.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace fanwright::picture {
namespace {

constexpr double height = 100, radius = 40, caliper = 0.2;

/// Upright flat sheets in the middle of their wedges, with their outline as edge.
opened::Form upright_sheets() {
  auto form = sample::form(
      8, 360, height, 4, 10, [](double) { return radius; }, [](double) { return 0.5; });
  const double angle = form.wedge_rad / 2;
  form.place = [angle](leaf::Point p) { return opened::Point3{p.x * std::cos(angle), p.x * std::sin(angle), p.z}; };
  form.edge = {{0, 0, 0, 0}, {radius, 0, radius, 0}, {radius, height, radius, height}, {0, height, 0, height}};
  return form;
}

TEST(sheet_edge, runs_along_the_outline_and_round_each_cut_out) {
  const auto form = upright_sheets();
  Surface without;
  add_sheet_edges(form, {}, 16, caliper, without);
  EXPECT_EQ(without.edge_triangles.size(), 16U * 2 * 3);

  const std::vector<leaf::Ring> cut_outs = {{{10, 20}, {30, 20}, {30, 50}, {10, 50}}, {{10, 60}, {20, 80}, {30, 60}}};
  Surface with;
  add_sheet_edges(form, cut_outs, 16, caliper, with);
  EXPECT_EQ(with.edge_triangles.size(), 16U * 2 * (3 + 4 + 3));
}

TEST(sheet_edge, of_a_cut_out_is_as_wide_as_the_caliper_and_faces_the_opening) {
  const auto form = upright_sheets();
  for (const bool clockwise : {false, true}) {
    leaf::Ring ring{{10, 20}, {30, 20}, {30, 50}, {10, 50}};
    if (clockwise)
      std::ranges::reverse(ring);
    Surface surface;
    add_sheet_edges(form, {ring}, 1, caliper, surface);
    const float angle = static_cast<float>(form.wedge_rad / 2);
    const Vec3 outwards{std::cos(angle), std::sin(angle), 0}, centre = outwards * 20 + Vec3{0, 0, 35};
    const Vec3 across{-outwards.y, outwards.x, 0};
    int seen = 0;
    for (std::size_t i = 0; i < surface.points.size(); ++i) {
      EXPECT_NEAR(std::abs(dot(surface.points[i], across)), caliper / 2, 1e-5);
      const auto flat = surface.flat[i];
      if (flat.x < 9 || flat.x > 31 || flat.z < 19 || flat.z > 51)
        continue;
      ++seen;
      EXPECT_GT(dot(surface.normals[i], centre - surface.points[i]), 0) << flat.x << ' ' << flat.z;
      EXPECT_NEAR(dot(surface.normals[i], across), 0, 1e-4);
    }
    EXPECT_EQ(seen, 2 * 5);
  }
}

} // namespace
} // namespace fanwright::picture
