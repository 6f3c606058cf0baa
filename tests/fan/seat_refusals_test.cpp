// Seats drawn at random: those that work keep clear of everything, those that do not are refused with remedies that
// work.
#include "fan/seat.h"
#include "fan/swept_form.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numbers>
#include <random>
#include <utility>

namespace fanwright::fan {
namespace {

/// Seed of the seats.
constexpr unsigned seed = 91;

struct Attempt {
  Fan fan;
  Body body;
  Seat place;
};

class Attempts {
public:
  explicit Attempts(unsigned chance_seed) : chance_(chance_seed) {}

  Attempt next() {
    Attempt drawn;
    const double neck = between(5, 10), height = between(90, 150), shoulder = between(12, 20);
    drawn.body = swept_body(figure_outline(between(30, 60), shoulder, height, neck, neck + between(5, 20)), 24);
    drawn.fan = straight_fan(between(8, 12), static_cast<int>(between(5, 8)), between(25, 45), between(70, 120));
    if (between(0, 1) < 0.3) {
      drawn.fan.edge = feathered(between(70, 120), between(30, 50));
    }
    drawn.place.hold = between(0, 1) < 0.7 ? Hold::along_edge : Hold::at_point;
    drawn.place.last_on_head = drawn.place.hold == Hold::along_edge && between(0, 1) < 0.3;
    drawn.place.below_neck_mm = between(4, 50);
    drawn.place.azimuth_deg = between(30, 150);
    drawn.place.pair = between(0, 1) < 0.5;
    drawn.place.rise_deg = between(-20, 60);
    return drawn;
  }

private:
  /// An outline of three feathers, the middle one the longest.
  DrawnEdge feathered(double spread_deg, double reach) {
    leaf::Subpath path;
    const auto at = [&](double share, double radius) {
      const double azimuth = (90 + spread_deg * (0.5 - share)) * std::numbers::pi / 180;
      return leaf::Point{radius * std::cos(azimuth), radius * std::sin(azimuth)};
    };
    path.start = at(0, 0.8 * reach);
    for (const auto& [share, long_share] : {std::pair{0.3, 0.75}, {0.5, 1.0}, {0.7, 0.75}, {1.0, between(0.7, 0.9)}}) {
      path.segments.emplace_back(leaf::Line{at(share, long_share * reach)});
    }
    return {path};
  }

  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(chance_()) / 4294967296.0);
  }

  std::mt19937 chance_;
};

TEST(seat_refusals, a_hundred_seats_that_cannot_work_are_refused_and_every_remedy_works) {
  Attempts attempts(seed);
  int refused = 0, remedies = 0, helpless = 0;
  std::map<std::string, int> keys;
  while (refused < 100) {
    const Attempt drawn = attempts.next();
    if (std::holds_alternative<design::Refusal>(make(drawn.fan))) {
      continue; // the fan itself, see fan_test.cpp
    }
    const auto result = seat(drawn.fan, drawn.body, drawn.place, true);
    const auto* no = std::get_if<Unseated>(&result);
    if (no == nullptr) {
      continue;
    }
    ++refused;
    helpless += no->remedies.empty() ? 1 : 0;
    EXPECT_EQ(no->why.sentence.find(". "), std::string::npos) << "one sentence: " << no->why.sentence;
    EXPECT_TRUE(no->why.sentence.ends_with('.'));
    for (const SeatChange& change : no->remedies) {
      Fan fan = drawn.fan;
      Seat place = drawn.place;
      apply(change, fan, place);
      const auto again = seat(fan, drawn.body, place, true);
      EXPECT_TRUE(std::holds_alternative<Seated>(again)) << no->why.sentence << "\n" << change.sentence;
      EXPECT_NE(no->why.sentence.find(change.sentence), std::string::npos);
      ++remedies;
      ++keys[change.where];
    }
  }
  EXPECT_EQ(helpless, 0);
  EXPECT_GT(remedies, 100);
  EXPECT_GE(keys.size(), 3U);
}

TEST(seat_refusals, seats_that_work_keep_paper_off_paper_and_table) {
  Attempts attempts(seed + 1);
  for (int worked = 0; worked < 12;) {
    const Attempt drawn = attempts.next();
    const auto result = seat(drawn.fan, drawn.body, drawn.place, true);
    const auto* found = std::get_if<Seated>(&result);
    if (found == nullptr) {
      continue;
    }
    ++worked;
    EXPECT_LE(found->taken_deg, found->most_deg);
    for (const Placed& placed : found->fans) {
      const Pleats& pleats = placed.spread.pleats();
      leaf::Ring flat = {{pleats.panels * pleats.depth_mm, 0}, {0, 0}};
      for (const auto& run : placed.strip.edge) {
        flat.insert(flat.end(), run.begin(), run.end());
      }
      for (int i = 1; i < 6 * pleats.panels; ++i) {
        const double u = i * pleats.depth_mm / 6, top = paper_at(flat, u)[1];
        for (int j = 0; j <= 40; ++j) {
          const Point3 place = placed.at.in_the_round(placed.spread.place({u, top * j / 40}));
          const double radius = std::hypot(place[0], place[1]);
          for (const Swept* part : {&drawn.body.below, &drawn.body.neck, &drawn.body.head}) {
            // Two papers of 0.2 mm, the first pleat's too, which is glued on; the creases' arcs are followed to 0.002.
            ASSERT_GE(part->distance(radius, place[2]), 0.2 - 0.002) << i;
          }
          ASSERT_GE(place[2], 0.1);
        }
      }
    }
  }
}

} // namespace
} // namespace fanwright::fan
