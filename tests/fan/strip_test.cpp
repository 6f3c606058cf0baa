#include "fan/random_fans.h"
#include "fan/strip.h"
#include "leaf/contour.h"
#include "leaf/region.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

namespace fanwright::fan {
namespace {

constexpr double pi = std::numbers::pi;
using leaf::Point;

Point polar(double distance_mm, double azimuth_deg) {
  return {distance_mm * std::cos(azimuth_deg * pi / 180), distance_mm * std::sin(azimuth_deg * pi / 180)};
}

leaf::Subpath path_of(const std::string& text) {
  return std::get<std::vector<leaf::Subpath>>(leaf::parse_path_data(text)).front();
}

/// `count` feathers from azimuth 160 clockwise over `spread_deg`: round tips at the reach, sharp notches between them,
/// each feather `taper` times as long as the one before.
DrawnEdge feathers(int count, double reach_mm, double spread_deg, double notch, double taper) {
  leaf::Subpath path{polar(reach_mm * notch, 160), {}, false};
  double reach = reach_mm;
  for (int k = 0; k < count; ++k) {
    const double from = 160 - spread_deg * k / count, to = 160 - spread_deg * (k + 1) / count;
    const Point tip1 = polar(reach * 1.1, from - 0.2 * (from - to)), tip2 = polar(reach * 1.1, to + 0.2 * (from - to));
    reach *= taper;
    path.segments.emplace_back(leaf::Cubic{tip1, tip2, polar(reach * notch, to)});
  }
  return {path};
}

Fan wing(const DrawnEdge& edge, double depth_mm, int pleats) {
  Fan fan;
  fan.depth_mm = depth_mm;
  fan.pleats = pleats;
  fan.paper.caliper_mm = 0.15;
  fan.edge = edge;
  return fan;
}

Made made_of(const Fan& fan) {
  auto made = make(fan);
  if (const auto* refusal = std::get_if<design::Refusal>(&made)) {
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
  }
  return std::get<Made>(std::move(made));
}

std::vector<StripPart> parts_of(const Strip& strip, double most_length_mm = 1e4) {
  auto found = parts(strip, most_length_mm);
  if (const auto* refusal = std::get_if<design::Refusal>(&found)) {
    ADD_FAILURE() << refusal->sentence;
  }
  return std::get<std::vector<StripPart>>(std::move(found));
}

/// Points at most 0.05 mm apart along a line of points.
std::vector<Point> dense(const std::vector<Point>& line) {
  std::vector<Point> points;
  for (std::size_t k = 1; k < line.size(); ++k) {
    const double length = std::hypot(line[k].x - line[k - 1].x, line[k].z - line[k - 1].z);
    const int steps = std::max(1, static_cast<int>(std::ceil(length / 0.05)));
    for (int i = 0; i <= steps; ++i) {
      const double t = static_cast<double>(i) / steps;
      points.push_back(
          {line[k - 1].x + t * (line[k].x - line[k - 1].x), line[k - 1].z + t * (line[k].z - line[k - 1].z)});
    }
  }
  return points;
}

/// The outer edge of the spread fan, seen along Z: the cut line of the parts folded and spread. Points of laps, flaps,
/// sides and gathered end are left out.
std::vector<Point> seen_edge(const Spread& spread, const std::vector<StripPart>& all) {
  const double length = spread.pleats().panels * spread.pleats().depth_mm;
  std::vector<Point> seen;
  for (const StripPart& part : all) {
    leaf::Ring ring = leaf::flatten(part.cut, 0.005);
    ring.push_back(ring.front());
    double left = ring.front().x, right = left;
    for (const Point p : ring) {
      left = std::min(left, p.x), right = std::max(right, p.x);
    }
    left = std::max(left, 0.0), right = std::min(right, length);
    for (const Point p : dense(ring)) {
      const bool side = p.x < left + 1e-6 || p.x > right - 1e-6;
      if (!side && p.z > 0.5) {
        const Point3 place = spread.place(p);
        seen.push_back({place[0], place[1]});
      }
    }
  }
  return seen;
}

/// Largest distance from a point of `a` to the nearest of `b`.
double farthest(const std::vector<Point>& a, const std::vector<Point>& b) {
  double worst = 0;
  for (std::size_t k = 0; k < a.size(); k += 23) {
    double nearest = 1e9;
    for (const Point q : b) {
      nearest = std::min(nearest, std::hypot(a[k].x - q.x, a[k].z - q.z));
    }
    worst = std::max(worst, nearest);
  }
  return worst;
}

double missed(const Made& made, const std::vector<StripPart>& all, const leaf::Subpath& wanted) {
  const auto seen = seen_edge(made.spread, all);
  auto line = leaf::flatten({wanted.start, wanted.segments}, 0.005);
  line.push_back(leaf::end_of(wanted.segments.back()));
  const auto drawn = dense(line);
  return std::max(farthest(seen, drawn), farthest(drawn, seen));
}

TEST(strip, a_feathered_wing_spreads_to_the_outline_that_was_drawn) {
  const DrawnEdge edge = feathers(6, 70, 120, 0.8, 0.95);
  const Made made = made_of(wing(edge, 9, 12));
  EXPECT_NEAR(made.spread.spread_deg(), 120, 1e-9);
  EXPECT_NEAR(made.spread.first_side_deg(), 160, 1e-9);
  const double size = 70;
  EXPECT_LT(missed(made, parts_of(made.strip), edge.path), std::min(0.3, 0.002 * size) + 0.01);
}

TEST(strip, outlines_of_many_shapes_come_back_within_0_3_mm_and_0_2_percent) {
  for (const int count : {1, 3, 7}) {
    for (const double spread_deg : {60.0, 180.0, 300.0}) {
      if (spread_deg / count > 100) {
        continue; // no feather is that broad
      }
      for (const double reach : {45.0, 120.0}) {
        const DrawnEdge edge = feathers(count, reach, spread_deg, 0.85, 0.98);
        const double depth = reach / 9;
        const Made made = made_of(wing(edge, depth, static_cast<int>(std::ceil(spread_deg / 11))));
        EXPECT_LT(missed(made, parts_of(made.strip), edge.path), std::min(0.3, 0.002 * reach) + 0.01)
            << count << " feathers, " << spread_deg << " degrees, " << reach << " mm";
      }
    }
  }
}

TEST(strip, a_scalloped_collar_goes_all_the_way_round) {
  std::string text = "M 0 60 ";
  for (int k = 1; k <= 12; ++k) {
    const Point to = polar(60, 90 + 30 * k);
    text += "A 18 18 0 0 1 " + std::to_string(to.x) + " " + std::to_string(to.z) + " ";
  }
  const DrawnEdge edge{path_of(text)};
  const Made made = made_of(wing(edge, 10, 26));
  EXPECT_TRUE(is_disc(made.spread));
  EXPECT_LT(missed(made, parts_of(made.strip), edge.path), std::min(0.3, 0.002 * 60) + 0.01);
}

TEST(strip, corners_stay_corners_and_curves_take_few_points) {
  const Made made = made_of(wing(feathers(6, 70, 120, 0.8, 0.95), 9, 12));
  EXPECT_EQ(made.strip.edge.size(), 6U) << "a run for each feather, corners at the notches";
  const auto all = parts_of(made.strip);
  EXPECT_LE(all.front().cut.segments.size(), 6U * 12 + 8);
}

TEST(strip, a_straight_strip_is_cut_with_straight_lines_alone) {
  Fan fan;
  fan.edge = StraightEdge{60, 360};
  fan.pleats = 24;
  const Made made = made_of(fan);
  const auto all = parts_of(made.strip);
  ASSERT_EQ(all.size(), 1U);
  for (const leaf::Segment& segment : all.front().cut.segments) {
    EXPECT_TRUE(std::holds_alternative<leaf::Line>(segment));
  }
  // 48 panels of 10 mm and a flap of 0.8 p (0.6 to 1 p: common practice, no source).
  const leaf::Box box = leaf::bounds(all.front().cut);
  EXPECT_NEAR(box.width(), 488, 1e-9);
  EXPECT_NEAR(box.height(), 60, 1e-9);
}

TEST(strip, scores_alternate_and_both_side_pleats_look_the_same_way) {
  const Made made = made_of(wing(feathers(5, 70, 100, 0.8, 1), 9, 10));
  const auto all = parts_of(made.strip);
  const auto& scores = all.front().scores;
  ASSERT_EQ(scores.size(), 20U) << "the flap's and 19 between 20 panels";
  for (std::size_t k = 0; k < scores.size(); ++k) {
    EXPECT_EQ(scores[k].crease, static_cast<int>(k));
    EXPECT_EQ(scores[k].fold, k % 2 == 1 ? Fold::mountain : Fold::valley);
    EXPECT_NEAR(scores[k].from.x, 9.0 * static_cast<double>(k), 1e-9);
    EXPECT_NEAR(scores[k].from.z, 0, 1e-9);
  }
  // Folded up, panels lie on each other front to front and back to back; outside are the first panel's face and the
  // last's. Each mountain or valley turns the paper over, so an even number of panels shows the same face twice.
  EXPECT_EQ(made.strip.panels % 2, 0);
  const auto sides = {made.spread.crease(0, 40)[2], made.spread.crease(made.strip.panels, 40)[2]};
  EXPECT_LT(*sides.begin() * *(sides.begin() + 1) * -1, 0) << "both sides on the same hand of the plane";
}

TEST(strip, mountains_of_the_strip_are_the_creases_above_the_plane) {
  const Made made = made_of(wing(feathers(5, 70, 100, 0.8, 1), 9, 10));
  for (const Strip& strip : {made.strip, mirrored(made.strip)}) {
    for (const StripPart& part : parts_of(strip)) {
      for (const Score& score : part.scores) {
        EXPECT_EQ(score.fold == Fold::mountain, made.spread.crease(score.crease, 30)[2] > 0);
      }
    }
  }
}

/// The spread wing of a strip as it is cut and scored, folded by its scores: places of points of its paper and whether
/// each crease stands up. A `turned` strip is folded by its own creases from its own left.
std::vector<Point3> folded(const Strip& strip, const Spread& spread, double middle_deg) {
  const Spread own(spread.pleats(), spread.spread_deg(), middle_deg);
  std::vector<Point3> places;
  for (const StripPart& part : parts_of(strip)) {
    for (const Point p : dense(leaf::flatten(part.cut, 0.01))) {
      if (p.x > 0.1 && p.x < strip.length_mm() - 0.1 && p.z > 0.5) {
        places.push_back(own.place(p));
      }
    }
  }
  return places;
}

double apart(const std::vector<Point3>& a, const std::vector<Point3>& b) {
  double worst = 0;
  for (std::size_t k = 0; k < a.size(); k += 10) {
    double nearest = 1e9;
    for (const Point3& q : b) {
      nearest = std::min(nearest, distance(a[k], q));
    }
    worst = std::max(worst, nearest);
  }
  return worst;
}

std::vector<Point3> image_in_x(std::vector<Point3> places) {
  for (Point3& place : places) {
    place[0] = -place[0];
  }
  return places;
}

TEST(strip, a_pair_of_wings_are_mirror_images_and_never_two_left_ones) {
  // Feathers that grow shorter towards one side, so that a left wing is no right wing.
  const Made right = made_of(wing(feathers(5, 80, 110, 0.8, 0.9), 9, 11));
  const double middle = right.spread.first_side_deg() - right.spread.spread_deg() / 2;
  const Strip left = mirrored(right.strip);
  const auto right_wing = folded(right.strip, right.spread, middle);
  const auto left_wing = folded(left, right.spread, 180 - middle);
  EXPECT_LT(apart(image_in_x(right_wing), left_wing), 0.2);
  EXPECT_LT(apart(left_wing, image_in_x(right_wing)), 0.2);
  const auto second_right = folded(right.strip, right.spread, 180 - middle);
  EXPECT_GT(apart(image_in_x(right_wing), second_right), 5);
}

TEST(strip, the_left_wing_is_cut_and_scored_as_the_mirror_image_of_the_right_one) {
  const Made made = made_of(wing(feathers(5, 80, 110, 0.8, 0.9), 9, 11));
  const auto right = parts_of(made.strip), left = parts_of(mirrored(made.strip));
  const double length = made.strip.length_mm();
  ASSERT_EQ(right.front().scores.size(), left.front().scores.size());
  const auto& scores = left.front().scores;
  for (const Score& score : right.front().scores) {
    const bool found = std::any_of(scores.begin(), scores.end(), [&](const Score& other) {
      return other.fold == score.fold && std::abs(other.from.x - (length - score.from.x)) < 1e-6 &&
             std::abs(other.to.z - score.to.z) < 0.3;
    });
    EXPECT_TRUE(found) << "crease " << score.crease;
  }
  const leaf::Box box = leaf::bounds(right.front().cut), image = leaf::bounds(left.front().cut);
  EXPECT_NEAR(box.left, -made.strip.flap_mm, 1e-9);
  EXPECT_NEAR(image.right, length + made.strip.flap_mm, 1e-9) << "the flap stays at the first side";
  leaf::Ring ring = leaf::flatten(right.front().cut, 0.02);
  for (Point& p : ring) {
    p.x = length - p.x;
  }
  EXPECT_GT(leaf::overlap(ring, leaf::flatten(left.front().cut, 0.02)), 0.998);
  EXPECT_LT(leaf::overlap(leaf::flatten(right.front().cut, 0.02), leaf::flatten(left.front().cut, 0.02)), 0.97);
}

TEST(strip, joined_strips_overlap_inside_a_pleat_clear_of_its_creases) {
  Fan fan;
  fan.edge = StraightEdge{60, 360};
  fan.pleats = 24;
  const Made made = made_of(fan);
  for (const Strip& strip : {made.strip, mirrored(made.strip)}) {
    const auto all = parts_of(strip, 200);
    ASSERT_EQ(all.size(), 3U);
    int scores = 0;
    for (std::size_t k = 0; k < all.size(); ++k) {
      const leaf::Box box = leaf::bounds(all[k].cut);
      EXPECT_LE(box.width(), 200 + 1e-9);
      scores += static_cast<int>(all[k].scores.size());
      if (k + 1 < all.size()) {
        const leaf::Box next = leaf::bounds(all[k + 1].cut);
        EXPECT_NEAR(box.right - next.left, strip.lap_mm, 1e-9);
        EXPECT_GE(std::fmod(next.left, 10), 1);
        EXPECT_LE(std::fmod(box.right, 10), 9);
        EXPECT_EQ(std::floor(next.left / 10), std::floor(box.right / 10));
      }
    }
    EXPECT_EQ(scores, 48) << "no score is lost or doubled where strips are joined";
  }
}

TEST(strip, a_joined_wing_has_the_same_outline) {
  const DrawnEdge edge = feathers(8, 90, 150, 0.85, 0.97);
  const Made made = made_of(wing(edge, 10, 16));
  const auto all = parts_of(made.strip, 190);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_LT(missed(made, all, edge.path), 0.2);
}

TEST(strip, every_part_is_a_sound_piece_of_paper) {
  for (const double longest : {1e4, 260.0, 140.0}) {
    const Made made = made_of(wing(feathers(8, 90, 150, 0.85, 0.97), 10, 16));
    for (const StripPart& part : parts_of(made.strip, longest)) {
      EXPECT_GT(leaf::signed_area(part.cut), 0);
      EXPECT_FALSE(leaf::self_contact(leaf::flatten(part.cut, 0.02)));
    }
  }
}

TEST(strip, no_place_for_a_joint_is_refused) {
  Fan fan;
  fan.edge = StraightEdge{60, 360};
  fan.pleats = 24;
  const auto refused = parts(made_of(fan).strip, 12);
  ASSERT_TRUE(std::holds_alternative<design::Refusal>(refused));
}

} // namespace
} // namespace fanwright::fan
