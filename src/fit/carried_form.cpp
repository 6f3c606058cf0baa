#include "fit/carried_form.h"

#include "fit/refusals.h"
#include "leaf/edge_finder.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

namespace fanwright::fit {
namespace {

/// The places of a leaf's points once open, carried on beyond its edge. The solver's own continuation there is that of
/// a polynomial, good for a millimetre or two; here a point keeps the way its nearest paper has moved, and for the
/// first few millimetres how that changes towards the edge.
class Places {
public:
  Places(const opened::Form& form, const opened::Panel& panel) : place_(form.place), edge_(panel.outline) {}

  opened::Point3 operator()(leaf::Point flat) const {
    if (edge_.holds(flat))
      return place_(flat);
    const leaf::Point edge = edge_.nearest(flat);
    const double distance = std::hypot(flat.x - edge.x, flat.z - edge.z);
    const opened::Point3 there = place_(edge);
    if (distance < 1e-9)
      return there;
    const double step = 2.0; // mm, within a cell
    const leaf::Point within{edge.x - step * (flat.x - edge.x) / distance,
                             edge.z - step * (flat.z - edge.z) / distance};
    const double share = edge_.holds(within) ? std::min(distance, most_change_mm) / step : 0.0;
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

  std::function<opened::Point3(leaf::Point)> place_;
  leaf::EdgeFinder edge_;
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
