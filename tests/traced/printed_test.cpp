// Generated figures come back from pixels.
#include "printed.h"

#include "leaf/contour.h"
#include "traced/along.h"
#include "traced/picture_file.h"
#include "traced/traced.h"

#include <gtest/gtest.h>

namespace fanwright::traced {
namespace {

using namespace fanwright::traced::testing;

/// The right half of a body that is symmetric about x = 0, from the spine's foot to its top.
std::vector<Point> right_half(const Area& body) {
  std::vector<Point> half{{0, body.outline.front().z}};
  for (const Point& p : body.outline)
    if (p.x >= 0)
      half.push_back(p);
  return half;
}

std::vector<Point> points_of(const leaf::Contour& contour) { return leaf::flatten(contour, 0.005); }

class Printed : public ::testing::TestWithParam<unsigned> {};

TEST_P(Printed, comes_back_within_three_thousandths_and_three_tenths_of_a_degree) {
  constexpr double height_mm = 120;
  const unsigned seed = GetParam();
  const Area body = turned_body(seed);
  Print print;
  print.seed = seed;
  print.tilt_deg = -10 + 20.0 * ((seed * 7) % 12) / 11;
  print.pixels_per_mm = 4 + seed % 5;
  print.noise = 2 + 2.0 * (seed % 6);
  print.softness = 1 + static_cast<int>(seed % 3);
  print.shade = 15.0 * (seed % 5);
  Wishes wishes;
  wishes.height_mm = height_mm;
  const auto found = silhouettes(printed({body}, print), wishes);
  ASSERT_TRUE(std::holds_alternative<Found>(found)) << std::get<std::string>(found);
  const auto& figures = std::get<Found>(found).figures;
  ASSERT_EQ(figures.size(), 1u);
  EXPECT_NEAR(figures[0].tilt_deg, print.tilt_deg, 0.3);
  EXPECT_LE(apart(points_of(figures[0].outline), right_half(body)), 0.003 * height_mm);
  EXPECT_LE(figures[0].outline.segments.size() + 1, 20u);
}

INSTANTIATE_TEST_SUITE_P(traced, Printed, ::testing::Range(1u, 25u));

TEST(traced, a_drawing_in_lines_becomes_what_they_enclose) {
  const Area body = turned_body(3);
  Area line{body.outline, {}};
  line = without(grown({line}, 0.4, Corners::sharp), grown({line}, -0.4, Corners::sharp)).front();
  // The pencil left the paper for a millimetre.
  const Areas gap = along_line({{20, 60}, {60, 60}}, 1);
  const Ring eye = {{10, 40}, {18, 40}, {18, 52}, {10, 52}};
  Areas lines = without({line}, gap);
  const Areas ring = without(grown({{eye, {}}}, 0.4, Corners::sharp), grown({{eye, {}}}, -0.4, Corners::sharp));
  lines.insert(lines.end(), ring.begin(), ring.end());
  Print print;
  print.pixels_per_mm = 8;
  print.softness = 1;
  Wishes wishes;
  wishes.height_mm = 120;
  wishes.side = Side::right;
  const auto found = silhouettes(printed(lines, print), wishes);
  ASSERT_TRUE(std::holds_alternative<Found>(found)) << std::get<std::string>(found);
  const auto& figure = std::get<Found>(found).figures.front();
  EXPECT_LE(apart(points_of(figure.outline), right_half(body)), 0.8);
  ASSERT_EQ(figure.cut_outs.size(), 1u);
  EXPECT_NEAR(leaf::bounds(figure.cut_outs[0]).height(), 12, 0.5);
}

TEST(traced, light_figures_on_a_dark_ground_come_back_too) {
  std::vector<std::uint8_t> grey(600 * 800, 30);
  for (int row = 100; row < 700; ++row)
    for (int column = 200; column < 400; ++column)
      grey[static_cast<std::size_t>(row * 600 + column)] = 220;
  const auto found = silhouettes(png_of(grey, 600, 800), {});
  ASSERT_TRUE(std::holds_alternative<Found>(found)) << std::get<std::string>(found);
  const auto& figure = std::get<Found>(found).figures.front();
  EXPECT_NEAR(figure.height_mm, 180, 0.5);
  EXPECT_NEAR(figure.width_mm, 60, 0.5);
}

TEST(traced, two_places_and_their_distance_give_the_size) {
  std::vector<std::uint8_t> grey(300 * 400, 230);
  for (int row = 50; row < 350; ++row)
    for (int column = 100; column < 200; ++column)
      grey[static_cast<std::size_t>(row * 300 + column)] = 20;
  Wishes wishes;
  wishes.distance = KnownDistance{100, 50, 100, 350, 90};
  const auto found = silhouettes(png_of(grey, 300, 400), wishes);
  ASSERT_TRUE(std::holds_alternative<Found>(found)) << std::get<std::string>(found);
  EXPECT_NEAR(std::get<Found>(found).figures.front().height_mm, 90, 0.4);
}

/// Exif 2.32, table 6: where the first row and first column of the stored picture are to be seen.
TEST(traced, pictures_are_turned_as_their_orientation_asks) {
  struct Case {
    int orientation, width, height, first_column, first_row, last_column, last_row;
  };
  // A stored picture of 3 x 2: where its first pixel and the last one of its first row are seen.
  for (const Case& c : {Case{2, 3, 2, 2, 0, 0, 0},
                        {3, 3, 2, 2, 1, 0, 1},
                        {4, 3, 2, 0, 1, 2, 1},
                        {5, 2, 3, 0, 0, 0, 2},
                        {6, 2, 3, 1, 0, 1, 2},
                        {7, 2, 3, 1, 2, 1, 0},
                        {8, 2, 3, 0, 2, 0, 0}}) {
    Picture stored{3, 2, std::vector<std::uint8_t>(24, 0)};
    stored.rgba[0] = 1;
    stored.rgba[8] = 2;
    const Picture seen = turned(stored, c.orientation);
    ASSERT_EQ(seen.width, c.width) << c.orientation;
    ASSERT_EQ(seen.height, c.height);
    EXPECT_EQ(*seen.at(c.first_column, c.first_row), 1) << c.orientation;
    EXPECT_EQ(*seen.at(c.last_column, c.last_row), 2) << c.orientation;
  }
}

TEST(traced, orientation_is_read_in_both_byte_orders) {
  const std::string little("II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0\x06\0\0\0", 22);
  const std::string big("MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0", 22);
  EXPECT_EQ(orientation_in(little), 6);
  EXPECT_EQ(orientation_in(big), 6);
  for (std::size_t length = 0; length < little.size(); ++length)
    EXPECT_EQ(orientation_in(std::string_view(little).substr(0, length)), 1) << length;
}

} // namespace
} // namespace fanwright::traced
