#include "opened/spline.h"

#include <algorithm>
#include <cassert>

namespace fanwright::opened {

Spline::Spline(std::vector<double> lines) : lines_(std::move(lines)) {
  assert(lines_.size() >= 2);
  cells_.reserve(lines_.size() - 1);
  for (int cell = 0; cell < cells(); ++cell) {
    // Knots round the cell [t2, t3]: t0 <= t1 <= t2 < t3 <= t4 <= t5.
    const double t1 = knot(cell + 1);
    const double t2 = knot(cell + 2);
    const double t3 = knot(cell + 3);
    const double t4 = knot(cell + 4);
    cells_.push_back({t2, t3, 1 / ((t3 - t2) * (t3 - t1)), 1 / ((t3 - t2) * (t4 - t2))});
  }
}

double Spline::knot(int i) const {
  const int last = cells();
  return lines_[static_cast<std::size_t>(std::clamp(i - 2, 0, last))];
}

int Spline::cell_of(double x) const {
  const auto above = std::upper_bound(lines_.begin(), lines_.end(), x);
  return std::clamp(static_cast<int>(above - lines_.begin()) - 1, 0, cells() - 1);
}

SplineValues Spline::at(int cell, double x) const {
  const Cell& its = cells_[static_cast<std::size_t>(cell)];
  const double before = (its.high - x) * its.left;
  const double after = (x - its.low) * its.right;
  SplineValues s;
  s.value[0] = (its.high - x) * before;
  s.first[0] = -2.0 * before;
  s.second[0] = 2.0 * its.left;
  s.value[2] = (x - its.low) * after;
  s.first[2] = 2.0 * after;
  s.second[2] = 2.0 * its.right;
  s.value[1] = 1.0 - s.value[0] - s.value[2];
  s.first[1] = -s.first[0] - s.first[2];
  s.second[1] = -s.second[0] - s.second[2];
  return s;
}

double Spline::greville(int function) const { return 0.5 * (knot(function + 1) + knot(function + 2)); }

} // namespace fanwright::opened
