#include "fan/seat_body.h"

#include "fan/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace fanwright::fan {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// Side of the square cells in which the sheets' triangles are kept.
constexpr double cell_mm = 3;

double squared_distance(const Station& a, const Station& b, double radius, double height) {
  const double dr = b.radius - a.radius, dz = b.height - a.height;
  const double er = radius - a.radius, ez = height - a.height;
  const double squared = dr * dr + dz * dz;
  const double t = squared > 0 ? std::min(1.0, std::max(0.0, (er * dr + ez * dz) / squared)) : 0.0;
  const double fr = er - t * dr, fz = ez - t * dz;
  return fr * fr + fz * fz;
}

/// Does the horizontal ray outward from (radius, height) cross from a to b?
bool crosses(const Station& a, const Station& b, double radius, double height) {
  if ((a.height > height) == (b.height > height)) {
    return false;
  }
  return a.radius + (height - a.height) / (b.height - a.height) * (b.radius - a.radius) > radius;
}

/// Is the place at least so far above, below or beside the box round a and b? Soon told, and not of all that are.
bool apart(const Station& a, const Station& b, double radius, double height, double squared) {
  const double up = std::max(std::min(a.height, b.height) - height, height - std::max(a.height, b.height));
  const double out = std::max(std::min(a.radius, b.radius) - radius, radius - std::max(a.radius, b.radius));
  return (up > 0 && up * up >= squared) || (out > 0 && out * out >= squared);
}

/// Twice the area of the triangle, positive when its corners follow each other one way.
double turn(const Station& a, const Station& b, const Station& c) {
  return (b.radius - a.radius) * (c.height - a.height) - (b.height - a.height) * (c.radius - a.radius);
}

/// Do the lines from a to b and from c to d cross?
bool meet(const Station& a, const Station& b, const Station& c, const Station& d) {
  return (turn(a, b, c) > 0) != (turn(a, b, d) > 0) && (turn(c, d, a) > 0) != (turn(c, d, b) > 0);
}

/// The outer edge without points that hardly matter: each is left out while all since the last that was kept stay near
/// the straight line.
std::vector<Station> outline_of(const opened::Form& form) {
  std::vector<Station> all;
  for (const opened::EdgePoint& point : form.edge) {
    all.push_back({point.radius, point.height});
  }
  std::vector<Station> outline{all.front()};
  std::size_t kept = 0;
  for (std::size_t i = 1; i < all.size(); ++i) {
    const bool last = i + 1 == all.size();
    const bool straight = !last && std::all_of(all.begin() + static_cast<std::ptrdiff_t>(kept) + 1,
                                               all.begin() + static_cast<std::ptrdiff_t>(i) + 1, [&](const Station& s) {
                                                 return squared_distance(all[kept], all[i + 1], s.radius, s.height) <=
                                                        tolerance::outline_mm * tolerance::outline_mm;
                                               });
    if (!straight) {
      outline.push_back(all[i]);
      kept = i;
    }
  }
  return outline;
}

/// Index of the neck: of the places from which the outline widens again to both sides, the one that is narrowest beside
/// what it lies between, for a small head on a wide body has the neck, not the waist below; empty where it widens too
/// little.
std::optional<std::size_t> neck_of(const std::vector<Station>& outline, double widest_mm) {
  std::vector<double> below(outline.size()), above(outline.size());
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const std::size_t j = outline.size() - 1 - i;
    below[i] = std::max(i > 0 ? below[i - 1] : 0, outline[i].radius);
    above[j] = std::max(i > 0 ? above[j + 1] : 0, outline[j].radius);
  }
  const double least = std::max(tolerance::least_neck_mm, tolerance::least_neck_share * widest_mm);
  std::optional<std::size_t> best;
  double narrowest = 1;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const double beside = std::min(below[i], above[i]);
    if (beside - outline[i].radius >= least && outline[i].radius / beside < narrowest - 1e-9) {
      narrowest = outline[i].radius / beside;
      best = i;
    }
  }
  return best;
}

/// Where the outline, followed from a place no wider than `wide` to the next one, becomes wider.
Station widening(const Station& narrow, const Station& next, double wide) {
  const double t = (wide - narrow.radius) / (next.radius - narrow.radius);
  return {wide, narrow.height + t * (next.height - narrow.height)};
}

/// Cuts the outline at the ends of the neck: the stretch about its narrowest place that is hardly wider.
void cut_at_neck(const std::vector<Station>& outline, std::size_t narrowest, Body& body) {
  const double wide =
      outline[narrowest].radius + std::max(tolerance::neck_mm, tolerance::neck_share * outline[narrowest].radius);
  std::size_t from = narrowest, to = narrowest;
  while (from > 0 && outline[from - 1].radius <= wide) {
    --from;
  }
  while (to + 1 < outline.size() && outline[to + 1].radius <= wide) {
    ++to;
  }
  std::vector<Station> below(outline.begin(), outline.begin() + static_cast<std::ptrdiff_t>(from));
  std::vector<Station> neck(outline.begin() + static_cast<std::ptrdiff_t>(from),
                            outline.begin() + static_cast<std::ptrdiff_t>(to) + 1);
  std::vector<Station> head(outline.begin() + static_cast<std::ptrdiff_t>(to) + 1, outline.end());
  if (!below.empty()) {
    below.push_back(widening(outline[from], below.back(), wide));
    neck.insert(neck.begin(), below.back());
  }
  if (!head.empty()) {
    head.insert(head.begin(), widening(outline[to], head.front(), wide));
    neck.push_back(head.front());
  }
  body.below = Swept(std::move(below));
  body.neck = Swept(std::move(neck));
  body.head = Swept(std::move(head));
  body.neck_mm = outline[narrowest].height;
}

double area_mm2(const opened::Mesh& mesh) {
  double area = 0;
  for (const auto& [a, b, c] : mesh.triangles) {
    const auto& p = mesh.points;
    area += length(cross(minus(p[static_cast<std::size_t>(b)], p[static_cast<std::size_t>(a)]),
                         minus(p[static_cast<std::size_t>(c)], p[static_cast<std::size_t>(a)]))) /
            2;
  }
  return area;
}

} // namespace

template <typename Visit> void Swept::each_stretch(const Visit& visit) const {
  if (!visit(foot(), outline_.front())) {
    return;
  }
  for (std::size_t i = 0; i + 1 < outline_.size(); ++i) {
    if (!visit(outline_[i], outline_[i + 1])) {
      return;
    }
  }
  visit(outline_.back(), top());
}

bool Swept::holds(double radius, double height) const {
  bool inside = false;
  each_stretch([&](const Station& a, const Station& b) {
    inside = inside != crosses(a, b, radius, height);
    return true;
  });
  return inside;
}

double Swept::distance(double radius, double height, double enough) const {
  if (empty()) {
    return infinite;
  }
  double least = enough * enough;
  each_stretch([&](const Station& a, const Station& b) {
    if (!apart(a, b, radius, height, least)) {
      least = std::min(least, squared_distance(a, b, radius, height));
    }
    return true;
  });
  least = std::sqrt(least);
  return holds(radius, height) ? -least : least;
}

bool Swept::clears(const Station& from, const Station& to, double gap_mm) const {
  if (empty()) {
    return true;
  }
  const Station middle{(from.radius + to.radius) / 2, (from.height + to.height) / 2};
  const double reach = std::hypot(from.radius - to.radius, from.height - to.height) / 2 + gap_mm;
  bool clear = true;
  each_stretch([&](const Station& a, const Station& b) {
    if (!apart(a, b, middle.radius, middle.height, reach * reach)) {
      clear = !meet(a, b, from, to) && squared_distance(a, b, from.radius, from.height) >= gap_mm * gap_mm &&
              squared_distance(a, b, to.radius, to.height) >= gap_mm * gap_mm &&
              squared_distance(from, to, a.radius, a.height) >= gap_mm * gap_mm &&
              squared_distance(from, to, b.radius, b.height) >= gap_mm * gap_mm;
    }
    return clear;
  });
  return clear && !holds(from.radius, from.height);
}

Sheets::Sheets(const opened::Mesh& mesh, double wedge_rad)
    : points_(mesh.points), triangles_(mesh.triangles), wedge_rad_(wedge_rad) {
  for (std::size_t t = 0; t < triangles_.size(); ++t) {
    std::pair<int, int> low{1 << 30, 1 << 30}, high{-1, -1};
    for (const int corner : triangles_[t]) {
      const Point3& p = points_[static_cast<std::size_t>(corner)];
      const auto [i, j] = cell(std::hypot(p[0], p[1]), p[2]);
      low = {std::min(low.first, i), std::min(low.second, j)};
      high = {std::max(high.first, i), std::max(high.second, j)};
    }
    for (int i = low.first; i <= high.first; ++i) {
      for (int j = low.second; j <= high.second; ++j) {
        triangles_in_[{i, j}].push_back(static_cast<int>(t));
      }
    }
  }
}

std::pair<int, int> Sheets::cell(double radius, double height) const {
  return {static_cast<int>(std::floor(radius / cell_mm)), static_cast<int>(std::floor(height / cell_mm))};
}

double Sheets::distance(const Point3& place, double most) const {
  const double radius = std::hypot(place[0], place[1]);
  const double twice = 2 * wedge_rad_;
  double turned = std::fmod(std::atan2(place[1], place[0]), twice);
  turned = turned < 0 ? turned + twice : turned;
  turned = std::min(turned, twice - turned);
  const Point3 here{radius * std::cos(turned), radius * std::sin(turned), place[2]};
  const auto [column, row] = cell(radius, place[2]);
  double least = most;
  // A triangle in the n-th ring of cells is at least n - 1 cells away.
  for (int ring = 0; (ring - 1) * cell_mm < least; ++ring) {
    for (int i = -ring; i <= ring; ++i) {
      const int step = std::abs(i) == ring ? 1 : std::max(1, 2 * ring);
      for (int j = -ring; j <= ring; j += step) {
        const auto found = triangles_in_.find({column + i, row + j});
        if (found == triangles_in_.end()) {
          continue;
        }
        for (const int t : found->second) {
          const auto& [a, b, c] = triangles_[static_cast<std::size_t>(t)];
          least = std::min(least, distance_to_triangle(here, points_[static_cast<std::size_t>(a)],
                                                       points_[static_cast<std::size_t>(b)],
                                                       points_[static_cast<std::size_t>(c)]));
        }
      }
    }
  }
  return least;
}

Point3 Body::in_wedge(int k, const Point3& place) const {
  opened::Form turned;
  turned.wedge_rad = wedge_rad;
  return opened::in_wedge(turned, k, place);
}

std::optional<Station> Body::at_height(double height_mm) const {
  std::optional<Station> outermost;
  for (const Swept* part : {&below, &neck}) {
    const auto& outline = part->outline();
    for (std::size_t i = 0; i + 1 < outline.size(); ++i) {
      const auto [low, high] = std::minmax(outline[i].height, outline[i + 1].height);
      if (height_mm < low || height_mm > high || high <= low) {
        continue;
      }
      const double t = (height_mm - outline[i].height) / (outline[i + 1].height - outline[i].height);
      const double radius = outline[i].radius + t * (outline[i + 1].radius - outline[i].radius);
      if (!outermost || radius > outermost->radius) {
        outermost = Station{radius, height_mm};
      }
    }
  }
  return outermost;
}

Body body_of(const opened::Form& form, int leaves, const paper::Paper& paper) {
  Body body;
  const std::vector<Station> outline = outline_of(form);
  for (const Station& station : outline) {
    body.widest_mm = std::max(body.widest_mm, station.radius);
    body.top_mm = std::max(body.top_mm, station.height);
  }
  body.below = Swept(outline);
  if (const auto narrowest = neck_of(outline, body.widest_mm)) {
    cut_at_neck(outline, *narrowest, body);
  }
  body.leaves = leaves;
  body.wedge_rad = form.wedge_rad;
  body.opening_deg = 2 * leaves * form.wedge_rad * 180 / std::numbers::pi;
  body.caliper_mm = paper.caliper_mm;
  for (const opened::EdgePoint& point : form.edge) {
    body.edge.push_back({{point.x, point.z}, form.place({point.x, point.z})});
  }
  body.sheets = std::make_shared<Sheets>(form.mesh, form.wedge_rad);
  body.mass_g = 2 * leaves * area_mm2(form.mesh) * paper.grammage_gsm * 1e-6;
  body.mass_centre = fit::mass_centre(form, leaves);
  body.stands = fit::footprint(form, leaves);
  return body;
}

} // namespace fanwright::fan
