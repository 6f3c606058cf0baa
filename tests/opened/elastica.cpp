#include "opened/elastica.h"

#include <array>
#include <cmath>

namespace fanwright::opened {
namespace {

/// theta, curvature, drop, reach, energy along the strip.
using State = std::array<double, 5>;

/// Change of the state with the distance `s` from the tip: theta'' = -(alpha + lambda s) cos theta, seen from there.
State change(const State& state, double s, double alpha, double lambda) {
  const double theta = state[0];
  const double curvature = state[1];
  return {-curvature, (alpha + lambda * s) * std::cos(theta), std::sin(theta), std::cos(theta),
          0.5 * curvature * curvature};
}

/// From the tip, which has the slope `tip` and no curvature, to the root (Runge and Kutta's method, fourth order).
State at_root(double tip, double alpha, double lambda) {
  constexpr int steps = 2000;
  constexpr double h = 1.0 / steps;
  State state{tip, 0, 0, 0, 0};
  const auto moved = [](const State& from, const State& way, double share) {
    State to = from;
    for (std::size_t k = 0; k < to.size(); ++k)
      to[k] += share * way[k];
    return to;
  };
  for (int k = 0; k < steps; ++k) {
    const double s = k * h;
    const State a = change(state, s, alpha, lambda);
    const State b = change(moved(state, a, h / 2), s + h / 2, alpha, lambda);
    const State c = change(moved(state, b, h / 2), s + h / 2, alpha, lambda);
    const State d = change(moved(state, c, h), s + h, alpha, lambda);
    for (std::size_t i = 0; i < state.size(); ++i)
      state[i] += h / 6 * (a[i] + 2 * b[i] + 2 * c[i] + d[i]);
  }
  return state;
}

/// The place where `rising` changes sign.
template <typename Rising> double root_of(double low, double high, const Rising& rising) {
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (low + high);
    (rising(middle) < 0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

} // namespace

Elastica cantilever(double alpha, double lambda) {
  const double tip = root_of(0, std::acos(0.0), [&](double slope) { return at_root(slope, alpha, lambda)[0]; });
  const State root = at_root(tip, alpha, lambda);
  return {root[2], root[3], tip, root[1], root[4]};
}

Elastica clamped_both_ends(double offset) {
  const double alpha = root_of(0, 40, [&](double load) { return cantilever(load, 0).drop - offset; });
  Elastica half = cantilever(alpha, 0);
  half.root_curvature *= 2;
  half.energy *= 4;
  return half;
}

} // namespace fanwright::opened
