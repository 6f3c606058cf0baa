#include "fan/seat_room.h"

#include "fan/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <queue>

namespace fanwright::fan {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// Highest point of the cut edge over stretches of equal width from end to end of the strip.
std::vector<double> tops_of(const Strip& strip, int stretches) {
  const double wide = strip.length_mm() / stretches;
  std::vector<double> tops(static_cast<std::size_t>(stretches), 0.0);
  const auto raise = [&](int i, double height) {
    if (i >= 0 && i < stretches) {
      tops[static_cast<std::size_t>(i)] = std::max(tops[static_cast<std::size_t>(i)], height);
    }
  };
  for (const auto& run : strip.edge) {
    for (std::size_t i = 0; i + 1 < run.size(); ++i) {
      const leaf::Point a = run[i].x <= run[i + 1].x ? run[i] : run[i + 1];
      const leaf::Point b = run[i].x <= run[i + 1].x ? run[i + 1] : run[i];
      const int from = static_cast<int>(std::floor(a.x / wide)), to = static_cast<int>(std::floor(b.x / wide));
      // Ends on the line between two stretches belong to both.
      for (int k = from - 1; k <= to + 1; ++k) {
        const double left = std::max(a.x, k * wide), right = std::min(b.x, (k + 1) * wide);
        if (left > right + 1e-9) {
          continue;
        }
        const auto height = [&](double x) { return b.x > a.x ? at_x(a, b, x).z : 0.0; };
        raise(k, b.x > a.x ? std::max(height(left), height(right)) : std::max(a.z, b.z));
      }
    }
  }
  return tops;
}

struct Patch {
  int panel = 0;
  double from = 0, to = 1;        ///< across the panel
  double low_mm = 0, high_mm = 0; ///< along it
  double distance_mm = 0;         ///< of its middle
  double bound_mm = 0;            ///< it is nowhere nearer
  bool operator<(const Patch& other) const { return bound_mm > other.bound_mm; }
};

class Search {
public:
  /// Patches that are nowhere nearer than `enough_mm` are left out.
  Search(const Panels& panels, const Surroundings& round, std::span<const Part> parts, double enough_mm)
      : panels_(panels), round_(round), parts_(parts), enough_mm_(enough_mm) {}

  void begin(int first, int last) {
    for (int k = first; k < last; ++k) {
      add({k, 0, 1, 0, infinite, 0, 0});
    }
  }
  bool done() const { return patches_.empty(); }
  double nearest_mm() const { return nearest_mm_; } ///< of all places looked at
  double bound_mm() const { return std::min({nearest_mm_, enough_mm_, done() ? infinite : patches_.top().bound_mm}); }
  void halve() {
    Patch one = patches_.top();
    patches_.pop();
    Patch other = one;
    if (one.high_mm - one.low_mm > (one.to - one.from) * panels_.depth_mm()) {
      one.high_mm = other.low_mm = (one.low_mm + one.high_mm) / 2;
    } else {
      one.to = other.from = (one.from + one.to) / 2;
    }
    add(one);
    add(other);
  }

private:
  void add(Patch patch) {
    patch.high_mm = std::min(patch.high_mm, panels_.top_mm(patch.panel, patch.from, patch.to));
    if (patch.high_mm < patch.low_mm) {
      return;
    }
    const Point3 middle = panels_.at(patch.panel, (patch.from + patch.to) / 2, (patch.low_mm + patch.high_mm) / 2);
    // Spreading shears no panel and lengthens no line on it (spread.h): two places are no farther apart than in the
    // flat.
    const double high = patch.high_mm - patch.low_mm, wide = (patch.to - patch.from) * panels_.depth_mm();
    const double way = std::sqrt(high * high + wide * wide) / 2;
    patch.distance_mm = way + enough_mm_;
    for (const Part part : parts_) {
      patch.distance_mm = std::min(patch.distance_mm, round_.distance(part, middle, patch.distance_mm));
    }
    patch.bound_mm = patch.distance_mm - way;
    if (patch.bound_mm < enough_mm_) {
      nearest_mm_ = std::min(nearest_mm_, patch.distance_mm);
      patches_.push(patch);
    }
  }

  const Panels& panels_;
  const Surroundings& round_;
  std::span<const Part> parts_;
  double enough_mm_;
  std::priority_queue<Patch> patches_;
  double nearest_mm_ = infinite;
};

} // namespace

Panels::Panels(const Placement& at, const Spread& spread, const Strip& strip)
    : origin_(at.origin), up_(at.axes[2]), count_(spread.pleats().panels), depth_mm_(spread.pleats().depth_mm),
      length_mm_(spread.pleats().length_mm), tops_(tops_of(strip, count_ * stretches)) {
  for (int i = 0; i <= steps; ++i) {
    const double v = length_mm_ * i / steps;
    const Point3 place = spread.crease(1, v); // a mountain, above the plane
    radius_.push_back(std::sqrt(place[0] * place[0] + place[1] * place[1]));
    height_.push_back(place[2]);
  }
  const double first_rad = spread.first_side_deg() * std::numbers::pi / 180, panel_rad = spread.spread_rad() / count_;
  for (int k = 0; k <= count_; ++k) {
    out_.push_back(plus(times(std::cos(first_rad - k * panel_rad), at.axes[0]),
                        times(std::sin(first_rad - k * panel_rad), at.axes[1])));
  }
}

Point3 Panels::at(int panel, double across, double v_mm) const {
  const double along = std::clamp(v_mm / length_mm_, 0.0, 1.0) * steps;
  const auto i = static_cast<std::size_t>(std::min(static_cast<double>(steps - 1), std::floor(along)));
  const double t = along - static_cast<double>(i);
  const double radius = radius_[i] + t * (radius_[i + 1] - radius_[i]);
  const double height = height_[i] + t * (height_[i + 1] - height_[i]);
  const auto k = static_cast<std::size_t>(panel);
  const double up = height * (panel % 2 == 0 ? -1 : 1) * (1 - 2 * across); // the panel's first crease, then its second
  const double here = radius * (1 - across), next = radius * across;
  Point3 place;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    place[axis] = origin_[axis] + here * out_[k][axis] + next * out_[k + 1][axis] + up * up_[axis];
  }
  return place;
}

double Panels::top_mm(int panel, double from, double to) const {
  const int first = std::clamp(static_cast<int>(std::floor(from * stretches)), 0, stretches - 1);
  const int last = std::clamp(static_cast<int>(std::ceil(to * stretches)), first + 1, stretches);
  const auto begin = tops_.begin() + panel * stretches;
  return *std::max_element(begin + first, begin + last);
}

double Surroundings::distance(Part part, const Point3& place, double enough) const {
  const double radius = std::sqrt(place[0] * place[0] + place[1] * place[1]); // quicker than hypot, and never large
  switch (part) {
  case Part::body:
    return body->below.distance(radius, place[2], enough);
  case Part::neck:
    return body->neck.distance(radius, place[2], enough);
  case Part::head:
    return body->head.distance(radius, place[2], enough);
  case Part::table:
    return place[2];
  case Part::twin:
    return dot(place, twin_side);
  case Part::leaves: {
    const double outside = body->below.distance(radius, place[2], std::max(enough, tolerance::leaves_within_mm));
    return outside >= tolerance::leaves_within_mm ? outside
                                                  : body->sheets->distance(place, tolerance::leaves_within_mm);
  }
  }
  return infinite;
}

double least_distance(const Panels& panels, int first, int last, const Surroundings& round, std::span<const Part> parts,
                      double tolerance_mm) {
  Search search(panels, round, parts, infinite);
  search.begin(first, last);
  while (!search.done() && search.bound_mm() < search.nearest_mm() - tolerance_mm) {
    search.halve();
  }
  return search.bound_mm();
}

bool clear(const Panels& panels, int first, int last, const Surroundings& round, std::span<const Part> parts,
           double gap_mm) {
  Search search(panels, round, parts, gap_mm);
  search.begin(first, last);
  while (search.nearest_mm() >= gap_mm && search.bound_mm() < gap_mm) {
    if (search.bound_mm() > search.nearest_mm() - tolerance::clearance_mm) {
      return false;
    }
    search.halve();
  }
  return search.bound_mm() >= gap_mm;
}

} // namespace fanwright::fan
