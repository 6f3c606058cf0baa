// Lines are cut off by parametric clipping (Liang and Barsky, ACM Transactions on Graphics 3, 1984).
#include "kit/window.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace fanwright::kit {

namespace {

using drawing::Point;
using Chords = std::vector<Point>;

constexpr double chord_tolerance_mm = 0.005;

/// Enough chords that a cubic's second differences bound their error (its deviation is at most their size / 8 n^2).
void add_chords(Chords& chords, const drawing::Cubic& s) {
  const Point from = chords.back();
  const double bend =
      std::max(std::hypot(from.x - 2 * s.control1.x + s.control2.x, from.y - 2 * s.control1.y + s.control2.y),
               std::hypot(s.control1.x - 2 * s.control2.x + s.to.x, s.control1.y - 2 * s.control2.y + s.to.y));
  const int count =
      static_cast<int>(std::clamp(std::ceil(std::sqrt(6 * bend / (8 * chord_tolerance_mm))), 1.0, 2000.0));
  for (int i = 1; i <= count; ++i) {
    const double t = static_cast<double>(i) / count, u = 1 - t;
    const double a = u * u * u, b = 3 * u * u * t, c = 3 * u * t * t, d = t * t * t;
    chords.push_back({a * from.x + b * s.control1.x + c * s.control2.x + d * s.to.x,
                      a * from.y + b * s.control1.y + c * s.control2.y + d * s.to.y});
  }
}

/// The part of a chord inside the window.
std::optional<std::array<Point, 2>> inside(const Point& p, const Point& q, const PageBox& window) {
  double enter = 0, leave = 1;
  const double dx = q.x - p.x, dy = q.y - p.y;
  for (const auto& [speed, room] : {std::pair{-dx, p.x - window.left}, std::pair{dx, window.right - p.x},
                                    std::pair{-dy, p.y - window.top}, std::pair{dy, window.bottom - p.y}}) {
    if (speed == 0) {
      if (room < 0)
        return std::nullopt;
    } else if (speed < 0) {
      enter = std::max(enter, room / speed);
    } else {
      leave = std::min(leave, room / speed);
    }
  }
  if (enter > leave)
    return std::nullopt;
  return std::array{Point{p.x + enter * dx, p.y + enter * dy}, Point{p.x + leave * dx, p.y + leave * dy}};
}

bool holds(const PageBox& window, const Point& p) {
  return p.x >= window.left && p.x <= window.right && p.y >= window.top && p.y <= window.bottom;
}

struct Moved {
  Point by;
  Point operator()(const Point& p) const { return {p.x + by.x, p.y + by.y}; }
  drawing::Segment operator()(const drawing::Move& s) const { return drawing::Move{(*this)(s.to)}; }
  drawing::Segment operator()(const drawing::Line& s) const { return drawing::Line{(*this)(s.to)}; }
  drawing::Segment operator()(const drawing::Close& s) const { return s; }
  drawing::Segment operator()(const drawing::Cubic& s) const {
    return drawing::Cubic{(*this)(s.control1), (*this)(s.control2), (*this)(s.to)};
  }
  drawing::Segment operator()(const drawing::Arc& s) const {
    drawing::Arc arc = s;
    arc.to = (*this)(s.to);
    return arc;
  }
};

drawing::Path cut_off(const drawing::Path& path, const std::vector<Chords>& stretches, const PageBox& window,
                      const Moved& moved) {
  drawing::Path seen{path.step, {}, path.pen};
  for (const Chords& chords : stretches) {
    bool drawing_on = false;
    for (std::size_t i = 0; i + 1 < chords.size(); ++i) {
      const auto part = inside(chords[i], chords[i + 1], window);
      if (!part) {
        drawing_on = false;
        continue;
      }
      if (!drawing_on)
        seen.segments.push_back(drawing::Move{moved((*part)[0])});
      seen.segments.push_back(drawing::Line{moved((*part)[1])});
      drawing_on = holds(window, chords[i + 1]);
    }
  }
  return seen;
}

} // namespace

std::vector<Chords> chords_of(const drawing::Path& path) {
  std::vector<Chords> stretches;
  for (const drawing::Segment& segment : path.segments) {
    if (const auto* move = std::get_if<drawing::Move>(&segment)) {
      stretches.push_back({move->to});
      continue;
    }
    Chords& chords = stretches.back();
    if (const auto* line = std::get_if<drawing::Line>(&segment))
      chords.push_back(line->to);
    else if (const auto* cubic = std::get_if<drawing::Cubic>(&segment))
      add_chords(chords, *cubic);
    else if (const auto* arc = std::get_if<drawing::Arc>(&segment))
      for (const drawing::Cubic& piece : drawing::cubics_of(chords.back(), *arc))
        add_chords(chords, piece);
    else
      chords.push_back(chords.front());
  }
  return stretches;
}

std::vector<drawing::Item> seen_through(const std::vector<drawing::Item>& items, const PageBox& window,
                                        const Point& corner) {
  const Moved moved{{corner.x - window.left, corner.y - window.top}};
  std::vector<drawing::Item> seen;
  for (const drawing::Item& item : items) {
    if (const auto* text = std::get_if<drawing::Text>(&item)) {
      if (!holds(window, text->baseline))
        continue;
      drawing::Text line = *text;
      line.baseline = moved(text->baseline);
      seen.push_back(line);
    } else if (const auto* path = std::get_if<drawing::Path>(&item)) {
      const std::vector<Chords> stretches = chords_of(*path);
      const bool whole = std::all_of(stretches.begin(), stretches.end(), [&](const Chords& chords) {
        return std::all_of(chords.begin(), chords.end(), [&](const Point& p) { return holds(window, p); });
      });
      drawing::Path part{path->step, {}, path->pen};
      if (whole)
        for (const drawing::Segment& segment : path->segments)
          part.segments.push_back(std::visit(moved, segment));
      else
        part = cut_off(*path, stretches, window, moved);
      if (!part.segments.empty())
        seen.push_back(part);
    }
  }
  return seen;
}

} // namespace fanwright::kit
