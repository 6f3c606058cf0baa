#include "traced/curves.h"

#include "fit/smooth.h"
#include "leaf/contour.h"
#include "traced/along.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace fanwright::traced {
namespace {

using leaf::Point;
using Points = std::vector<Point>;

constexpr double degree = std::numbers::pi / 180;

double turn(Point before, Point at, Point after) {
  const double in = std::atan2(at.z - before.z, at.x - before.x);
  const double out = std::atan2(after.z - at.z, after.x - at.x);
  return std::abs(std::remainder(out - in, 2 * std::numbers::pi));
}

/// Reaches at which a corner is looked at, and how far it must turn.
struct Look {
  double near_mm, far_mm, least_rad;
};

Look look_for(const Smoothness& smoothness) {
  const double grain = smoothness.grain_mm;
  return grain > 0 ? Look{std::max(0.4, 3 * grain), std::max(1.4, 9 * grain), 32 * degree}
                   : Look{0.2, 1.0, 20 * degree};
}

/// A line of evenly spaced points that may be closed.
class Spread {
public:
  Spread(const Points& line, bool closed, double spacing)
      : points_(spread_along(line, closed, spacing, 8)), closed_(closed) {
    spacing_ = length_of(points_, closed) / static_cast<double>(points_.size() - (closed ? 0 : 1));
  }

  std::size_t size() const { return points_.size(); }
  double spacing() const { return spacing_; }
  const Points& points() const { return points_; }

  /// Turn at a point over this reach each way; 0 near the ends of an open line.
  double turn_at(std::size_t at, double reach) const {
    const auto n = static_cast<std::ptrdiff_t>(points_.size());
    const auto i = static_cast<std::ptrdiff_t>(at);
    const auto step = std::max<std::ptrdiff_t>(1, std::lround(reach / spacing_));
    if (2 * step >= n || (!closed_ && (i < step || i + step >= n)))
      return 0;
    return turn(points_[static_cast<std::size_t>((i + n - step) % n)], points_[at],
                points_[static_cast<std::size_t>((i + step) % n)]);
  }

private:
  Points points_;
  bool closed_;
  double spacing_ = 1;
};

std::size_t nearest_in(const Points& line, Point p, std::size_t from) {
  std::size_t best = from;
  double least = 1e300;
  for (std::size_t k = from; k < line.size(); ++k) {
    const double distance = std::hypot(line[k].x - p.x, line[k].z - p.z);
    if (distance < least) {
      least = distance;
      best = k;
    }
  }
  return best;
}

/// The sharpest of the line's own points about a corner that was found between evenly spaced ones.
std::size_t sharpest_near(const Points& line, bool closed, std::size_t at, double reach) {
  const auto n = static_cast<std::ptrdiff_t>(line.size());
  const Point p = line[at];
  std::size_t best = at;
  double most = -1;
  const auto consider = [&](std::ptrdiff_t k) {
    const auto i = static_cast<std::size_t>((k + n) % n);
    if (std::hypot(line[i].x - p.x, line[i].z - p.z) > reach || (!closed && (k <= 0 || k + 1 >= n)))
      return false;
    const double here = turn(line[(i + line.size() - 1) % line.size()], line[i], line[(i + 1) % line.size()]);
    if (here > most) {
      most = here;
      best = i;
    }
    return true;
  };
  const auto start = static_cast<std::ptrdiff_t>(at);
  for (std::ptrdiff_t k = 0; k < n && consider(start + k); ++k) {
  }
  for (std::ptrdiff_t k = 1; k < n && consider(start - k); ++k) {
  }
  return best;
}

bool straight(const Points& run, double tolerance) {
  const Point a = run.front(), b = run.back();
  const double length = std::hypot(b.x - a.x, b.z - a.z);
  return length > 0 && std::all_of(run.begin(), run.end(), [&](Point p) {
           return std::abs((b.x - a.x) * (p.z - a.z) - (b.z - a.z) * (p.x - a.x)) / length <= tolerance;
         });
}

/// Appends curves for one run between corners.
void append_run(const Points& run, const Smoothness& smoothness, const fit::EndDirections& ends,
                std::vector<leaf::Segment>& segments) {
  // A line that strays by less than half of what is allowed was meant straight.
  if (run.size() < 3 || straight(run, std::max(0.25 * smoothness.tolerance_mm, smoothness.grain_mm / 2))) {
    segments.emplace_back(leaf::Line{run.back()});
    return;
  }
  const double length = length_of(run, false);
  const double spacing = std::max({length / 240, 0.25 * smoothness.tolerance_mm, 1.5 * smoothness.grain_mm});
  const Points even = spread_along(run, false, std::min(spacing, length / 6));
  for (const leaf::Segment& segment : fit::smooth(even, 0.8 * smoothness.tolerance_mm, ends))
    segments.push_back(segment);
}

Points slice(const Points& line, std::size_t from, std::size_t to) {
  return {line.begin() + static_cast<std::ptrdiff_t>(from), line.begin() + static_cast<std::ptrdiff_t>(to) + 1};
}

/// `into` pointing nearly square away from the spine becomes square to it; empty when it does not.
std::optional<Point> square_to_spine(const Points& line, bool at_foot, const Smoothness& smoothness) {
  const Look look = look_for(smoothness);
  const Points points = at_foot ? line : Points(line.rbegin(), line.rend());
  const auto beyond = std::find_if(points.begin(), points.end(), [&](Point p) {
    return std::hypot(p.x - points.front().x, p.z - points.front().z) >= look.far_mm;
  });
  if (beyond == points.end())
    return std::nullopt;
  const double lean = std::atan2(std::abs(beyond->z - points.front().z), beyond->x - points.front().x);
  return lean < look.least_rad / 2 ? std::optional(Point{1, 0}) : std::nullopt;
}

std::string decimal(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f", value);
  std::string shown = text;
  while (shown.back() == '0')
    shown.pop_back();
  if (shown.back() == '.')
    shown.pop_back();
  return shown == "-0" ? "0" : shown;
}

void append_text(std::string& text, Point p) { text += " " + decimal(p.x) + " " + decimal(p.z); }

void append_contour(std::string& text, const leaf::Contour& contour, std::size_t segments) {
  text += text.empty() ? "M" : " M";
  append_text(text, contour.start);
  for (std::size_t k = 0; k < segments; ++k) {
    if (const auto* cubic = std::get_if<leaf::Cubic>(&contour.segments[k])) {
      text += " C";
      append_text(text, cubic->control1);
      append_text(text, cubic->control2);
      append_text(text, cubic->to);
    } else {
      text += " L";
      append_text(text, leaf::end_of(contour.segments[k]));
    }
  }
}

} // namespace

std::vector<std::size_t> corners_of(const Points& line, bool closed, const Smoothness& smoothness) {
  constexpr double kept_share = 0.65; // of the turn, when looked at from near: a curve keeps near / far of it
  const Look look = look_for(smoothness);
  const Spread spread(line, closed, look.near_mm / 2);
  const std::size_t n = spread.size();
  const auto reach = static_cast<std::size_t>(std::lround(look.far_mm / spread.spacing()));
  std::vector<double> near(n), far(n);
  for (std::size_t k = 0; k < n; ++k) {
    near[k] = spread.turn_at(k, look.near_mm);
    far[k] = spread.turn_at(k, look.far_mm);
  }
  std::vector<std::size_t> corners;
  std::size_t searched = 0;
  for (std::size_t k = 0; k < n; ++k) {
    bool peak = far[k] > look.least_rad && near[k] > kept_share * far[k];
    for (std::size_t d = 1; d <= reach && peak; ++d) {
      const std::size_t before = (k + n - d % n) % n, after = (k + d) % n;
      const auto beaten = [&](std::size_t other, bool earlier) {
        const double a = near[other] + far[other], b = near[k] + far[k];
        return a > b || (earlier && a == b);
      };
      peak =
          !(closed || k >= d ? beaten(before, true) : false) && !(closed || k + d < n ? beaten(after, false) : false);
    }
    if (!peak)
      continue;
    const std::size_t on_line = nearest_in(line, spread.points()[k], searched);
    const std::size_t exact = sharpest_near(line, closed, on_line, look.near_mm + spread.spacing());
    if (corners.empty() || exact > corners.back())
      corners.push_back(exact);
    searched = std::min(on_line, line.size() - 1);
  }
  return corners;
}

leaf::Contour smooth_outline(const Points& line, const Smoothness& smoothness) {
  leaf::Contour contour{line.front(), {}};
  std::vector<std::size_t> cuts = corners_of(line, false, smoothness);
  cuts.push_back(line.size() - 1);
  std::size_t from = 0;
  for (const std::size_t to : cuts) {
    fit::EndDirections ends;
    if (from == 0)
      ends.first = square_to_spine(line, true, smoothness);
    if (to + 1 == line.size())
      ends.last = square_to_spine(line, false, smoothness);
    append_run(slice(line, from, to), smoothness, ends, contour.segments);
    from = to;
  }
  return contour;
}

leaf::Contour smooth_ring(const leaf::Ring& ring, const Smoothness& smoothness) {
  Points line = ring;
  std::vector<std::size_t> corners = corners_of(line, true, smoothness);
  // Begin at a corner; without one anywhere, in two runs that share their tangents.
  if (!corners.empty()) {
    std::rotate(line.begin(), line.begin() + static_cast<std::ptrdiff_t>(corners.front()), line.end());
    const std::size_t shift = corners.front();
    for (std::size_t& corner : corners)
      corner -= shift;
    corners.erase(corners.begin());
  }
  line.push_back(line.front());
  leaf::Contour contour{line.front(), {}};
  if (corners.empty() && contour.segments.empty()) {
    const Points even = spread_along(line, false, length_of(line, false) / 64);
    const auto direction = [&](std::size_t k) {
      const Point a = even[k == 0 ? even.size() - 2 : k - 1], b = even[k + 1];
      const double step = std::hypot(b.x - a.x, b.z - a.z);
      return Point{(b.x - a.x) / step, (b.z - a.z) / step};
    };
    const auto back = [](Point p) { return Point{-p.x, -p.z}; };
    const std::size_t middle = even.size() / 2;
    const bool cornered = !corners_of(ring, true, smoothness).empty();
    const std::optional<Point> first = cornered ? std::nullopt : std::optional(direction(0));
    const std::optional<Point> last = first ? std::optional(back(*first)) : std::nullopt;
    const Point through = direction(middle);
    append_run(slice(even, 0, middle), smoothness, {first, back(through)}, contour.segments);
    append_run(slice(even, middle, even.size() - 1), smoothness, {through, last}, contour.segments);
    return contour;
  }
  corners.push_back(line.size() - 1);
  std::size_t from = 0;
  for (const std::size_t to : corners) {
    append_run(slice(line, from, to), smoothness, {}, contour.segments);
    from = to;
  }
  return contour;
}

std::string path_text(const leaf::Contour& outline, const std::vector<leaf::Contour>& cut_outs) {
  std::string text;
  append_contour(text, outline, outline.segments.size());
  for (const leaf::Contour& hole : cut_outs) {
    append_contour(text, hole, hole.segments.size());
    text += " Z";
  }
  return text;
}

} // namespace fanwright::traced
