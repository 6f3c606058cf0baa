// Seats drawn at random: those that work keep clear of everything, those that do not are refused with remedies that
// work.
#include "fan/seat.h"
#include "fan/swept_form.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>

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
    drawn.place.hold = between(0, 1) < 0.7 ? Hold::along_edge : Hold::at_point;
    drawn.place.last_on_head = drawn.place.hold == Hold::along_edge && between(0, 1) < 0.3;
    drawn.place.below_neck_mm = between(4, 50);
    drawn.place.azimuth_deg = between(30, 150);
    drawn.place.pair = between(0, 1) < 0.5;
    drawn.place.rise_deg = between(-20, 60);
    return drawn;
  }

private:
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
  EXPECT_LE(helpless, 3); // nothing near such a seat helps
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
      for (int i = 0; i <= 4 * pleats.panels; ++i) {
        for (int j = 0; j <= 20; ++j) {
          const Point3 place =
              placed.at.in_the_round(placed.spread.place({i * pleats.depth_mm / 4, pleats.length_mm * j / 20}));
          const double radius = std::hypot(place[0], place[1]);
          for (const Swept* part : {&drawn.body.below, &drawn.body.neck, &drawn.body.head}) {
            // Two papers of 0.2 mm; the first pleat, which is glued on, is laid by places 2 mm apart.
            ASSERT_GE(part->distance(radius, place[2]), 0.2 - 0.1) << i;
          }
          ASSERT_GE(place[2], 0.1);
        }
      }
    }
  }
}

} // namespace
} // namespace fanwright::fan
