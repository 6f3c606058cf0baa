#include "fan/seat_remedies.h"

#include "fan/tolerances.h"
#include "leaf/contour.h"
#include "leaf/sentence.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace fanwright::fan {
namespace {

using leaf::in_mm;

/// Farthest place of the paper from the fan's centre, as drawn or along a straight strip.
double reach_of(const Fan& fan) {
  if (const auto* straight = std::get_if<StraightEdge>(&fan.edge)) {
    return straight->length_mm;
  }
  const leaf::Subpath& path = std::get<DrawnEdge>(fan.edge).path;
  double reach = 0;
  for (const leaf::Point& point : leaf::flatten({path.start, path.segments}, tolerance::curve_mm)) {
    reach = std::max(reach, std::hypot(point.x, point.z));
  }
  return reach;
}

class Remedies {
public:
  Remedies(const Fan& fan, const Body& body, const Seat& seat, bool stands)
      : fan_(fan), body_(body), seat_(seat), stands_(stands) {}

  std::vector<SeatChange> found(const Trial& trial) {
    move();
    if (seat_.hold == Hold::in_cell) {
      pull_out();
    }
    other_pleats();
    shorter();
    spread_less(trial);
    free_last();
    if (changes_.empty()) {
      shorter_and_moved();
    }
    if (changes_.empty()) {
      other_rise();
    }
    if (changes_.empty()) {
      smaller_somewhere();
    }
    return std::move(changes_);
  }

private:
  bool works(const SeatChange& change) const {
    Fan fan = fan_;
    Seat seat = seat_;
    apply(change, fan, seat);
    const auto made = make(fan);
    return std::holds_alternative<Made>(made) && Seating(fan, std::get<Made>(made), body_, seat, stands_).works();
  }

  /// The least whole number of steps, 1 .. most, at which a change works, looked for in strides that double.
  template <typename Change> std::optional<int> least_steps(int most, const Change& change) const {
    int failed = 0;
    for (int steps = 1; steps <= most; steps *= 2) {
      if (!works(change(steps))) {
        failed = steps;
        continue;
      }
      while (steps - failed > 1) {
        const int middle = (steps + failed) / 2;
        (works(change(middle)) ? steps : failed) = middle;
      }
      return steps;
    }
    return std::nullopt;
  }

  template <typename Change> bool add(int most, const Change& change) {
    if (changes_.size() >= most_told) {
      return true;
    }
    const auto steps = least_steps(most, change);
    if (steps) {
      changes_.push_back(change(*steps));
    }
    return steps.has_value();
  }

  void move() {
    if (!add(steps(body_.seats_from_mm() - seat_.below_neck_mm), [&](int lower) { return moved(lower); })) {
      add(steps(seat_.below_neck_mm), [&](int higher) { return moved(-higher); });
    }
  }

  void pull_out() {
    add(static_cast<int>(std::floor(seat_.depth_mm)), [&](int out) {
      return SeatChange{"/seat/depth", seat_.depth_mm - out, fmt::format("push it in {} mm less", out), {}};
    });
  }

  void other_pleats() {
    const auto pleats = [&](int more) {
      return SeatChange{
          "/pleats", static_cast<double>(fan_.pleats + more), fmt::format("use {} pleats", fan_.pleats + more), {}};
    };
    if (!add(tolerance::most_more_pleats, pleats)) {
      add(std::min(tolerance::most_more_pleats, fan_.pleats - tolerance::fewest_pleats),
          [&](int fewer) { return pleats(-fewer); });
    }
  }

  void shorter() {
    const double from = std::ceil(reach_of(fan_));
    add(static_cast<int>(from - tolerance::least_length_mm), [&](int less) { return of_reach(from - less); });
  }

  void spread_less(const Trial& trial) {
    const auto* straight = std::get_if<StraightEdge>(&fan_.edge);
    const double from = straight ? std::min(std::ceil(trial.most_deg), std::ceil(straight->spread_deg)) : 0;
    // Less spread, the packed paper takes a wider gathered end: what could be spread may not be what works.
    add(static_cast<int>(from - tolerance::least_spread_deg), [&](int less) {
      return SeatChange{"/spread", from - less, fmt::format("spread it {:.0f} degrees", from - less), {}};
    });
  }

  static constexpr std::size_t most_told = 2; ///< more are no help to a reader

  void free_last() {
    const SeatChange change{"/seat/last_on_head", 0, "leave its last side free", {}};
    if (changes_.size() < most_told && seat_.last_on_head && works(change)) {
      changes_.push_back(change);
    }
  }

  /// When no change will do alone: shorter by tenths, and moved as little as can be.
  void shorter_and_moved() {
    for (int tenths = 9; tenths >= 3 && changes_.empty(); --tenths) {
      const SeatChange smaller = of_reach(std::floor(reach_of(fan_) * tenths / 10));
      const auto both = [&](int lower) {
        SeatChange change = moved(lower);
        change.sentence += " and " + smaller.sentence;
        change.also = {smaller};
        return change;
      };
      if (!add(steps(seat_.below_neck_mm), [&](int higher) { return both(-higher); })) {
        add(steps(body_.seats_from_mm() - seat_.below_neck_mm), both);
      }
    }
  }

  /// The nearest rise, in steps of 5 degrees.
  void other_rise() {
    const int here = static_cast<int>(std::lround(seat_.rise_deg / 5));
    for (int off = 1; off <= 36 && seat_.hold != Hold::along_edge; ++off) {
      for (const int rise : {5 * (here + off), 5 * (here - off)}) {
        const SeatChange change{
            "/seat/rise", static_cast<double>(rise), fmt::format("let its middle rise to {} degrees", rise), {}};
        if (std::abs(rise) <= 90 && works(change)) {
          changes_.push_back(change);
          return;
        }
      }
    }
  }

  /// Where nothing that is near helps: the largest part of the fan, spread as far as can be, for which the body has a
  /// place at all; the last side free.
  void smaller_somewhere() {
    // What is drawn is spread as drawn.
    const std::vector<double> shares =
        std::holds_alternative<StraightEdge>(fan_.edge) ? std::vector{1.0, 0.5, 0.25} : std::vector{1.0};
    for (const int tenths : {8, 6, 4, 3, 2}) {
      const SeatChange smaller = of_reach(std::floor(reach_of(fan_) * tenths / 10));
      for (const double share : shares) {
        for (int off = 0; off <= steps(body_.seats_from_mm()); off += coarse_step_mm) {
          for (const int lower : {off, -off}) {
            SeatChange change = moved_and(lower, smaller, share);
            if (seat_.below_neck_mm + lower >= 0 && works(change)) {
              changes_.push_back(std::move(change));
              return;
            }
          }
        }
      }
    }
  }

  /// A move with all that goes with it.
  SeatChange moved_and(int lower, const SeatChange& smaller, double share) const {
    SeatChange change = smaller;
    const auto add = [&](SeatChange other) {
      change.sentence += " and " + other.sentence;
      change.also.push_back(std::move(other));
    };
    if (lower != 0) {
      add(moved(lower));
    }
    if (const auto* straight = std::get_if<StraightEdge>(&fan_.edge); straight != nullptr && share < 1) {
      const double spread = std::max(std::floor(straight->spread_deg * share), tolerance::least_spread_deg);
      add({"/spread", spread, fmt::format("spread it {:.0f} degrees", spread), {}});
    }
    if (seat_.last_on_head) {
      add({"/seat/last_on_head", 0, "leave its last side free", {}});
    }
    return change;
  }

  static constexpr int coarse_step_mm = 3;

  SeatChange moved(int lower) const {
    return {"/seat/below_neck",
            seat_.below_neck_mm + lower,
            fmt::format("seat it {} mm {}", std::abs(lower), lower > 0 ? "lower" : "higher"),
            {}};
  }

  static int steps(double room_mm) {
    return static_cast<int>(std::floor(std::clamp(room_mm, 0.0, tolerance::farthest_move_mm)));
  }

  SeatChange of_reach(double reach) const {
    return std::holds_alternative<StraightEdge>(fan_.edge)
               ? SeatChange{"/length", reach, fmt::format("make its pleats {:.0f} mm long", reach), {}}
               : SeatChange{"/outline", reach, fmt::format("draw it with a radius of {:.0f} mm", reach), {}};
  }

  const Fan& fan_;
  const Body& body_;
  const Seat& seat_;
  bool stands_;
  std::vector<SeatChange> changes_;
};

std::string reason(const Body& body, const Seat& seat, const Trial& trial) {
  const char* part = trial.limited_by ? named(*trial.limited_by) : "";
  switch (trial.fault) {
  case Fault::no_place:
    return fmt::format("There is no leaf edge {} below the {} for the fan to sit on", in_mm(seat.below_neck_mm),
                       body.neck_mm ? "neck" : "top");
  case Fault::no_room:
    return fmt::format("The fan does not fit in there even folded up: {} is in its way", part);
  case Fault::too_narrow:
    return fmt::format("There the fan spreads to {:.0f} of its {:.0f} degrees and then meets {}",
                       std::floor(trial.most_deg), trial.wanted_deg, part);
  case Fault::short_of_head:
    return fmt::format("Spread as far as its creases go, {:.0f} degrees, the last side does not reach the head",
                       trial.own_deg);
  case Fault::stopped_before_head:
    return fmt::format("The last side does not reach the head: the fan meets {} before", part);
  case Fault::loose:
    return fmt::format("The {} side pleat lies against the leaf edges over only {}, too little to hold",
                       trial.loose_last ? "last" : "first", in_mm(trial.held_mm));
  case Fault::none:
    break;
  }
  return "";
}

/// Key at which a fault is put right.
const char* place_of(Fault fault) { return fault == Fault::short_of_head ? "/pleats" : "/seat/below_neck"; }

} // namespace

const char* named(Part part) {
  switch (part) {
  case Part::body:
    return "the body";
  case Part::neck:
    return "the neck";
  case Part::head:
    return "the head";
  case Part::table:
    return "the table";
  case Part::twin:
    return "its mirror image";
  case Part::leaves:
    return "the leaves of its cell";
  }
  return "";
}

Unseated unseated(const Fan& fan, const Body& body, const Seat& seat, bool stands, const Trial& trial) {
  Unseated refused{
      {place_of(trial.fault), ""}, reason(body, seat, trial), Remedies(fan, body, seat, stands).found(trial)};
  refused.why.sentence = sentence_of(refused.reason, refused.remedies);
  return refused;
}

std::string sentence_of(const std::string& reason, const std::vector<SeatChange>& remedies) {
  std::string sentence = reason;
  for (std::size_t i = 0; i < remedies.size(); ++i) {
    sentence += (i == 0 ? "; " : ", or ") + remedies[i].sentence;
  }
  return sentence + (remedies.empty() ? "; choose another place or a smaller fan." : ".");
}

void apply(const SeatChange& change, Fan& fan, Seat& seat) {
  auto* straight = std::get_if<StraightEdge>(&fan.edge);
  if (change.where == "/seat/below_neck") {
    seat.below_neck_mm = change.value;
  } else if (change.where == "/seat/depth") {
    seat.depth_mm = change.value;
  } else if (change.where == "/seat/rise") {
    seat.rise_deg = change.value;
  } else if (change.where == "/pleats") {
    fan.pleats = static_cast<int>(std::lround(change.value));
  } else if (change.where == "/spread" && straight) {
    straight->spread_deg = change.value;
  } else if (change.where == "/length" || change.where == "/outline") {
    fan = with_reach(fan, change.value);
  } else if (change.where == "/seat/last_on_head") {
    seat.last_on_head = change.value != 0;
  }
  for (const SeatChange& other : change.also) {
    apply(other, fan, seat);
  }
}

Fan with_reach(const Fan& fan, double reach_mm) {
  Fan other = fan;
  if (auto* straight = std::get_if<StraightEdge>(&other.edge)) {
    straight->length_mm = reach_mm;
    return other;
  }
  leaf::Subpath& path = std::get<DrawnEdge>(other.edge).path;
  const leaf::Contour contour = leaf::scaled({path.start, path.segments}, reach_mm / reach_of(fan));
  path.start = contour.start;
  path.segments = contour.segments;
  return other;
}

} // namespace fanwright::fan
