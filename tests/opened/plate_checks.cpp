#include "opened/plate_checks.h"

#include "opened/bare_sheet.h"

#include <cmath>
#include <numbers>

namespace fanwright::opened {
namespace {

constexpr const char* ring_table = "itself computed with shell elements: Finite Elem. Anal. Des. 40 (2004) 1551-1569";
constexpr const char* plate_book = "Theory of Plates and Shells, uniform load, from memory; series summed anew";

/// Width of the slit: far thinner than a cell, wide enough to cut the sheet.
constexpr double slit_mm = 1e-4;

/// The ring as one polygon from the clamped lip round to the free one and back along the hole. It is run through
/// clockwise from below the x axis, so that the free lip is the upper one.
leaf::Ring slit_ring(double inner, double outer, int corners) {
  leaf::Ring ring;
  const double first = slit_mm / outer;
  const auto arc = [&](double radius, double from, double to) {
    for (int k = 0; k <= corners; ++k) {
      const double angle = from + (to - from) * k / corners;
      ring.push_back({radius * std::cos(angle), radius * std::sin(angle)});
    }
  };
  arc(outer, 0, 2 * std::numbers::pi - first);
  arc(inner, 2 * std::numbers::pi - first, 0);
  return ring;
}

} // namespace

RingPath slit_ring_path(int cells_across, int steps) {
  // Inner radius 6, outer 10, thickness 0.03, modulus 21e6, no Poisson's ratio; line load 0.8 along the free lip.
  const int half = cells_across / 2;
  const std::vector<double> lines = even_lines(-10, 10, 2 * half);
  BareSheet sheet(isotropic(0.03, 21e6, 0), slit_ring(6, 10, 720), {}, lines, lines);
  // The lip that starts at angle 0 is clamped: of the cells above the line z = 0, the two lower layers of control
  // points make place and slope along it.
  for (const Piece& piece : sheet.pieces().pieces) {
    const bool on_lip = piece.j == half && piece.i >= half && sheet.grid().across().line(piece.i + 1) > 6;
    for (std::size_t a = 0; on_lip && a < 6; ++a)
      sheet.hold(piece.points[a], {true, true, true});
  }
  const Eigen::Matrix3Xd full = sheet.line_load({6, -slit_mm}, {10, -slit_mm}, {0, -1e-6}, {0, 0.8, 0});
  RingPath path{sheet.points(), {{0, 0, 0}}};
  for (int k = 1; k <= steps; ++k) {
    const double share = static_cast<double>(k) / steps;
    sheet.rest(share * full);
    path.lifts.push_back({share, sheet.at({6, -slit_mm - 1e-6})[1], sheet.at({10 - 1e-6, -slit_mm - 1e-6})[1]});
  }
  return path;
}

Checks slit_ring_checks() {
  const RingPath path = slit_ring_path(40, 20);
  const RingPoint& full = path.lifts.back();
  return {{"slit ring, full load", "lift of the inner corner", 13.891, ring_table, full.inner, 0.005, path.points, 0},
          {"slit ring, full load", "lift of the outer corner", 17.528, ring_table, full.outer, 0.005, path.points, 0}};
}

namespace {

/// Deflection of the middle of a square of side 1 under a uniform load that bends it by a small share of its
/// thickness, in units of q a^4 / D.
double middle_deflection(bool clamped, int cells) {
  constexpr double thickness = 0.01;
  constexpr double modulus = 1e5;
  constexpr double poisson = 0.3;
  BareSheet sheet(isotropic(thickness, modulus, poisson), {{0, 0}, {1, 0}, {1, 1}, {0, 1}}, {}, even_lines(0, 1, cells),
                  even_lines(0, 1, cells));
  const int last = cells + 1;
  for (int k = 0; k < sheet.points(); ++k) {
    const auto [i, j] = sheet.function(k);
    const int layer = std::min({i, j, last - i, last - j});
    if (layer == 0 || (clamped && layer == 1))
      sheet.hold(k, {true, true, true});
  }
  const double stiffness = modulus * std::pow(thickness, 3) / (12 * (1 - poisson * poisson));
  const double load = 1e-3 * thickness * stiffness / 0.004; // a thousandth of the thickness
  sheet.rest(sheet.spread_load({0, load, 0}));
  return sheet.at({0.5, 0.5})[1] * stiffness / load;
}

} // namespace

Checks square_plate_checks() {
  constexpr int cells = 32;
  constexpr int points = (cells + 2) * (cells + 2);
  return {{"square plate, edges supported", "middle, w D / q a^4", 0.00406235, plate_book,
           middle_deflection(false, cells), 0.005, points, 0},
          {"square plate, edges clamped", "middle, w D / q a^4", 0.00126532, plate_book, middle_deflection(true, cells),
           0.005, points, 0}};
}

namespace {

struct Slant {
  double modulus_gpa = 0;
  int points = 0;
};

/// Modulus of a strip cut at `degrees` to the z axis of carton stock, from its stretch under a small pull.
Slant slant_modulus(double degrees) {
  // Machine-made carton stock: 7.44 GPa along the grain (z), 3.47 across, shear 2.04, nu 0.293 (root of the product).
  const Sheet sheet_of_stock{0.2, 3470, 7440, 0.429 * std::sqrt(3.47 / 7.44), 2040};
  const double angle = degrees * std::numbers::pi / 180;
  const leaf::Point along{std::sin(angle), std::cos(angle)};
  const leaf::Point aside{std::cos(angle), -std::sin(angle)};
  const auto place = [&](double u, double v) {
    return leaf::Point{u * along.x + v * aside.x, u * along.z + v * aside.z};
  };
  constexpr double length = 60;
  constexpr double width = 20;
  const leaf::Point a = place(0, -width / 2);
  const leaf::Point b = place(0, width / 2);
  const leaf::Point c = place(length, width / 2);
  const leaf::Point d = place(length, -width / 2);
  BareSheet sheet(sheet_of_stock, {a, b, c, d}, {}, even_lines(-12, 72, 21), even_lines(-12, 72, 21));
  for (int k = 0; k < sheet.points(); ++k)
    sheet.hold(k, {false, true, false});
  // Three components keep it from drifting and turning; the pulls balance, so they carry nothing.
  const auto at = [&](leaf::Point p) {
    return sheet.pieces().pieces[static_cast<std::size_t>(sheet.pieces().nearest(sheet.grid(), p.x, p.z))].points[4];
  };
  const bool steep = degrees < 45;
  sheet.hold(at(place(5, 0)), {true, false, true});
  sheet.hold(at(place(55, 0)), {steep, false, !steep});
  constexpr double pull = 1e-3; // N/mm: a strain of about 1e-6
  const Eigen::Vector3d outward(along.x, 0, along.z);
  sheet.rest(sheet.line_load(c, d, {-1e-6 * along.x, -1e-6 * along.z}, pull * outward) +
             sheet.line_load(a, b, {1e-6 * along.x, 1e-6 * along.z}, -pull * outward));
  const double stretched = (sheet.at(place(50, 0)) - sheet.at(place(10, 0))).norm() - 40;
  return {pull / 0.2 / (stretched / 40) / 1000, sheet.points()};
}

} // namespace

Checks grain_checks() {
  // 1/E(a) = c^4/E1 + s^4/E2 + (1/G - 2 nu12/E1) s^2 c^2.
  const auto expected = [](double degrees) {
    const double c2 = std::pow(std::cos(degrees * std::numbers::pi / 180), 2);
    const double s2 = 1 - c2;
    return 1 / (c2 * c2 / 7.44 + s2 * s2 / 3.47 + (1 / 2.04 - 2 * 0.429 / 7.44) * s2 * c2);
  };
  Checks checks;
  for (const double degrees : {0.0, 30.0, 45.0, 90.0}) {
    const Slant slant = slant_modulus(degrees);
    checks.push_back({"grain, strip cut at " + std::to_string(static_cast<int>(degrees)) + " degrees", "modulus, GPa",
                      expected(degrees), "off-axis modulus of an orthotropic sheet (exact)", slant.modulus_gpa, 0.001,
                      slant.points, 0});
  }
  return checks;
}

} // namespace fanwright::opened
