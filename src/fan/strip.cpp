#include "fan/strip.h"

#include "fan/tolerances.h"
#include "fit/smooth.h"
#include "leaf/contour.h"
#include "leaf/leaf.h"
#include "leaf/sentence.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::fan {
namespace {

using leaf::Point;
using Runs = std::vector<std::vector<Point>>;

/// A stretch of the strip for one part; the ends of the strip reach over the flap.
struct Stretch {
  double from_x = 0, to_x = 0;
  bool at_start = false, at_end = false;
  std::optional<GlueStretch> lap; ///< at its right end
};

int crossings(const Runs& edge, double x) {
  int count = 0;
  for (const auto& run : edge) {
    for (std::size_t k = 1; k < run.size(); ++k) {
      count += (run[k - 1].x < x) != (run[k].x < x) ? 1 : 0;
    }
  }
  return count;
}

/// The edge right of `x`, where it is crossed once.
Runs beyond(const Runs& edge, double x) {
  Runs kept;
  bool begun = false;
  for (const auto& run : edge) {
    std::vector<Point> points;
    for (std::size_t k = 0; k < run.size(); ++k) {
      if (!begun && k > 0 && run[k - 1].x < x && run[k].x >= x) {
        points.push_back(at_x(run[k - 1], run[k], x));
        begun = true;
      }
      if (begun && (points.empty() || std::hypot(run[k].x - points.back().x, run[k].z - points.back().z) > 1e-6)) {
        points.push_back(run[k]);
      }
    }
    if (points.size() > 1) {
      kept.push_back(std::move(points));
    }
  }
  return kept;
}

Runs reversed(Runs runs) {
  std::reverse(runs.begin(), runs.end());
  for (auto& run : runs) {
    std::reverse(run.begin(), run.end());
  }
  return runs;
}

/// x becomes `length` - x, so that the edge still runs to the right.
Runs turned(const Runs& edge, double length) {
  Runs runs = reversed(edge);
  for (auto& run : runs) {
    for (Point& point : run) {
      point.x = length - point.x;
    }
  }
  return runs;
}

Runs within(const Strip& strip, const Stretch& stretch) {
  Runs runs = stretch.at_start ? strip.edge : beyond(strip.edge, stretch.from_x);
  if (!stretch.at_end) {
    runs = turned(beyond(turned(runs, 0), -stretch.to_x), 0);
  }
  return runs;
}

/// Corners of the flap on a side at `x`, from the gathered end outwards; narrower than the side so that it hides.
std::vector<Point> flap_corners(double x, double width, double height) {
  const double taper = std::min(std::abs(width) / 2, height / 4);
  return {{x + width, taper}, {x + width, height - taper}};
}

leaf::Contour cut_of(const Strip& strip, const Stretch& stretch, const Runs& edge) {
  const bool left_flap = strip.flap_mm > 0 && stretch.at_start && !strip.turned;
  const bool right_flap = strip.flap_mm > 0 && stretch.at_end && strip.turned;
  leaf::Contour cut{{stretch.from_x, 0}, {leaf::Line{{stretch.to_x, 0}}}};
  if (right_flap) {
    for (const Point corner : flap_corners(stretch.to_x, strip.flap_mm, edge.back().back().z)) {
      cut.segments.emplace_back(leaf::Line{corner});
    }
  }
  cut.segments.emplace_back(leaf::Line{edge.back().back()});
  for (const auto& run : reversed(edge)) {
    for (const leaf::Segment& segment : fit::smooth(run, strip.curve_mm)) {
      cut.segments.push_back(segment);
    }
  }
  if (left_flap) {
    const auto corners = flap_corners(stretch.from_x, -strip.flap_mm, edge.front().front().z);
    cut.segments.emplace_back(leaf::Line{corners[1]});
    cut.segments.emplace_back(leaf::Line{corners[0]});
  }
  cut.segments.emplace_back(leaf::Line{cut.start});
  return cut;
}

/// Heights at which the cut line crosses the vertical at `x`, ascending, in pairs.
std::vector<double> crossing_heights(const leaf::Ring& ring, double x) {
  std::vector<double> heights;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const Point a = ring[k], b = ring[(k + 1) % ring.size()];
    if ((a.x < x) != (b.x < x)) {
      heights.push_back(at_x(a, b, x).z);
    }
  }
  std::sort(heights.begin(), heights.end());
  return heights;
}

/// The side that the flap is folded on is a corner of the cut line on both of its ends.
std::vector<double> side_heights(const Runs& edge, bool left) {
  return {0, left ? edge.front().front().z : edge.back().back().z};
}

std::vector<Score> scores_of(const Strip& strip, const Stretch& stretch, const Runs& edge, const leaf::Contour& cut) {
  const leaf::Ring ring = leaf::flatten(cut, leaf::flatten_tolerance_mm);
  std::vector<Score> scores;
  for (int line = 0; line <= strip.panels; ++line) {
    const double x = line * strip.depth_mm;
    const int crease = strip.turned ? strip.panels - line : line;
    const bool side = line == 0 || line == strip.panels;
    const bool here = side ? crease == 0 && strip.flap_mm > 0 && (line == 0 ? stretch.at_start : stretch.at_end)
                           : x > stretch.from_x && x < stretch.to_x;
    if (!here) {
      continue;
    }
    const auto heights = side ? side_heights(edge, line == 0) : crossing_heights(ring, x);
    for (std::size_t k = 0; k + 1 < heights.size(); k += 2) {
      scores.push_back({{x, heights[k]}, {x, heights[k + 1]}, crease % 2 == 1 ? Fold::mountain : Fold::valley, crease});
    }
  }
  return scores;
}

StripPart part_of(const Strip& strip, const Stretch& stretch) {
  const Runs edge = within(strip, stretch);
  StripPart part;
  part.cut = cut_of(strip, stretch, edge);
  part.scores = scores_of(strip, stretch, edge, part.cut);
  part.first_panel = static_cast<int>(std::floor(stretch.from_x / strip.depth_mm + 1e-9));
  part.last_panel = static_cast<int>(std::ceil(stretch.to_x / strip.depth_mm - 1e-9)) - 1;
  if (strip.flap_mm > 0 && (strip.turned ? stretch.at_end : stretch.at_start)) {
    const double side = strip.turned ? strip.length_mm() : 0;
    part.glue.push_back(strip.turned ? GlueStretch{side, side + strip.flap_mm} : GlueStretch{-strip.flap_mm, 0});
  }
  if (stretch.lap) {
    part.glue.push_back(*stretch.lap);
  }
  return part;
}

/// Where parts may be joined: the lap in a panel, when the edge crosses its ends and all between once.
std::optional<GlueStretch> lap_in(const Strip& strip, int panel) {
  const double middle = (panel + 0.5) * strip.depth_mm;
  const GlueStretch lap{middle - strip.lap_mm / 2, middle + strip.lap_mm / 2};
  const auto single = [&](double x) { return crossings(strip.edge, x) == 1; };
  return single(lap.from_x) && single(middle) && single(lap.to_x) ? std::optional(lap) : std::nullopt;
}

/// Stretches no longer than `longest`, each as long as it can be; empty when there is no place for a joint.
std::vector<Stretch> stretches(const Strip& strip, double longest) {
  const double start = strip.turned ? 0 : -strip.flap_mm;
  const double end = strip.length_mm() + (strip.turned ? strip.flap_mm : 0);
  std::vector<Stretch> found;
  double from = start;
  while (end - from > longest + 1e-9) {
    std::optional<GlueStretch> lap;
    for (int panel = strip.panels - 1; panel > 0 && !lap; --panel) {
      const auto candidate = lap_in(strip, panel);
      if (candidate && candidate->from_x > from && candidate->to_x <= from + longest) {
        lap = candidate;
      }
    }
    if (!lap) {
      return {};
    }
    found.push_back({found.empty() ? 0 : from, lap->to_x, found.empty(), false, lap});
    from = lap->from_x;
  }
  found.push_back({found.empty() ? 0 : from, strip.length_mm(), found.empty(), true, std::nullopt});
  return found;
}

} // namespace

Point at_x(Point a, Point b, double x) { return {x, a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x)}; }

std::array<double, 2> paper_at(const leaf::Ring& ring, double x) {
  std::array<double, 2> ends{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const Point a = ring[k], b = ring[(k + 1) % ring.size()];
    if ((a.x < x) != (b.x < x)) {
      const double z = at_x(a, b, x).z;
      ends = {std::min(ends[0], z), std::max(ends[1], z)};
    }
  }
  return ends;
}

double Strip::height_mm() const {
  double height = 0;
  for (const auto& run : edge) {
    for (const Point& point : run) {
      height = std::max(height, point.z);
    }
  }
  return height;
}

Strip mirrored(const Strip& strip) {
  Strip image = strip;
  image.turned = !strip.turned;
  image.edge = turned(strip.edge, strip.length_mm());
  return image;
}

std::variant<std::vector<StripPart>, design::Refusal> parts(const Strip& strip, double most_length_mm) {
  std::vector<Stretch> best = stretches(strip, most_length_mm);
  if (best.empty()) {
    return design::Refusal{"", "The strip of the fan is " + leaf::in_mm(strip.length_mm() + strip.flap_mm) +
                                   " long and has no pleat in which it could be joined for sheets that take " +
                                   leaf::in_mm(most_length_mm) +
                                   "; use a larger sheet, shallower pleats, or an outline that does not turn back."};
  }
  // As many parts, but none needlessly long: the shortest limit that still needs no more of them.
  for (double limit = most_length_mm - strip.depth_mm; limit > strip.depth_mm; limit -= strip.depth_mm) {
    const std::vector<Stretch> shorter = stretches(strip, limit);
    if (shorter.empty() || shorter.size() > best.size()) {
      break;
    }
    best = shorter;
  }
  std::vector<StripPart> found;
  found.reserve(best.size());
  for (const Stretch& stretch : best) {
    found.push_back(part_of(strip, stretch));
  }
  return found;
}

} // namespace fanwright::fan
