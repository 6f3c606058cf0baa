// The panel of a pleat as an elastic sheet: a strip of paper whose two creases lie on the walls of a wedge, free to
// turn and to slide there, by the mechanics of the opened form. What src/fan/spread.h says of a panel is held against
// it.
#include "fan/spread.h"
#include "opened/newton.h"
#include "opened/surface.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace fanwright::fan {
namespace {

using opened::Hold;

std::vector<double> even_lines(double to, int cells) {
  std::vector<double> lines;
  for (int k = 0; k <= cells; ++k) {
    lines.push_back(to * k / cells);
  }
  return lines;
}

/// A panel at rest: wall A at azimuth 0 holds the crease u = 0, wall B that at u = p.
class ElasticPanel {
public:
  ElasticPanel(const Spread& spread, double caliper_mm)
      : pleats_(spread.pleats()), wedge_rad_(spread.panel_deg() * std::numbers::pi / 180),
        grid_(opened::Spline(even_lines(pleats_.depth_mm, 8)), opened::Spline(even_lines(pleats_.length_mm, 40))),
        pieces_(opened::cut(sheet_of_panel(), grid_)), places_(3, pieces_.points) {
    opened::Sheet sheet;
    sheet.thickness_mm = caliper_mm;
    sheet.modulus_x_mpa = 2000; // across the grain, which runs along the pleats
    sheet.modulus_z_mpa = 4500;
    sheet.poisson = 0.293;
    sheet.shear_mpa = std::sqrt(2000.0 * 4500) / (2 * 1.293);
    opened::Supports supports;
    for (int k = 0; k < pieces_.points; ++k) {
      add(spread, k, supports);
    }
    supports.places = places_;
    supports.wedge_rad = wedge_rad_;
    const opened::Mechanics mechanics(sheet, grid_, pieces_, supports);
    opened::Vector unknowns = mechanics.unknowns_of(places_);
    rested_ = minimise(mechanics, unknowns, {}, opened::Start::near).converged;
    places_ = mechanics.places(unknowns);
    peak_strain_ = mechanics.peak_strain(places_);
  }

  bool rested() const { return rested_; }
  double peak_strain() const { return peak_strain_; }
  Point3 at(leaf::Point flat) const {
    const Eigen::Vector3d place = opened::Surface(grid_, pieces_, places_).at(flat);
    return {place[0], place[1], place[2]};
  }

private:
  opened::Panel sheet_of_panel() const {
    opened::Panel panel;
    panel.outline = {{0, 0}, {pleats_.depth_mm, 0}, {pleats_.depth_mm, pleats_.length_mm}, {0, pleats_.length_mm}};
    return panel;
  }

  /// Begins on the closed form, its crease 1 on wall A and crease 0 on wall B. The gathered end keeps its radius.
  void add(const Spread& spread, int k, opened::Supports& supports) {
    const auto [across, up] = pieces_.place[static_cast<std::size_t>(k)];
    const double u = grid_.across().greville(across), v = grid_.up().greville(up);
    const Point3 a = on_wall(spread, v, 0, 1), b = on_wall(spread, v, wedge_rad_, -1);
    const double t = u / pleats_.depth_mm;
    for (int c = 0; c < 3; ++c) {
      places_(c, k) = a[static_cast<std::size_t>(c)] * (1 - t) + b[static_cast<std::size_t>(c)] * t;
    }
    const bool first = across == 0, last = across == grid_.across().functions() - 1, gathered = up == 0;
    const bool side = first || last;
    supports.walls.push_back(first ? Hold::wall_a : last ? Hold::wall_b : Hold::free);
    supports.held.push_back({side && gathered, side, first && gathered});
  }

  static Point3 on_wall(const Spread& spread, double v, double azimuth_rad, double hand) {
    const double radius = spread.radius_at(v);
    return {radius * std::cos(azimuth_rad), radius * std::sin(azimuth_rad), hand * spread.relief_at(v) / 2};
  }

  Pleats pleats_;
  double wedge_rad_;
  opened::Grid grid_;
  opened::Pieces pieces_;
  Eigen::Matrix3Xd places_;
  bool rested_ = false;
  double peak_strain_ = 0;
};

struct Case {
  Pleats pleats;
  double spread_deg;
};

TEST(panel_bow, creases_and_stretch_of_the_elastic_panel_are_those_of_the_closed_form) {
  for (const Case& c : {Case{{10, 48, 60, 2.5}, 360}, Case{{10, 60, 80, 3}, 360}, Case{{8, 24, 70, 3.5}, 120}}) {
    const Spread spread(c.pleats, c.spread_deg);
    for (const double caliper_mm : {0.1, 0.2}) {
      const ElasticPanel panel(spread, caliper_mm);
      ASSERT_TRUE(panel.rested());
      for (int k = 0; k <= 10; ++k) {
        const double v = c.pleats.length_mm * k / 10;
        const Point3 crease = panel.at({0, v});
        // The closed form keeps the creases' length; in the elastic sheet they are stretched by 0.1 to 0.2 %.
        EXPECT_NEAR(crease[0], spread.radius_at(v), 0.002 * spread.outer_radius_mm());
        EXPECT_NEAR(crease[2], spread.relief_at(v) / 2, 0.02) << "bowed by " << spread.bow_mm() << " mm";
      }
      // The closed form says what the creases take; where the panel evades by bending, thin paper takes less.
      EXPECT_LT(panel.peak_strain(), 1.05 * spread.stretch());
      EXPECT_GT(panel.peak_strain(), 0.6 * spread.stretch());
    }
  }
}

} // namespace
} // namespace fanwright::fan
