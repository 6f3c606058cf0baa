#include "leaf/path_data.h"

#include "leaf/contour.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <numbers>

namespace fanwright::leaf {
namespace {

std::vector<Subpath> parsed(const std::string& text) {
  auto result = parse_path_data(text);
  if (const auto* fault = std::get_if<PathFault>(&result)) {
    ADD_FAILURE() << text << ": " << fault->sentence;
    return {};
  }
  return std::get<std::vector<Subpath>>(result);
}

/// End points of the only subpath, its start first.
std::vector<Point> stations(const std::string& text) {
  const auto subpaths = parsed(text);
  EXPECT_EQ(subpaths.size(), 1u) << text;
  if (subpaths.empty())
    return {};
  std::vector<Point> points{subpaths[0].start};
  for (const Segment& segment : subpaths[0].segments)
    points.push_back(end_of(segment));
  return points;
}

void expect_fault(const std::string& text, std::size_t position) {
  const auto result = parse_path_data(text);
  const auto* fault = std::get_if<PathFault>(&result);
  ASSERT_NE(fault, nullptr) << "accepted: " << text;
  EXPECT_EQ(fault->position, position) << text << ": " << fault->sentence;
  EXPECT_NE(fault->sentence.find("character " + std::to_string(position)), std::string::npos) << fault->sentence;
}

TEST(leaf, reads_the_compact_number_forms_of_the_svg_grammar) {
  // SVG 2, section 9.3.9: "M 100-200" is M 100 -200; "M 0.6.5" is M 0.6 0.5.
  EXPECT_EQ(stations("M 100-200L0 0"), (std::vector<Point>{{100, -200}, {0, 0}}));
  EXPECT_EQ(stations("M 0.6.5L0 0"), (std::vector<Point>{{0.6, 0.5}, {0, 0}}));
  EXPECT_EQ(stations("M1.5.5-1-2"), (std::vector<Point>{{1.5, 0.5}, {-1, -2}}));
  EXPECT_EQ(stations("M+1e-3,1E1L.5e+1 2."), (std::vector<Point>{{0.001, 10}, {5, 2}}));
  EXPECT_EQ(stations("\t M\n0,0\r\nL 1 , 2 "), (std::vector<Point>{{0, 0}, {1, 2}}));
}

TEST(leaf, reads_arc_flags_without_separators) {
  const auto spaced = parsed("M 0 0 A 25 25 -30 0 1 50 -25");
  for (const char* text : {"M0 0A25 25-30 0150-25", "M0 0A25,25,-30,0,1,50,-25", "M0 0a25 25-30 01 50-25"}) {
    const auto compact = parsed(text);
    ASSERT_EQ(compact.size(), 1u);
    const Arc& a = std::get<Arc>(compact[0].segments[0]);
    const Arc& b = std::get<Arc>(spaced[0].segments[0]);
    EXPECT_EQ(a.to, b.to) << text;
    EXPECT_EQ(a.rotation_deg, -30);
    EXPECT_FALSE(a.large);
    EXPECT_TRUE(a.sweep);
  }
}

TEST(leaf, relative_commands_are_the_absolute_ones_moved) {
  const std::string absolute = "M10 20L30 40H50V60C51 61 52 62 53 63S55 65 56 66Q57 67 58 68T60 70A5 6 7 0 1 61 71Z";
  const std::string relative = "m10 20l20 20h20v20c1 1 2 2 3 3s2 2 3 3q1 1 2 2t2 2a5 6 7 0 1 1 1z";
  EXPECT_EQ(stations(absolute), stations(relative));
}

TEST(leaf, smooth_commands_mirror_the_last_control_point) {
  const auto path = parsed("M0 0C0 10 10 20 20 20S40 10 40 0Q50 -10 60 0T80 0 S 85 9 90 0");
  EXPECT_EQ(std::get<Cubic>(path[0].segments[1]).control1, (Point{30, 20}));
  EXPECT_EQ(std::get<Quadratic>(path[0].segments[3]).control, (Point{70, 10}));
  // SVG 2, section 9.3.6: after anything but C or S the first control point is the current point.
  EXPECT_EQ(std::get<Cubic>(path[0].segments[4]).control1, (Point{80, 0}));
}

TEST(leaf, repeats_commands_and_draws_lines_after_a_move) {
  EXPECT_EQ(stations("m 1 1 2 0 0 2"), (std::vector<Point>{{1, 1}, {3, 1}, {3, 3}}));
  EXPECT_EQ(stations("M0 0H1 2 3"), (std::vector<Point>{{0, 0}, {1, 0}, {2, 0}, {3, 0}}));
}

TEST(leaf, closes_to_the_start_and_goes_on_from_there) {
  const auto path = parsed("M1 1H5V5ZL9 9M2 2M3 3h1v1z");
  ASSERT_EQ(path.size(), 3u);
  EXPECT_TRUE(path[0].closed);
  EXPECT_EQ(end_of(path[0].segments.back()), (Point{1, 1}));
  EXPECT_EQ(path[1].start, (Point{1, 1}));
  EXPECT_FALSE(path[1].closed);
  EXPECT_EQ(path[2].start, (Point{3, 3}));
}

TEST(leaf, arcs_enclose_the_standards_three_quarter_pie) {
  // SVG 2, section 9.3.8, first example of elliptical arcs: three quarters of a circle of radius 150.
  const auto path = parsed("M300,200 h-150 a150,150 0 1,0 150,-150 z");
  const double area = signed_area(Contour{path[0].start, path[0].segments});
  EXPECT_NEAR(std::abs(area), 0.75 * std::numbers::pi * 150 * 150, 1e-8);
}

TEST(leaf, a_radius_of_nothing_makes_a_line) {
  EXPECT_TRUE(std::holds_alternative<Line>(parsed("M0 0A0 5 0 0 1 9 9")[0].segments[0]));
}

TEST(leaf, refuses_path_data_naming_the_character) {
  expect_fault("", 1);
  expect_fault("L 1 2", 1);
  expect_fault("M 1", 4);
  expect_fault("M 1 2 L", 8);
  expect_fault("M ,1 2", 3);
  expect_fault("M 1,,2", 5);
  expect_fault("M 1 2, L 3 4", 8);
  expect_fault("M 1 2 B 3 4", 7);
  expect_fault("M 1 2 L 3 .", 11);
  expect_fault("M 1 2 L 3 4e", 12);
  expect_fault("M 0 0 A 5 5 0 2 1 9 9", 15);
  expect_fault("M 0 0 Z 5", 9);
  expect_fault("M 0 0 L nan 5", 9);
  expect_fault("M 0 0 L 1e999 5", 9);
  expect_fault("M 0 0 L 100001 5", 9);
  expect_fault("M 0 0 l 60000 0 60000 0", 17);
  expect_fault("M 0 0 L 5 \xc3\xa9", 11);
}

TEST(leaf, refuses_more_than_twenty_thousand_commands) {
  std::string text = "M0 0";
  for (int i = 0; i < 19'999; ++i)
    text += i % 2 == 0 ? "h1" : "h-1";
  EXPECT_TRUE(std::holds_alternative<std::vector<Subpath>>(parse_path_data(text)));
  text += "h1";
  EXPECT_TRUE(std::holds_alternative<PathFault>(parse_path_data(text)));
}

RC_GTEST_PROP(leaf, any_text_ends_in_curves_or_a_place_inside_the_text, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(
      rc::gen::element<std::string>("M", "m0 0", "Z", "l", "c", "S", "q", "T", "A", "h", "v", "1", "-", ".", "e", ",",
                                    " ", "0", "5.5", "\x80", std::string(1, '\0'), "1e5", "9"));
  std::string text;
  for (const auto& piece : pieces)
    text += piece;
  const auto result = parse_path_data(text);
  if (const auto* fault = std::get_if<PathFault>(&result))
    RC_ASSERT(fault->position >= 1 && fault->position <= text.size() + 1);
  else
    for (const Subpath& subpath : std::get<std::vector<Subpath>>(result))
      RC_ASSERT(!subpath.segments.empty());
}

} // namespace
} // namespace fanwright::leaf
