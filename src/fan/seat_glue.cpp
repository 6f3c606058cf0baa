// Which leaf edges a side pleat is glued to.
#include "fan/seat_pose.h"
#include "fan/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::fan {
namespace {

/// A side pleat's outer panel as a band of triangles from the gathered end outward.
class Side {
public:
  Side(const Panels& panels, bool last) {
    const int panel = last ? panels.count() - 1 : 0;
    const double top = panels.top_mm(panel, 0, 1);
    for (int i = 0; i <= steps; ++i) {
      for (int across = 0; across <= 2; ++across) {
        points_.push_back(panels.at(panel, across / 2.0, top * i / steps));
      }
    }
    middle_ = points_[points_.size() / 2];
    for (const Point3& point : points_) {
      half_mm_ = std::max(half_mm_, distance(point, middle_));
    }
  }

  bool far(const Point3& place, double reach_mm) const { return distance(place, middle_) > half_mm_ + reach_mm; }

  bool near(const Point3& place, double reach_mm) const {
    const auto at = [&](int i, int across) { return points_[static_cast<std::size_t>(3 * i + across)]; };
    const Point3 along = minus(at(steps, 1), at(0, 1));
    const double share = dot(minus(place, at(0, 1)), along) / dot(along, along);
    const int step = static_cast<int>(std::floor(std::clamp(share, 0.0, 1.0) * steps));
    // The middle of the panel is nearly straight, so the nearest triangles are those at the foot of the normal.
    for (int i = std::max(0, step - 1); i <= std::min(steps - 1, step + 1); ++i) {
      for (int a = 0; a < 2; ++a) {
        if (distance_to_triangle(place, at(i, a), at(i, a + 1), at(i + 1, a)) <= reach_mm ||
            distance_to_triangle(place, at(i, a + 1), at(i + 1, a + 1), at(i + 1, a)) <= reach_mm) {
          return true;
        }
      }
    }
    return false;
  }

private:
  static constexpr int steps = 24;
  std::vector<Point3> points_;
  Point3 middle_{};
  double half_mm_ = 0;
};

/// Adds the stretches of wedge k's edge for which `touches` holds; none of a piece of it for which `far` holds does.
template <typename Far, typename Touches>
void add_stretches(const Body& body, int k, bool last_side, const Far& far, const Touches& touches,
                   std::vector<GluedEdge>& found) {
  std::optional<GluedEdge> open;
  const auto close = [&] {
    if (open && open->length_mm >= tolerance::shortest_glue_mm) {
      found.push_back(*open);
    }
    open.reset();
  };
  Point3 b = body.in_wedge(k, body.edge.front().place);
  for (std::size_t i = 0; i + 1 < body.edge.size(); ++i) {
    const leaf::Point from = body.edge[i].flat, to = body.edge[i + 1].flat;
    const Point3 a = b;
    b = body.in_wedge(k, body.edge[i + 1].place);
    if (far(times(0.5, plus(a, b)), distance(a, b) / 2)) {
      close();
      continue;
    }
    const double long_mm = std::hypot(to.x - from.x, to.z - from.z);
    const int steps = std::max(1, static_cast<int>(std::ceil(long_mm / tolerance::edge_step_mm)));
    for (int s = 0; s < steps; ++s) {
      if (!touches(plus(a, times((s + 0.5) / steps, minus(b, a))))) {
        close();
        continue;
      }
      if (!open) {
        open = leaf_of_wedge(body, k);
        open->last_side = last_side;
        open->from_z_mm = from.z + s * (to.z - from.z) / steps;
      }
      open->to_z_mm = from.z + (s + 1) * (to.z - from.z) / steps;
      open->length_mm += long_mm / steps;
    }
  }
  close();
}

} // namespace

GluedEdge leaf_of_wedge(const Body& body, int wedge) {
  GluedEdge edge;
  if (body.opening_deg > 360 - 1e-6) {
    // The seam is the wall between wedges 0 and 1, where neighbouring leaves meet.
    edge.leaf = wedge == 0 ? body.leaves : (wedge + 1) / 2;
    edge.half = wedge % 2 == 1 ? 1 : 2;
  } else {
    edge.leaf = wedge / 2 + 1;
    edge.half = wedge % 2 + 1;
  }
  return edge;
}

std::vector<GluedEdge> covered_edges(const Body& body, const Placed& disc, double reach_mm) {
  const double cover = cover_radius_mm(disc.spread), back = disc.spread.relief_at(0) / 2 + tolerance::cover_mm;
  const auto far = [&](const Point3& middle, double half_mm) {
    return distance(middle, disc.at.origin) > half_mm + std::hypot(cover, back + reach_mm);
  };
  const auto touches = [&](const Point3& place) {
    const Point3 off = minus(place, disc.at.origin);
    const double square = dot(off, disc.at.axes[2]);
    return dot(off, off) - square * square <= cover * cover && std::abs(square) <= back + reach_mm;
  };
  std::vector<GluedEdge> found;
  for (int k = 0; k < 2 * body.leaves; ++k) {
    add_stretches(body, k, false, far, touches, found);
  }
  return found;
}

std::vector<GluedEdge> glued_edges(const Body& body, const Panels& panels, const Placement& at, bool last_side,
                                   double reach_mm) {
  const Side side(panels, last_side);
  const auto far = [&](const Point3& middle, double half_mm) { return side.far(middle, half_mm + reach_mm); };
  const auto touches = [&](const Point3& place) { return !side.far(place, reach_mm) && side.near(place, reach_mm); };
  std::vector<GluedEdge> found;
  for (int k = 0; k < 2 * body.leaves; ++k) {
    // Leaves on the far side of the axis cannot be reached.
    const Point3 middle = body.in_wedge(k, body.edge[body.edge.size() / 2].place);
    if (middle[0] * at.origin[0] + middle[1] * at.origin[1] >= 0) {
      add_stretches(body, k, last_side, far, touches, found);
    }
  }
  return found;
}

} // namespace fanwright::fan
