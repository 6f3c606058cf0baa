#include "opened/preview.h"

#include "opened/panels.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace fanwright::opened {
namespace {

/// The two panels' forms in full, solved once for all tests.
const Form& full_form(bool sloped) {
  static const Form straight = std::get<Form>(open(small_panel())), slanting = std::get<Form>(open(sloped_panel()));
  return sloped ? slanting : straight;
}

Panel panel_of(bool sloped) { return sloped ? sloped_panel() : small_panel(); }

Preview preview_of(bool sloped) { return Preview::from(panel_of(sloped), full_form(sloped)).value(); }

Panel with_corners_moved(Panel panel, double by) {
  panel.outline[1].x += by;
  panel.outline[2].x += by / 2;
  return panel;
}

Panel with_row_raised(Panel panel) {
  panel.rows[1].from.z += 1;
  panel.rows[1].to.z += 1;
  return panel;
}

Panel with_leaves(Panel panel, int leaves) {
  panel.leaves = leaves;
  return panel;
}

double size_of(const Form& form) { return std::max(form.height_mm, form.diameter_mm); }

/// Largest distance of the edges of two forms of one panel, mm.
double apart(const Form& a, const Form& b) {
  double worst = 0;
  for (std::size_t k = 0; k < a.edge.size(); ++k)
    worst = std::max(worst, std::hypot(a.edge[k].radius - b.edge[k].radius, a.edge[k].height - b.edge[k].height));
  return worst;
}

TEST(opened, a_preview_of_the_same_leaf_is_the_form_that_it_goes_on_from) {
  for (const bool sloped : {false, true}) {
    const Form shown = preview_of(sloped).open(panel_of(sloped)).value();
    const Form& full = full_form(sloped);
    ASSERT_EQ(shown.edge.size(), full.edge.size());
    // The coarse sheet is brought to rest once more.
    EXPECT_LT(apart(shown, full), 1e-3 * size_of(full));
    EXPECT_NEAR(shown.holding_moment_nmm / full.holding_moment_nmm, 1, 0.02);
    EXPECT_NEAR(shown.hub_radius_mm, full.hub_radius_mm, 1e-3 * size_of(full));
  }
}

TEST(opened, previews_lie_within_half_a_per_cent_of_the_form_in_full) {
  for (const bool sloped : {false, true}) {
    const Preview preview = preview_of(sloped);
    const Panel start = panel_of(sloped);
    for (const Panel& next : {with_corners_moved(start, 2), with_row_raised(start), with_leaves(start, 26),
                              with_leaves(with_corners_moved(start, -2), 22)}) {
      const Form shown = preview.open(next).value();
      const Form full = std::get<Form>(open(next));
      ASSERT_EQ(shown.edge.size(), full.edge.size());
      EXPECT_LT(apart(shown, full), 5e-3 * size_of(full));
      EXPECT_NEAR(shown.height_mm, full.height_mm, 5e-3 * size_of(full));
      EXPECT_NEAR(shown.diameter_mm, full.diameter_mm, 1e-2 * size_of(full));
      EXPECT_NEAR(shown.holding_moment_nmm / full.holding_moment_nmm, 1, 0.4);
      EXPECT_LT(shown.unknowns, full.unknowns);
    }
  }
}

TEST(opened, a_preview_moves_with_the_leaf_by_far_more_than_it_errs) {
  const Panel wider = with_corners_moved(small_panel(), 5);
  const Form shown = preview_of(false).open(wider).value();
  const Form full = std::get<Form>(open(wider));
  const double grown = full.diameter_mm - full_form(false).diameter_mm;
  ASSERT_GT(grown, 5.0);
  EXPECT_NEAR(shown.diameter_mm, full.diameter_mm, 0.05 * grown);
  EXPECT_LT(apart(shown, full), 0.05 * grown);
}

TEST(opened, a_previews_mesh_and_places_are_those_of_its_edge) {
  const Form shown = preview_of(true).open(with_corners_moved(sloped_panel(), 2)).value();
  ASSERT_FALSE(shown.mesh.points.empty());
  double lowest = 1e9, highest = -1e9;
  for (std::size_t k = 0; k < shown.mesh.points.size(); ++k) {
    const Point3& point = shown.mesh.points[k];
    const Point3 place = shown.place(shown.mesh.flat[k]);
    for (std::size_t c = 0; c < 3; ++c)
      EXPECT_NEAR(point[c], place[c], 1e-3);
    lowest = std::min(lowest, point[2]);
    highest = std::max(highest, point[2]);
  }
  EXPECT_NEAR(lowest, 0, 0.1);
  EXPECT_NEAR(highest, shown.height_mm, 0.1);
  for (const EdgePoint& point : shown.edge) {
    const Point3 place = shown.place({point.x, point.z});
    EXPECT_NEAR(std::hypot(place[0], place[1]), point.radius, 1e-9);
    EXPECT_NEAR(place[2], point.height, 1e-9);
  }
}

TEST(opened, a_previews_mesh_may_be_made_later) {
  const Preview preview = preview_of(true);
  const Panel wider = with_corners_moved(sloped_panel(), 2);
  Options unmeshed;
  unmeshed.mesh = false;
  Form later = preview.open(wider, unmeshed).value();
  EXPECT_TRUE(later.mesh.points.empty());
  preview.make_mesh(later);
  EXPECT_EQ(later.mesh.points, preview.open(wider).value().mesh.points);
}

TEST(opened, previews_have_the_same_bits_whatever_was_asked_before) {
  const Preview preview = preview_of(false);
  const Panel wider = with_corners_moved(small_panel(), 2);
  const Form first = preview.open(wider).value();
  static_cast<void>(preview.open(with_row_raised(small_panel())));
  EXPECT_EQ(preview.open(wider).value().holding_moment_nmm, first.holding_moment_nmm);
}

TEST(opened, a_preview_goes_on_from_the_one_before) {
  const Panel wider = with_corners_moved(small_panel(), 2), widest = with_corners_moved(small_panel(), 4);
  const Form full = std::get<Form>(open(wider));
  const Preview before = preview_of(false);
  const Preview after = Preview::from(wider, full, &before).value();
  const Form wanted = std::get<Form>(open(widest));
  EXPECT_LT(apart(after.open(widest).value(), wanted), 5e-3 * size_of(wanted));
}

TEST(opened, there_is_no_preview_of_a_leaf_too_far_away_or_when_it_is_called_off) {
  const Preview preview = preview_of(false);
  EXPECT_FALSE(preview.open(with_corners_moved(small_panel(), 9)));
  Panel fewer_rows = small_panel();
  fewer_rows.rows.pop_back();
  EXPECT_FALSE(preview.open(fewer_rows));
  Options called_off;
  called_off.cancelled = [] { return true; };
  EXPECT_FALSE(preview.open(with_corners_moved(small_panel(), 2), called_off));
  EXPECT_FALSE(Preview::from(small_panel(), full_form(false), nullptr, called_off));
}

} // namespace
} // namespace fanwright::opened
