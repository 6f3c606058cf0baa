#include "traced/along.h"

#include <algorithm>
#include <cmath>

namespace fanwright::traced {

using leaf::Point;

double length_of(const std::vector<Point>& line, bool closed) {
  double length = 0;
  for (std::size_t k = 0; k + (closed ? 0 : 1) < line.size(); ++k) {
    const Point a = line[k], b = line[(k + 1) % line.size()];
    length += std::hypot(b.x - a.x, b.z - a.z);
  }
  return length;
}

std::vector<Point> spread_along(const std::vector<Point>& line, bool closed, double spacing, int least) {
  const double total = length_of(line, closed);
  const int parts = std::max(least, static_cast<int>(std::ceil(total / spacing)));
  std::vector<Point> points{line.front()};
  double passed = 0;
  int next = 1;
  for (std::size_t k = 0; k + (closed ? 0 : 1) < line.size(); ++k) {
    const Point a = line[k], b = line[(k + 1) % line.size()];
    const double step = std::hypot(b.x - a.x, b.z - a.z);
    while (next < parts && step > 0 && passed + step >= total * next / parts) {
      const double t = (total * next / parts - passed) / step;
      points.push_back({a.x + t * (b.x - a.x), a.z + t * (b.z - a.z)});
      ++next;
    }
    passed += step;
  }
  if (!closed)
    points.push_back(line.back());
  return points;
}

} // namespace fanwright::traced
