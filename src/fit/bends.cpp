#include "fit/bends.h"

#include "leaf/arc.h"
#include "leaf/contour.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::fit {
namespace {

using leaf::Point;

constexpr int steps = 48; ///< looked at along a curve

/// Signed curvature, 1/mm, from first and second derivative; positive when turning left.
double curvature(Point first, Point second) {
  const double speed = std::hypot(first.x, first.z);
  return speed > 1e-9 ? (first.x * second.z - first.z * second.x) / (speed * speed * speed) : 0;
}

Point cubic_at(Point a, Point b, Point c, Point d, double t) {
  const double u = 1 - t;
  const double wa = u * u * u, wb = 3 * u * u * t, wc = 3 * u * t * t, wd = t * t * t;
  return {wa * a.x + wb * b.x + wc * c.x + wd * d.x, wa * a.z + wb * b.z + wc * c.z + wd * d.z};
}

/// `look` is given places along the curve in turn, with the signed curvature there.
template <typename Look> void along_cubic(Point a, Point b, Point c, Point d, const Look& look) {
  for (int k = 0; k <= steps; ++k) {
    const double t = static_cast<double>(k) / steps;
    const double u = 1 - t;
    const auto first = [&](double p, double q, double r, double s) {
      return 3 * (u * u * (q - p) + 2 * u * t * (r - q) + t * t * (s - r));
    };
    const auto second = [&](double p, double q, double r, double s) {
      return 6 * (u * (r - 2 * q + p) + t * (s - 2 * r + q));
    };
    look(cubic_at(a, b, c, d, t), curvature({first(a.x, b.x, c.x, d.x), first(a.z, b.z, c.z, d.z)},
                                            {second(a.x, b.x, c.x, d.x), second(a.z, b.z, c.z, d.z)}));
  }
}

template <typename Look> void along_arc(Point from, const leaf::Arc& arc, const Look& look) {
  const auto centred = leaf::centred(from, arc);
  if (!centred)
    return;
  for (int k = 0; k <= steps; ++k) {
    const double angle = centred->start_rad + centred->turn_rad * k / steps;
    const double speed = std::hypot(centred->radius_x * std::sin(angle), centred->radius_z * std::cos(angle));
    const double radius = speed * speed * speed / (centred->radius_x * centred->radius_z);
    look(centred->at(angle), centred->turn_rad > 0 ? 1 / radius : -1 / radius);
  }
}

/// Every curve of the contour. A line is looked at at its end: no curvature.
template <typename Look> void along(const leaf::Contour& contour, const Look& look) {
  Point from = contour.start;
  for (const leaf::Segment& segment : contour.segments) {
    if (const auto* cubic = std::get_if<leaf::Cubic>(&segment)) {
      along_cubic(from, cubic->control1, cubic->control2, cubic->to, look);
    } else if (const auto* quadratic = std::get_if<leaf::Quadratic>(&segment)) {
      const auto raised = [&](Point end) {
        return Point{end.x + (quadratic->control.x - end.x) * 2 / 3, end.z + (quadratic->control.z - end.z) * 2 / 3};
      };
      along_cubic(from, raised(from), raised(quadratic->to), quadratic->to, look);
    } else if (const auto* arc = std::get_if<leaf::Arc>(&segment)) {
      along_arc(from, *arc, look);
    } else {
      look(leaf::end_of(segment), 0);
    }
    from = leaf::end_of(segment);
  }
}

/// Places of one stretch that is tighter than asked for.
struct Stretch {
  Bend bend;
  Point last;
  double last_bend = 0;
  double turn_rad = 0;
  bool open = false;
};

} // namespace

Bend tightest_bend(const leaf::Contour& contour) {
  Bend tightest;
  along(contour, [&](Point at, double bend) {
    if (bend < 0 && -1 / bend < tightest.radius_mm)
      tightest = {-1 / bend, at};
  });
  return tightest;
}

std::vector<Bend> bends_below(const leaf::Contour& contour, double radius_mm, double least_turn_deg) {
  std::vector<Bend> bends;
  Stretch stretch;
  const auto close = [&] {
    if (stretch.open && stretch.turn_rad >= least_turn_deg * std::numbers::pi / 180)
      bends.push_back(stretch.bend);
    stretch = {};
  };
  along(contour, [&](Point at, double bend) {
    if (bend > -1 / radius_mm) {
      close();
      return;
    }
    // Turn = curvature times length, trapezoids between the places looked at.
    if (stretch.open)
      stretch.turn_rad -= (bend + stretch.last_bend) / 2 * std::hypot(at.x - stretch.last.x, at.z - stretch.last.z);
    if (-1 / bend < stretch.bend.radius_mm)
      stretch.bend = {-1 / bend, at};
    stretch.last = at;
    stretch.last_bend = bend;
    stretch.open = true;
  });
  close();
  return bends;
}

} // namespace fanwright::fit
