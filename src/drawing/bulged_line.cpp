// Based on K. M. Bolton, Biarc curves, Computer-Aided Design 7 (1975) 89-92: two arcs that meet smoothly through two
// points with given tangents; here with tangent lengths equal at both ends, and halved until they are near enough.
#include "drawing/bulged_line.h"

#include "drawing/centred_arc.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <utility>

namespace fanwright::drawing {

namespace {

constexpr double same_place_mm = 1e-6; // as fine as DXF is written
constexpr int most_halvings = 12;      // 4096 arcs for one curve, of any size

Point operator+(const Point& a, const Point& b) { return {a.x + b.x, a.y + b.y}; }
Point operator-(const Point& a, const Point& b) { return {a.x - b.x, a.y - b.y}; }
Point operator*(double s, const Point& a) { return {s * a.x, s * a.y}; }
double dot(const Point& a, const Point& b) { return a.x * b.x + a.y * b.y; }
double cross(const Point& a, const Point& b) { return a.x * b.y - a.y * b.x; }
double length(const Point& a) { return std::hypot(a.x, a.y); }

bool same_place(const Point& a, const Point& b) { return !(length(a - b) > same_place_mm); }

class CubicCurve {
public:
  CubicCurve(const Point& from, const Cubic& cubic) : p_{from, cubic.control1, cubic.control2, cubic.to} {}

  Point at(double t) const {
    const double u = 1 - t;
    return u * u * u * p_[0] + 3 * u * u * t * p_[1] + 3 * u * t * t * p_[2] + t * t * t * p_[3];
  }
  /// Of any length; `side` is +1 or -1: towards which t the curve goes on, should it turn about at t.
  Point direction(double t, int side) const {
    const double u = 1 - t;
    const Point slope = u * u * (p_[1] - p_[0]) + 2 * u * t * (p_[2] - p_[1]) + t * t * (p_[3] - p_[2]);
    if (length(slope) > same_place_mm)
      return slope;
    constexpr double nearby = 1e-3;
    return static_cast<double>(side) * (at(t + side * nearby) - at(t));
  }

private:
  std::array<Point, 4> p_;
};

class EllipseCurve {
public:
  explicit EllipseCurve(const CentredArc& arc) : arc_(arc) {}

  Point at(double t) const {
    const double angle = arc_.start_rad + t * arc_.sweep_rad;
    return on(arc_, std::cos(angle), std::sin(angle));
  }
  Point direction(double t, int) const {
    const double angle = arc_.start_rad + t * arc_.sweep_rad;
    return arc_.sweep_rad * (on(arc_, -std::sin(angle), std::cos(angle)) - arc_.centre);
  }

private:
  CentredArc arc_;
};

/// A line or circular arc between two points.
struct Piece {
  Point from, to;
  double bulge = 0;
};

struct Circle {
  Point centre;
  double radius, start_rad, sweep_rad;
};

/// With h = (1 - b^2) / (4 b) of the chord, the centre lies h to the left of the chord's middle, as b = tan(angle / 4).
Circle circle_of(const Piece& piece) {
  const Point chord = piece.to - piece.from;
  const double height = (1 - piece.bulge * piece.bulge) / (4 * piece.bulge);
  const Point centre = 0.5 * (piece.from + piece.to) + height * Point{-chord.y, chord.x};
  const Point start = piece.from - centre;
  return {centre, length(start), std::atan2(start.y, start.x), 4 * std::atan(piece.bulge)};
}

/// Whether the arc passes the direction `angle_rad` from its centre.
bool passes(const Circle& circle, double angle_rad) {
  constexpr double turn = 2 * std::numbers::pi;
  const double ahead = std::fmod(angle_rad - circle.start_rad, turn);
  const double forward = ahead < 0 ? ahead + turn : ahead;
  return circle.sweep_rad > 0 ? forward <= circle.sweep_rad : forward == 0 || forward - turn >= circle.sweep_rad;
}

double distance(const Point& point, const Piece& piece) {
  constexpr double straight = 1e-9;
  if (std::abs(piece.bulge) < straight) {
    const Point chord = piece.to - piece.from;
    const double squared = dot(chord, chord);
    const double share = squared > 0 ? std::clamp(dot(point - piece.from, chord) / squared, 0.0, 1.0) : 0.0;
    return length(point - (piece.from + share * chord));
  }
  const Circle circle = circle_of(piece);
  const Point out = point - circle.centre;
  if (passes(circle, std::atan2(out.y, out.x)))
    return std::abs(length(out) - circle.radius);
  return std::min(length(point - piece.from), length(point - piece.to));
}

Point unit(const Point& a) { return 1 / length(a) * a; }

/// Bulge of the arc that leaves along `tangent` and goes `chord` far; the tangent turns from the chord by half the arc.
double bulge_of(const Point& tangent, const Point& chord) {
  return std::tan(std::atan2(cross(tangent, chord), dot(tangent, chord)) / 2);
}

/// Two arcs from a to b with the unit tangents there. The tangents' lengths d are those for which the arcs' meeting
/// points agree: |b - d tb - a - d ta| = 2 d. Nothing where the curve turns back.
std::optional<std::array<Piece, 2>> biarc(const Point& a, const Point& ta, const Point& b, const Point& tb) {
  const Point chord = b - a;
  if (!(dot(chord, ta) > 0 && dot(chord, tb) > 0))
    return std::nullopt;
  // 2 (1 - ta.tb) d^2 + 2 chord.(ta + tb) d - chord.chord = 0, its positive root free of cancellation.
  const double square = 2 * (1 - dot(ta, tb)), linear = dot(chord, ta + tb), constant = dot(chord, chord);
  const double d = constant / (linear + std::sqrt(linear * linear + square * constant));
  const Point meeting = 0.5 * ((a + d * ta) + (b - d * tb));
  return std::array<Piece, 2>{
      {{a, meeting, bulge_of(ta, meeting - a)}, {meeting, b, -bulge_of(-1.0 * tb, meeting - b)}}};
}

/// Stands lines and arcs for a curve between two of its parameters.
template <typename Curve> void fit(const Curve& curve, double t0, double t1, int halvings, std::vector<Piece>& pieces) {
  const auto all_within = [&](double tolerance, const auto& candidates) {
    constexpr int samples = 16;
    for (int i = 1; i < samples; ++i) {
      const Point point = curve.at(t0 + (t1 - t0) * i / samples);
      const bool near = std::any_of(candidates.begin(), candidates.end(),
                                    [&](const Piece& piece) { return distance(point, piece) <= tolerance; });
      if (!near)
        return false;
    }
    return true;
  };
  const Point a = curve.at(t0), b = curve.at(t1);
  const std::array<Piece, 1> chord = {{{a, b, 0}}};
  if (halvings == 0 || all_within(curve_tolerance_mm / 4, chord)) {
    pieces.push_back(chord[0]);
    return;
  }
  // A fifth is kept back for what lies between the samples.
  const auto arcs = biarc(a, unit(curve.direction(t0, 1)), b, unit(curve.direction(t1, -1)));
  if (arcs && all_within(0.8 * curve_tolerance_mm, *arcs)) {
    pieces.insert(pieces.end(), arcs->begin(), arcs->end());
    return;
  }
  const double middle = (t0 + t1) / 2;
  fit(curve, t0, middle, halvings - 1, pieces);
  fit(curve, middle, t1, halvings - 1, pieces);
}

/// Follows a path's segments.
class Follower {
public:
  void operator()(const Move& s) {
    finish(false);
    begin(s.to);
  }
  void operator()(const Line& s) { leave(0, s.to); }
  void operator()(const Cubic& s) { leave_along(CubicCurve(current_, s), s.to); }
  void operator()(const Arc& s) {
    if (s.to.x == current_.x && s.to.y == current_.y)
      return;
    if (s.radius_x == 0 || s.radius_y == 0)
      return leave(0, s.to);
    const CentredArc arc = centred(current_, s);
    if (std::abs(arc.radius_x - arc.radius_y) > 1e-9 * arc.radius_x)
      return leave_along(EllipseCurve(arc), s.to);
    if (std::abs(arc.sweep_rad) <= std::numbers::pi)
      return leave(std::tan(arc.sweep_rad / 4), s.to);
    leave(std::tan(arc.sweep_rad / 8), EllipseCurve(arc).at(0.5)); // in halves: near a full turn the bulge is endless
    leave(std::tan(arc.sweep_rad / 8), s.to);
  }
  void operator()(const Close&) {
    const Point start = line_.vertices.empty() ? current_ : line_.vertices.front().at;
    finish(true);
    begin(start);
  }
  std::vector<BulgedLine> lines() {
    finish(false);
    return std::move(lines_);
  }

private:
  void begin(const Point& start) {
    line_.vertices.push_back({start, 0});
    current_ = start;
  }
  void leave(double bulge, const Point& to) {
    if (line_.vertices.empty())
      begin(current_);
    current_ = to;
    if (same_place(to, line_.vertices.back().at))
      return;
    line_.vertices.back().bulge = bulge;
    line_.vertices.push_back({to, 0});
  }
  template <typename Curve> void leave_along(const Curve& curve, const Point& to) {
    std::vector<Piece> pieces;
    fit(curve, 0, 1, most_halvings, pieces);
    for (const Piece& piece : pieces)
      leave(piece.bulge, piece.to);
    current_ = to;
  }
  void finish(bool closed) {
    line_.closed = closed;
    if (closed && line_.vertices.size() > 1 && same_place(line_.vertices.front().at, line_.vertices.back().at))
      line_.vertices.pop_back();
    if (line_.vertices.size() > 1)
      lines_.push_back(line_);
    line_.vertices.clear();
  }

  BulgedLine line_;
  std::vector<BulgedLine> lines_;
  Point current_;
};

void widen(std::optional<Box>& box, const Point& point) {
  if (!box)
    box = Box{point, point};
  box->low = {std::min(box->low.x, point.x), std::min(box->low.y, point.y)};
  box->high = {std::max(box->high.x, point.x), std::max(box->high.y, point.y)};
}

} // namespace

std::vector<BulgedLine> bulged_lines(const std::vector<Segment>& path) {
  Follower follower;
  for (const Segment& segment : path)
    std::visit(follower, segment);
  return follower.lines();
}

double arc_length_mm(const BulgedVertex& from, const Point& to) {
  const double chord = length(to - from.at), half = 2 * std::atan(from.bulge);
  return std::abs(half) < 1e-9 ? chord : chord * half / std::sin(half);
}

Point along(const BulgedVertex& from, const Point& to, double share) {
  if (from.bulge == 0)
    return from.at + share * (to - from.at);
  const Circle circle = circle_of({from.at, to, from.bulge});
  const double angle = circle.start_rad + share * circle.sweep_rad;
  return circle.centre + circle.radius * Point{std::cos(angle), std::sin(angle)};
}

std::optional<Box> box_round(const std::vector<BulgedLine>& lines) {
  std::optional<Box> box;
  for (const BulgedLine& line : lines)
    for (std::size_t i = 0; i < line.vertices.size(); ++i) {
      const BulgedVertex& vertex = line.vertices[i];
      widen(box, vertex.at);
      if (vertex.bulge == 0 || (i + 1 == line.vertices.size() && !line.closed))
        continue;
      const Circle circle = circle_of({vertex.at, line.vertices[(i + 1) % line.vertices.size()].at, vertex.bulge});
      constexpr std::array<Point, 4> ways = {{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};
      for (std::size_t k = 0; k < ways.size(); ++k)
        if (passes(circle, static_cast<double>(k) * std::numbers::pi / 2))
          widen(box, circle.centre + circle.radius * ways[k]);
    }
  return box;
}

} // namespace fanwright::drawing
