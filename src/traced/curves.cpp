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
  return grain > 0 ? Look{std::max(0.4, 4 * grain), std::max(1.4, 10 * grain), 32 * degree}
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

/// Where a run would end had its last `blurred` mm not been rounded: its end is cut off, and the straight line through
/// what lies before says where it was heading. Empty when the run is too short to tell.
struct Heading {
  Points kept; ///< the run without its rounded end
  Point at, along;
};
std::optional<Heading> heading_of(const Points& run, double blurred) {
  constexpr double looked_at = 1.5; // further on, in lengths of the rounded end
  Heading heading;
  std::size_t k = run.size();
  double back = 0;
  while (k > 1 && back < blurred) {
    --k;
    back += std::hypot(run[k].x - run[k - 1].x, run[k].z - run[k - 1].z);
  }
  heading.kept.assign(run.begin(), run.begin() + static_cast<std::ptrdiff_t>(k));
  Points seen;
  while (k > 0 && back < (1 + looked_at) * blurred) {
    --k;
    seen.push_back(run[k]);
    back += k > 0 ? std::hypot(run[k].x - run[k - 1].x, run[k].z - run[k - 1].z) : 0;
  }
  if (seen.size() < 3 || heading.kept.size() < 2 || back < (1 + looked_at) * blurred)
    return std::nullopt;
  Point middle;
  for (const Point& p : seen)
    middle = {middle.x + p.x / static_cast<double>(seen.size()), middle.z + p.z / static_cast<double>(seen.size())};
  double xx = 0, xz = 0, zz = 0;
  for (const Point& p : seen) {
    xx += (p.x - middle.x) * (p.x - middle.x);
    xz += (p.x - middle.x) * (p.z - middle.z);
    zz += (p.z - middle.z) * (p.z - middle.z);
  }
  const double angle = std::atan2(2 * xz, xx - zz) / 2; // of the larger principal axis
  heading.at = middle;
  heading.along = {std::cos(angle), std::sin(angle)};
  return heading;
}

/// Pixels and a lens round corners: the edges on both sides are carried on until they meet.
void sharpen(Points& before, Points& after, double grain_mm) {
  constexpr double blurred_pixels = 4, furthest = 1.5; // rounded ends; the corner moves no further than this many
  const double blurred = blurred_pixels * grain_mm;
  // Straight stretches of a traced line have points at their ends alone.
  const auto in = heading_of(spread_along(before, false, grain_mm), blurred);
  const Points from_end(after.rbegin(), after.rend());
  const auto out = heading_of(spread_along(from_end, false, grain_mm), blurred);
  if (!in || !out)
    return;
  const double cross = in->along.x * out->along.z - in->along.z * out->along.x;
  if (std::abs(cross) < std::sin(20 * degree))
    return;
  const double t = ((out->at.x - in->at.x) * out->along.z - (out->at.z - in->at.z) * out->along.x) / cross;
  const Point corner{in->at.x + t * in->along.x, in->at.z + t * in->along.z};
  if (std::hypot(corner.x - before.back().x, corner.z - before.back().z) > furthest * blurred)
    return;
  before = in->kept;
  before.push_back(corner);
  after.assign(out->kept.rbegin(), out->kept.rend());
  after.insert(after.begin(), corner);
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

/// The line cut at these of its points, each of which ends one run and begins the next.
std::vector<Points> runs_between(const Points& line, std::vector<std::size_t> cuts) {
  cuts.push_back(line.size() - 1);
  std::vector<Points> runs;
  std::size_t from = 0;
  for (const std::size_t to : cuts) {
    if (to > from)
      runs.push_back(slice(line, from, to));
    from = to;
  }
  return runs;
}

/// A ring in two runs that share their tangent half way round; with one corner they begin and end there, without any
/// they share their tangent at the start too. In one run it would begin where it ends, and have no direction.
leaf::Contour smooth_loop(const leaf::Ring& ring, bool cornered, const Smoothness& smoothness) {
  constexpr int parts = 64;
  Points even = spread_along(ring, true, length_of(ring, true) / parts);
  const std::size_t count = even.size(), middle = count / 2;
  const auto direction = [&](std::size_t k) {
    const Point a = even[(k + count - 1) % count], b = even[(k + 1) % count];
    const double step = std::hypot(b.x - a.x, b.z - a.z);
    return Point{(b.x - a.x) / step, (b.z - a.z) / step};
  };
  const auto back = [](Point p) { return Point{-p.x, -p.z}; };
  const Point through = direction(middle);
  fit::EndDirections out{std::nullopt, back(through)}, in{through, std::nullopt};
  if (!cornered) {
    out.first = direction(0);
    in.last = back(direction(0));
  }
  even.push_back(even.front());
  leaf::Contour contour{even.front(), {}};
  append_run(slice(even, 0, middle), smoothness, out, contour.segments);
  append_run(slice(even, middle, count), smoothness, in, contour.segments);
  return contour;
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
  // Share of the turn that is kept when looked at from near: all of it at a corner, near / far of it on a curve (a
  // fifth, in pictures 0.4 at most); a soft edge rounds corners.
  const double kept_share = smoothness.grain_mm > 0 ? 0.52 : 0.65;
  const Look look = look_for(smoothness);
  // Points are exact: a corner must not lie far between the places looked at. Pixels blur it anyway.
  const Spread spread(line, closed, look.near_mm / (smoothness.grain_mm > 0 ? 2 : 4));
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
    // In a picture the single points are too near to each other to say which is the sharpest.
    const std::size_t exact =
        smoothness.grain_mm > 0 ? on_line : sharpest_near(line, closed, on_line, look.near_mm + spread.spacing());
    corners.push_back(exact);
    searched = closed ? 0 : on_line; // a ring's start may lie just behind its first corner
  }
  // The sharpest point of a ring may lie on either side of its start, too.
  std::sort(corners.begin(), corners.end());
  corners.erase(std::unique(corners.begin(), corners.end()), corners.end());
  return corners;
}

leaf::Contour smooth_outline(const Points& line, const Smoothness& smoothness) {
  std::vector<Points> runs = runs_between(line, corners_of(line, false, smoothness));
  for (std::size_t k = 0; k + 1 < runs.size() && smoothness.grain_mm > 0; ++k)
    sharpen(runs[k], runs[k + 1], smoothness.grain_mm);
  leaf::Contour contour{runs.front().front(), {}};
  for (std::size_t k = 0; k < runs.size(); ++k) {
    fit::EndDirections ends;
    if (k == 0)
      ends.first = square_to_spine(line, true, smoothness);
    if (k + 1 == runs.size())
      ends.last = square_to_spine(line, false, smoothness);
    append_run(runs[k], smoothness, ends, contour.segments);
  }
  return contour;
}

leaf::Contour smooth_ring(const leaf::Ring& ring, const Smoothness& wanted) {
  // What is little beside an outline would bend a small hole out of its round, and its curves tighter than it is.
  constexpr double round_share = 0.02;
  const leaf::Box box = leaf::bounds(ring);
  Smoothness smoothness = wanted;
  smoothness.tolerance_mm = std::min(
      wanted.tolerance_mm, std::max({round_share * std::max(box.width(), box.height()), 0.8 * wanted.grain_mm, 0.02}));
  const std::vector<std::size_t> corners = corners_of(ring, true, smoothness);
  if (corners.empty())
    return smooth_loop(ring, false, smoothness);
  // Begin at a corner.
  Points line = ring;
  std::rotate(line.begin(), line.begin() + static_cast<std::ptrdiff_t>(corners.front()), line.end());
  if (corners.size() == 1)
    return smooth_loop(line, true, smoothness);
  line.push_back(line.front());
  std::vector<std::size_t> others;
  for (std::size_t k = 1; k < corners.size(); ++k)
    others.push_back(corners[k] - corners.front());
  std::vector<Points> runs = runs_between(line, others);
  for (std::size_t k = 0; k < runs.size() && smoothness.grain_mm > 0; ++k)
    sharpen(runs[k], runs[(k + 1) % runs.size()], smoothness.grain_mm);
  leaf::Contour contour{runs.front().front(), {}};
  for (const Points& run : runs)
    append_run(run, smoothness, {}, contour.segments);
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
