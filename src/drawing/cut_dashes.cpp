#include "drawing/cut_dashes.h"

#include "drawing/bulged_line.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace fanwright::drawing {

namespace {

struct Stretch {
  BulgedVertex from;
  Point to;
  double begin_mm, end_mm; ///< along the whole line
};

std::vector<Stretch> stretches_of(const BulgedLine& line) {
  std::vector<Stretch> stretches;
  const std::size_t count = line.vertices.size() - (line.closed ? 0 : 1);
  double begin = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const Point to = line.vertices[(i + 1) % line.vertices.size()].at;
    const double end = begin + arc_length_mm(line.vertices[i], to);
    stretches.push_back({line.vertices[i], to, begin, end});
    begin = end;
  }
  return stretches;
}

Segment segment_to(const Stretch& stretch, const Point& to) {
  if (stretch.from.bulge == 0)
    return Line{to};
  const double angle = 4 * std::atan(stretch.from.bulge);
  const double radius = std::abs((stretch.end_mm - stretch.begin_mm) / angle);
  return Arc{radius, radius, 0, false, angle > 0, to}; // a stretch is half a turn at most
}

/// The part of the line from begin_mm to end_mm; `first` is where to look for it, and moves on.
Path part(const std::vector<Stretch>& stretches, std::size_t& first, double begin_mm, double end_mm) {
  const auto place = [](const Stretch& stretch, double at_mm) {
    return along(stretch.from, stretch.to, (at_mm - stretch.begin_mm) / (stretch.end_mm - stretch.begin_mm));
  };
  while (first + 1 < stretches.size() && stretches[first].end_mm <= begin_mm)
    ++first;
  Path path{Step::perforate, {Move{place(stretches[first], begin_mm)}}, {}};
  path.pen = {usual_pen(Step::perforate).width_mm, {}, false, {}};
  while (first + 1 < stretches.size() && stretches[first].end_mm < end_mm) {
    path.segments.push_back(segment_to(stretches[first], stretches[first].to));
    ++first;
  }
  path.segments.push_back(segment_to(stretches[first], place(stretches[first], end_mm)));
  return path;
}

} // namespace

std::vector<Path> cut_dashes(const Path& line, double dash_mm, double gap_mm) {
  constexpr double most_dashes = 10000;
  std::vector<Path> dashes;
  if (!(dash_mm > 0) || !(gap_mm >= 0))
    return dashes;
  for (const BulgedLine& bulged : bulged_lines(line.segments)) {
    const std::vector<Stretch> stretches = stretches_of(bulged);
    const double length = stretches.back().end_mm;
    const double count = std::clamp(std::floor(length / (dash_mm + gap_mm)), 1.0, most_dashes);
    const double period = length / count;
    if (!std::isfinite(length) || period <= gap_mm)
      continue;
    std::size_t first = 0;
    for (int i = 0; i < static_cast<int>(count); ++i)
      dashes.push_back(part(stretches, first, i * period + gap_mm / 2, (i + 1) * period - gap_mm / 2));
  }
  return dashes;
}

} // namespace fanwright::drawing
