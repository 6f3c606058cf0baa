#include "fit/carried_form.h"

#include "fit/refusals.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <vector>

namespace fanwright::fit {
namespace {

/// The places of a leaf's points once open, carried on beyond its edge. The solver's own continuation there is that of
/// a polynomial, good for a millimetre or two; here a point keeps the way its nearest paper has moved, and for the
/// first few millimetres how that changes towards the edge.
class Places {
public:
  Places(const opened::Form& form, const opened::Panel& panel)
      : place_(form.place), ring_(panel.outline), low_(std::ranges::min(ring_, {}, &leaf::Point::z).z),
        band_mm_(std::max((std::ranges::max(ring_, {}, &leaf::Point::z).z - low_) / bands, 1e-6)) {
    for (std::size_t k = 0; k < ring_.size(); ++k) {
      const double z = ring_[k].z, next = ring_[(k + 1) % ring_.size()].z;
      for (int band = band_of(std::min(z, next)); band <= band_of(std::max(z, next)); ++band)
        edges_in_[static_cast<std::size_t>(band)].push_back(k);
    }
  }

  opened::Point3 operator()(leaf::Point flat) const {
    if (on_paper(flat))
      return place_(flat);
    const leaf::Point edge = nearest(flat);
    const double distance = std::hypot(flat.x - edge.x, flat.z - edge.z);
    const opened::Point3 there = place_(edge);
    if (distance < 1e-9)
      return there;
    const double step = 2.0; // mm, within a cell
    const leaf::Point within{edge.x - step * (flat.x - edge.x) / distance,
                             edge.z - step * (flat.z - edge.z) / distance};
    const double share = on_paper(within) ? std::min(distance, most_change_mm) / step : 0.0;
    const Moved at_edge = moved(edge, there), further_in = moved(within, place_(within));
    const double radius = flat.x + at_edge.out + share * (at_edge.out - further_in.out);
    const double height = flat.z + at_edge.up + share * (at_edge.up - further_in.up);
    return {radius * std::cos(at_edge.angle), radius * std::sin(at_edge.angle), height};
  }

private:
  static constexpr double most_change_mm = 4;

  struct Moved {
    double out, up, angle;
  };
  static Moved moved(leaf::Point flat, const opened::Point3& place) {
    return {std::hypot(place[0], place[1]) - flat.x, place[2] - flat.z, std::atan2(place[1], place[0])};
  }

  int band_of(double z) const {
    return static_cast<int>(std::clamp(std::floor((z - low_) / band_mm_), 0.0, bands - 1.0));
  }

  /// By counting the edges to the right of the point.
  bool on_paper(leaf::Point p) const {
    bool inside = false;
    for (const std::size_t k : edges_in_[static_cast<std::size_t>(band_of(p.z))]) {
      const leaf::Point a = ring_[k], b = ring_[(k + 1) % ring_.size()];
      if ((a.z > p.z) != (b.z > p.z) && p.x < a.x + (p.z - a.z) * (b.x - a.x) / (b.z - a.z))
        inside = !inside;
    }
    return inside;
  }

  leaf::Point nearest_on(std::size_t k, leaf::Point p) const {
    const leaf::Point a = ring_[k], b = ring_[(k + 1) % ring_.size()];
    const double dx = b.x - a.x, dz = b.z - a.z;
    const double t = std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / std::max(dx * dx + dz * dz, 1e-12), 0.0, 1.0);
    return {a.x + t * dx, a.z + t * dz};
  }

  /// Band by band away from the point, until no other band can be nearer.
  leaf::Point nearest(leaf::Point p) const {
    leaf::Point best = ring_.front();
    double least = std::numeric_limits<double>::infinity();
    const int middle = band_of(p.z);
    for (int away = 0; away < bands && (away - 1) * band_mm_ < least; ++away)
      for (const int band : {middle - away, middle + away})
        if (band >= 0 && band < bands)
          for (const std::size_t k : edges_in_[static_cast<std::size_t>(band)]) {
            const leaf::Point q = nearest_on(k, p);
            if (const double d = std::hypot(p.x - q.x, p.z - q.z); d < least) {
              least = d;
              best = q;
            }
          }
    return best;
  }

  static constexpr int bands = 64; ///< of height, to look at few edges

  std::function<opened::Point3(leaf::Point)> place_;
  leaf::Ring ring_;
  double low_, band_mm_;
  std::array<std::vector<std::size_t>, bands> edges_in_;
};

/// Ends of the spine, where a pull-back reads the hub.
void add_spine_ends(opened::Form& form, const opened::Panel& panel, double scale) {
  double foot = std::numeric_limits<double>::infinity(), top = -foot;
  for (const leaf::Point& p : panel.outline)
    if (p.x < 1e-6) {
      foot = std::min(foot, scale * p.z);
      top = std::max(top, scale * p.z);
    }
  for (const double z : {foot, top}) {
    const opened::Point3 place = form.place({0, z});
    form.edge.push_back({0, z, std::hypot(place[0], place[1]), place[2]});
  }
}

} // namespace

double growth(const design::Size& size, const design::Size& before) {
  return size.height_mm && before.height_mm ? *size.height_mm / *before.height_mm : 1.0;
}

opened::Form carried(const opened::Form& last, const opened::Panel& panel, const design::Size& before,
                     const design::Size& size) {
  opened::Form form;
  form.wedge_rad = wedge_of(size);
  const double scale = growth(size, before);
  const double ratio = form.wedge_rad / last.wedge_rad;
  const double hub_before = before.paper.caliper_mm / last.wedge_rad, hub = size.paper.caliper_mm / form.wedge_rad;
  form.place = [place = Places(last, panel), scale, ratio, hub_before, hub](leaf::Point flat) {
    const leaf::Point drawn{flat.x / scale, flat.z / scale};
    const opened::Point3 p = place(drawn);
    const double drawn_in = drawn.x + hub_before - std::hypot(p[0], p[1]);
    const double radius = scale * (drawn.x - ratio * ratio * drawn_in) + hub;
    const double angle = ratio * std::atan2(p[1], p[0]);
    return opened::Point3{radius * std::cos(angle), radius * std::sin(angle),
                          scale * (drawn.z + ratio * ratio * (p[2] - drawn.z))};
  };
  add_spine_ends(form, panel, scale);
  return form;
}

} // namespace fanwright::fit
