#include "booklet/sketch_leaf.h"

#include "leaf/contour.h"
#include "leaf/strip.h"
#include "picture/straightened.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::booklet {
namespace {

constexpr double simpler_share = 0.0006; // of the height: 0.05 mm where a leaf is drawn 80 mm high

double radians(double degrees) { return degrees * std::numbers::pi / 180; }

leaf::Ring simpler(const leaf::Ring& ring, double tolerance_mm) {
  leaf::Ring chain = ring;
  chain.push_back(ring.front());
  chain = picture::straightened(chain, tolerance_mm);
  chain.pop_back();
  return chain.size() < 3 ? ring : chain;
}

double signed_area(const Shape& ring) {
  double sum = 0;
  for (std::size_t k = 0; k < ring.size(); ++k) {
    const auto &a = ring[k], &b = ring[(k + 1) % ring.size()];
    sum += a.x * b.y - b.x * a.y;
  }
  return sum / 2;
}

/// Where the outline crosses height `z`, from the spine outwards.
std::vector<double> crossings(const DrawnLeaf& leaf, double z) {
  std::vector<double> places;
  for (std::size_t k = 0; k + 1 < leaf.half.size(); ++k) {
    const auto &a = leaf.half[k], &b = leaf.half[k + 1];
    if ((a.z - z) * (b.z - z) <= 0)
      places.push_back(a.z == b.z ? std::max(a.x, b.x) : a.x + (b.x - a.x) * (z - a.z) / (b.z - a.z));
  }
  std::sort(places.begin(), places.end());
  return places;
}

} // namespace

DrawnLeaf drawn_leaf(const leaf::Leaf& leaf) {
  DrawnLeaf drawn;
  const leaf::Box box = leaf::bounds(leaf.outline);
  drawn.width = box.right, drawn.bottom = box.bottom, drawn.top = box.top;
  drawn.spine_foot = leaf.spine_foot_z, drawn.spine_top = leaf.spine_top_z;
  const double tolerance_mm = simpler_share * drawn.measure();
  // The spine's ends stay, since the ring begins at one and ends at the other.
  drawn.half = picture::straightened(leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm), tolerance_mm);
  for (const auto& cut_out : leaf.cut_outs)
    drawn.cut_outs.push_back(simpler(leaf::flatten(cut_out, leaf::flatten_tolerance_mm), tolerance_mm));
  drawn.rows = leaf.rows;
  for (const auto& row : leaf.rows) {
    const auto strip = leaf::corners(row);
    (row.side == design::Side::inside ? drawn.inside : drawn.between).emplace_back(strip.begin(), strip.end());
  }
  return drawn;
}

double reach_at(const DrawnLeaf& leaf, double z) {
  const auto places = crossings(leaf, z);
  return places.empty() ? 0 : places.back();
}

double edge_beyond(const DrawnLeaf& leaf, double x, double z) {
  const auto places = crossings(leaf, z);
  const auto beyond = std::find_if(places.begin(), places.end(), [x](double place) { return place >= x; });
  return beyond == places.end() ? x : *beyond;
}

double widest_at(const DrawnLeaf& leaf) {
  constexpr int heights = 40;
  double best = leaf.middle(), widest = 0;
  for (int k = 2; k < heights - 1; ++k) {
    const double step = leaf.height() / heights, z = leaf.bottom + k * step;
    double width = 1e9;
    for (const double beside : {-2 * step, 0.0, 2 * step})
      width = std::min(width, edge_beyond(leaf, 1e-6, z + beside));
    if (width > widest)
      widest = width, best = z;
  }
  return best;
}

drawing::Point Viewer::at(double x, double y, double z) const {
  const double a = radians(azimuth_deg), e = radians(elevation_deg);
  const double away = -x * std::sin(a) + y * std::cos(a);
  return {x * std::cos(a) + y * std::sin(a), -(z * std::cos(e) + away * std::sin(e))};
}

Pose flat_pose(bool left, drawing::Point spine) {
  return [=](leaf::Point p) { return drawing::Point{spine.x + (left ? -p.x : p.x), spine.y - p.z}; };
}

Pose hinged_pose(const Viewer& viewer, double angle_deg) {
  const double c = std::cos(radians(angle_deg)), s = std::sin(radians(angle_deg));
  return [=](leaf::Point p) { return viewer.at(p.x * c, p.x * s, p.z); };
}

Pose lying_pose(const Viewer& viewer, double above, bool left) {
  return [=](leaf::Point p) { return viewer.at(left ? -p.x : p.x, p.z, above); };
}

Shape posed(const leaf::Ring& ring, const Pose& pose) {
  Shape shape;
  for (const auto& point : ring)
    shape.push_back(pose(point));
  return shape;
}

void draw_half(Easel& easel, const DrawnLeaf& leaf, const Pose& pose, drawing::Colour colour, const Stroke& stroke) {
  std::vector<Shape> rings{posed(leaf.half, pose)};
  for (const auto& cut_out : leaf.cut_outs)
    rings.push_back(posed(cut_out, pose));
  easel.paper(rings, colour, stroke);
}

void draw_hinged(Easel& easel, const DrawnLeaf& leaf, const Pose& pose, bool left) {
  // On the page y runs down, so the right half's ring runs clockwise when its inner face is seen.
  const bool inner = (signed_area(posed(leaf.half, pose)) < 0) != left;
  draw_half(easel, leaf, pose, inner ? white : pale);
}

void draw_unfolded(Easel& easel, const DrawnLeaf& leaf) {
  Shape whole = posed(leaf.half, flat_pose());
  Shape left = posed(leaf.half, flat_pose(true));
  whole.insert(whole.end(), left.rbegin(), left.rend());
  std::vector<Shape> rings{whole};
  for (const bool mirrored : {false, true})
    for (const auto& cut_out : leaf.cut_outs) {
      rings.push_back(posed(cut_out, flat_pose(mirrored)));
      if (mirrored)
        std::reverse(rings.back().begin(), rings.back().end());
    }
  easel.paper(rings, white);
  easel.line({{0, -leaf.spine_foot}, {0, -leaf.spine_top}}, score_line);
}

void draw_pile(Easel& easel, const DrawnLeaf& leaf, const Viewer& viewer, double above, double step, int leaves,
               bool left) {
  for (int k = 0; k < leaves; ++k)
    draw_half(easel, leaf, lying_pose(viewer, above + step * k, left), k + 1 == leaves ? pale : white,
              k + 1 == leaves ? Stroke{} : thin_line);
}

void draw_glue(Easel& easel, const std::vector<leaf::Ring>& strips, const Pose& pose) {
  for (const auto& strip : strips)
    easel.glue(posed(strip, pose));
}

void draw_block(Easel& easel, const Viewer& v, const Block& b, drawing::Colour top, drawing::Colour front,
                const Stroke& stroke) {
  const bool right_seen = v.azimuth_deg > 0;
  const double side = right_seen ? b.right : b.left;
  easel.paper(
      {v.at(side, b.front, b.low), v.at(side, b.back, b.low), v.at(side, b.back, b.high), v.at(side, b.front, b.high)},
      front, stroke);
  easel.paper({v.at(b.left, b.front, b.low), v.at(b.right, b.front, b.low), v.at(b.right, b.front, b.high),
               v.at(b.left, b.front, b.high)},
              front, stroke);
  easel.paper({v.at(b.left, b.front, b.high), v.at(b.right, b.front, b.high), v.at(b.right, b.back, b.high),
               v.at(b.left, b.back, b.high)},
              top, stroke);
}

Shape arc(drawing::Point middle, double radius_x, double radius_y, double from_deg, double to_deg) {
  constexpr int steps = 32;
  Shape shape;
  for (int k = 0; k <= steps; ++k) {
    const double angle = radians(from_deg + (to_deg - from_deg) * k / steps);
    shape.push_back({middle.x + radius_x * std::cos(angle), middle.y + radius_y * std::sin(angle)});
  }
  return shape;
}

Shape curve(drawing::Point from, drawing::Point control1, drawing::Point control2, drawing::Point to) {
  constexpr int steps = 24;
  Shape shape;
  for (int k = 0; k <= steps; ++k) {
    const double t = static_cast<double>(k) / steps, s = 1 - t;
    const double a = s * s * s, b = 3 * s * s * t, c = 3 * s * t * t, d = t * t * t;
    shape.push_back({a * from.x + b * control1.x + c * control2.x + d * to.x,
                     a * from.y + b * control1.y + c * control2.y + d * to.y});
  }
  return shape;
}

} // namespace fanwright::booklet
