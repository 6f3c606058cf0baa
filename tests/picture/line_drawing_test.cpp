#include "picture/line_drawing.h"
#include "picture/sample_forms.h"
#include "picture/straightened.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <map>

namespace fanwright::picture {
namespace {

constexpr double radius = 40, height = 60;

/// Five leaves of flat, upright rectangles, wedges of 25 degrees, standing 7.5 degrees from wall A.
Body rays() {
  const auto form = sample::form(
      5, 250, height, 8, 12, [](double) { return radius; }, [](double) { return 0.3; });
  opened::Panel panel;
  panel.outline = {{0, 0}, {radius, 0}, {radius, height}, {0, height}};
  panel.sheet.thickness_mm = 0.2;
  panel.leaves = 5;
  panel.opening_deg = 250;
  return std::get<Body>(body_of(panel, form, "Rays", "#bcbcbc"));
}

/// Length of upright lines by their place across the page, counted from the page's middle of the axis, mm.
std::map<int, double> uprights(const drawing::Page& page) {
  std::map<int, double> length;
  for (const auto& item : page.items) {
    drawing::Point at;
    for (const auto& segment : std::get<drawing::Path>(item).segments) {
      const bool moved = std::holds_alternative<drawing::Move>(segment);
      const drawing::Point to = moved ? std::get<drawing::Move>(segment).to : std::get<drawing::Line>(segment).to;
      if (!moved && std::abs(to.x - at.x) < 0.05)
        length[static_cast<int>(std::lround(10 * to.x))] += std::abs(to.y - at.y);
      at = to;
    }
  }
  return length;
}

// Seen level from 150 degrees (the middle of the leaf nearest to 125 + 10), the sheets stand at -142.5, -107.5, -92.5,
// -57.5, -42.5, -7.5, 7.5, 42.5, 57.5 and 92.5 degrees to the viewer's direction. An outer edge at angle a is hidden
// when a sheet lies strictly between a and 180 - a on its side: -142.5 and -107.5 are, by -92.5; the two at 92.5 are
// not.
TEST(picture, draws_the_outer_edges_in_front_and_leaves_out_those_behind) {
  const Body body = rays();
  View view;
  view.azimuth_deg = 10;
  view.elevation_deg = 0;
  const auto page = std::get<drawing::Page>(line_drawing(body, view));
  const double left = -radius * std::sin(92.5 * std::numbers::pi / 180); // outermost edge on the left
  std::map<int, double> seen = uprights(page);
  for (const double angle : {-92.5, -57.5, -42.5, -7.5, 7.5, 42.5, 57.5, 92.5}) {
    const int place =
        static_cast<int>(std::lround(10 * (view.margin_mm + radius * std::sin(angle * std::numbers::pi / 180) - left)));
    double length = 0;
    for (int near = place - 1; near <= place + 1; ++near)
      length += seen[near];
    EXPECT_NEAR(length, height, 0.3) << angle; // samples are 0.4 mm apart, changes found to 0.01 mm
    for (int near = place - 1; near <= place + 1; ++near)
      seen.erase(near);
  }
  const int axis = static_cast<int>(std::lround(10 * (view.margin_mm - left)));
  for (const auto& [place, length] : seen)
    if (std::abs(place - axis) > 5) { // the spines all meet on the axis
      EXPECT_LT(length, 0.2) << place / 10.0;
    }
}

TEST(picture, draws_thick_lines_only_where_paper_borders_on_the_background) {
  View view;
  view.azimuth_deg = 10;
  view.elevation_deg = 0;
  const auto page = std::get<drawing::Page>(line_drawing(rays(), view));
  ASSERT_EQ(page.items.size(), 2U);
  const auto& thick = std::get<drawing::Path>(page.items[1]);
  EXPECT_GT(thick.pen.width_mm, std::get<drawing::Path>(page.items[0]).pen.width_mm);
  // A box as seen: every thick line lies on the page's outer frame.
  for (const auto& segment : thick.segments) {
    const auto at = std::holds_alternative<drawing::Move>(segment) ? std::get<drawing::Move>(segment).to
                                                                   : std::get<drawing::Line>(segment).to;
    const double inset = std::min({at.x, page.width_mm - at.x, at.y, page.height_mm - at.y});
    EXPECT_NEAR(inset, view.margin_mm, 0.3);
  }
}

TEST(picture, draws_a_page_as_large_as_the_drawing_at_any_scale) {
  View view;
  view.azimuth_deg = 10;
  view.elevation_deg = 0;
  const auto page = std::get<drawing::Page>(line_drawing(rays(), view));
  EXPECT_NEAR(page.height_mm, height + 2 * view.margin_mm, 0.01);
  view.scale = 0.5;
  const auto smaller = std::get<drawing::Page>(line_drawing(rays(), view));
  EXPECT_NEAR(smaller.height_mm, height / 2 + 2 * view.margin_mm, 0.01);
  EXPECT_NEAR(smaller.width_mm - 2 * view.margin_mm, (page.width_mm - 2 * view.margin_mm) / 2, 0.01);
}

TEST(picture, refuses_views_from_nowhere) {
  View view;
  view.elevation_deg = std::nan("");
  EXPECT_TRUE(std::holds_alternative<std::string>(line_drawing(rays(), view)));
  view = {};
  view.scale = 0;
  EXPECT_TRUE(std::holds_alternative<std::string>(line_drawing(rays(), view)));
  EXPECT_TRUE(std::holds_alternative<std::string>(line_drawing({}, {})));
}

struct Spot {
  double x = 0, z = 0;
};

double off(const Spot& p, const Spot& a, const Spot& b) {
  const double dx = b.x - a.x, dz = b.z - a.z, length = dx * dx + dz * dz;
  const double t = length > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / length, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - t * dx, p.z - a.z - t * dz);
}

RC_GTEST_PROP(picture, straightens_chains_within_their_tolerance, ()) {
  std::vector<Spot> chain;
  for (const auto& [x, z] : *rc::gen::nonEmpty(rc::gen::container<std::vector<std::pair<int, int>>>(
           rc::gen::pair(rc::gen::inRange(0, 50), rc::gen::inRange(0, 50)))))
    chain.push_back({static_cast<double>(x), static_cast<double>(z)});
  const auto straight = straightened(chain, 2.0);
  for (const Spot& p : chain) {
    double least = 1e9;
    for (std::size_t k = 0; k < straight.size(); ++k)
      least = std::min(least, off(p, straight[k], straight[std::min(k + 1, straight.size() - 1)]));
    RC_ASSERT(least <= 2.0 + 1e-12);
  }
}

} // namespace
} // namespace fanwright::picture
