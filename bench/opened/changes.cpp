#include "changes.h"

#include <algorithm>
#include <cmath>

namespace fanwright::bench {

opened::Options measured_only(opened::Detail detail) {
  opened::Options options;
  options.mesh = false;
  options.detail = detail;
  return options;
}

opened::Panel with_point_moved(opened::Panel panel) {
  const leaf::Point out = *std::ranges::max_element(panel.outline, {}, &leaf::Point::x);
  for (leaf::Point& p : panel.outline) {
    const double away = std::hypot(p.x - out.x, p.z - out.z) / 12;
    if (away < 1 && p.x > 1)
      p.x += 2 * (1 - away * away) * (1 - away * away);
  }
  return panel;
}

opened::Panel with_row_moved(opened::Panel panel) {
  leaf::GlueRow& row = panel.rows[panel.rows.size() / 2];
  row.from.z += 1;
  row.to.z += 1;
  return panel;
}

double edge_distance(const opened::Form& a, const opened::Form& b) {
  double worst = 0;
  for (std::size_t k = 0; k < std::min(a.edge.size(), b.edge.size()); ++k)
    worst = std::max(worst, std::hypot(a.edge[k].radius - b.edge[k].radius, a.edge[k].height - b.edge[k].height));
  return worst / std::max(a.height_mm, a.diameter_mm);
}

} // namespace fanwright::bench
