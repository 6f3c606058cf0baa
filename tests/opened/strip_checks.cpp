#include "opened/strip_checks.h"

#include "opened/bare_sheet.h"
#include "opened/elastica.h"

#include <cmath>
#include <numbers>
#include <utility>

namespace fanwright::opened {
namespace {

/// 3 (18 + 2) = 60 control points.
constexpr int strip_cells = 18;

constexpr const char* shell_table = "shell elements, Finite Elem. Anal. Des. 40 (2004) 1551-1569, table";
constexpr const char* elastica_table = "elastica, Int. J. Numer. Methods Eng. 17 (1981) 145-153, table 1";
constexpr const char* elastica_here = "elastica, integrated beside the test";
constexpr const char* exact_circle = "exact circle";

/// Lines that lie closer near 0, where a cantilever is bent most: the first cell is `first` times as long as the mean.
std::vector<double> closing_lines(double length, int cells, double first) {
  std::vector<double> lines;
  for (const double share : even_lines(0, 1, cells))
    lines.push_back(length * share * (first + (1 - first) * share));
  return lines;
}

/// A strip along x, clamped level at x = 0; forces in Y bend it.
class Strip {
public:
  Strip(const Sheet& sheet, double width, std::vector<double> lines)
      : sheet_(sheet, {{0, 0}, {lines.back(), 0}, {lines.back(), width}, {0, width}}, {}, lines, {0, width}),
        length_(lines.back()), width_(width), cells_(static_cast<int>(lines.size()) - 1) {
    // All forces lie in the plane (X, Y); a strip that is rolled up by dead forces would turn out of it. The clamp
    // holds the strip's end and its direction; how long the first cell's tangent is, the cell decides.
    for (int k = 0; k < sheet_.points(); ++k)
      sheet_.hold(k, {sheet_.function(k)[0] < 1, sheet_.function(k)[0] < 2, true});
  }

  BareSheet& sheet() { return sheet_; }
  int cells() const { return cells_; }
  Eigen::Vector3d tip() const { return sheet_.at({length_, width_ / 2}); }

  /// The tip's tangent, as its control points have it.
  Eigen::Vector3d tip_tangent() const {
    return (sheet_.at({length_, width_ / 2}) - sheet_.at({length_ - 1e-4 * length_, width_ / 2})).normalized();
  }

  Eigen::Matrix3Xd tip_load(const Eigen::Vector3d& force) const {
    return sheet_.line_load({length_, 0}, {length_, width_}, {-1e-6, 0}, force / width_);
  }

  /// Forces of a moment (right-handed about Z) at the tip, in the tip's present direction: minus the couple's work is
  /// moment times the turn of the tangent, and the tangent is that of the last two control points.
  Eigen::Matrix3Xd tip_moment(double moment) const {
    const Eigen::Vector3d tangent = tip_tangent();
    const Eigen::Vector3d normal(-tangent[1], tangent[0], 0);
    Eigen::Matrix3Xd load = Eigen::Matrix3Xd::Zero(3, sheet_.points());
    // Shares of the three control points across the width: the integrals of Bernstein's polynomials, a third each.
    for (int k = 0; k < sheet_.points(); ++k) {
      const int i = sheet_.function(k)[0];
      if (i >= cells_)
        load.col(k) = (i == cells_ ? -1 : 1) * moment / (3 * arm()) * normal;
    }
    return load;
  }

  /// Curvature along the strip at its root, from the two cells there, which it crosses nearly straight.
  double root_curvature() const {
    const auto in_cell = [&](int cell) {
      const double from = sheet_.grid().across().line(cell);
      const double h = sheet_.grid().across().line(cell + 1) - from;
      return (sheet_.at({from + h, width_ / 2}) - 2 * sheet_.at({from + h / 2, width_ / 2}) +
              sheet_.at({from, width_ / 2}))
                 .norm() *
             4 / (h * h);
    };
    return 1.5 * in_cell(0) - 0.5 * in_cell(1);
  }

private:
  double arm() const {
    Eigen::Vector3d last = Eigen::Vector3d::Zero();
    Eigen::Vector3d before = Eigen::Vector3d::Zero();
    for (int k = 0; k < sheet_.points(); ++k) {
      if (sheet_.function(k)[0] == cells_ + 1)
        last += sheet_.places().col(k) / 3;
      if (sheet_.function(k)[0] == cells_)
        before += sheet_.places().col(k) / 3;
    }
    return (last - before).norm();
  }

  BareSheet sheet_;
  double length_, width_;
  int cells_;
};

/// The shell table's cantilever: length 10, thickness 0.1, modulus 1.2e6 and no Poisson's ratio; bending stiffness of
/// the whole width 100, so that its full load of 4 is alpha = 4. The width does not matter without Poisson's ratio.
Strip shear_strip(int cells) { return {isotropic(0.1, 1.2e6, 0), 1, closing_lines(10, cells, 0.35)}; }

/// Loads it to `share` of 4 in steps of a twentieth.
void load_shear(Strip& strip, double share) {
  for (int k = 1; k <= 20; ++k)
    strip.sheet().rest(strip.tip_load({0, 4 * share * k / 20, 0}));
}

} // namespace

Checks end_shear_checks() {
  Checks checks;
  struct Published {
    double share, shortening, drop;
  };
  const auto add = [&](const std::string& subject, const char* source, double share, double shortening, double drop,
                       double bar) {
    Strip strip = shear_strip(strip_cells);
    load_shear(strip, share);
    const int points = strip.sheet().points();
    checks.push_back({subject, "shortening U", shortening, source, 10 - strip.tip()[0], bar, points, 10});
    checks.push_back({subject, "drop W", drop, source, strip.tip()[1], bar, points, 10});
  };
  // alpha = P L^2 / (E I); the exact values at alpha = 4 are U 3.28941 and W 6.69964.
  const Elastica exact = cantilever(4, 0);
  add("end shear, alpha 4", elastica_here, 1, 10 * (1 - exact.reach), 10 * exact.drop, 0.001);
  for (const auto& [share, shortening, drop] :
       {Published{0.25, 0.05643, 0.30172}, {0.5, 0.16064, 0.49346}, {1.25, 0.38763, 0.71379}, {2.5, 0.55500, 0.81061}})
    add("end shear, alpha " + std::to_string(static_cast<int>(4 * share)), elastica_table, share, 10 * shortening,
        10 * drop, 0.001);
  // The shell values lie up to 0.1 % below the elastica themselves.
  for (const auto& [share, shortening, drop] :
       {Published{0.25, 0.563, 3.015}, {0.5, 1.604, 4.933}, {0.75, 2.541, 6.031}, {1, 3.286, 6.698}})
    add("end shear, shell, alpha " + std::to_string(static_cast<int>(4 * share)), shell_table, share, shortening, drop,
        0.002);
  return checks;
}

Checks end_moment_checks() {
  Checks checks;
  const double full = 50 * std::numbers::pi / 3; // rolls 12 mm into a circle: 2 pi E I / L
  Strip strip(isotropic(0.1, 1.2e6, 0), 1, even_lines(0, 12, strip_cells));
  constexpr int steps = 32;
  for (int k = 1; k <= steps; ++k) {
    const double share = static_cast<double>(k) / steps;
    // The couple's forces keep their direction while the sheet comes to rest: turned after it until both agree.
    Eigen::Vector3d before = Eigen::Vector3d::Zero();
    for (int turn = 0; turn < 100 && (strip.tip_tangent() - before).norm() > 1e-5; ++turn) {
      before = strip.tip_tangent();
      strip.sheet().rest(strip.tip_moment(full * share));
    }
    if (k % (steps / 4) != 0)
      continue;
    const double angle = 2 * std::numbers::pi * share;
    const std::string subject = "end moment, " + std::to_string(k * 100 / steps) + " % of a full circle";
    const int points = strip.sheet().points();
    checks.push_back({subject, "shortening U", 12 - 12 * std::sin(angle) / angle, exact_circle, 12 - strip.tip()[0],
                      0.001, points, 12});
    checks.push_back(
        {subject, "rise W", 12 * (1 - std::cos(angle)) / angle, exact_circle, strip.tip()[1], 0.001, points, 12});
  }
  return checks;
}

Checks own_weight_checks() {
  Checks checks;
  for (const double lambda : {1.0, 2.0, 5.0, 8.0, 10.0, 20.0}) {
    Strip strip(isotropic(0.1, 1.2e6, 0), 1, closing_lines(10, strip_cells, 0.25));
    // Bending stiffness 100 N mm per mm: w = lambda 100 / 1000.
    for (int k = 1; k <= 20; ++k)
      strip.sheet().rest(strip.sheet().spread_load({0, 0.1 * lambda * k / 20, 0}));
    const Elastica exact = cantilever(0, lambda);
    const std::string subject = "own weight, lambda " + std::to_string(static_cast<int>(lambda));
    const int points = strip.sheet().points();
    checks.push_back({subject, "drop y/L", exact.drop, elastica_here, strip.tip()[1] / 10, 0.001, points, 1});
    checks.push_back({subject, "reach x/L", exact.reach, elastica_here, strip.tip()[0] / 10, 0.001, points, 1});
  }
  return checks;
}

namespace {

/// Length 1, offset D: the far end is clamped level too, slides along x and has been moved across by D.
Strip offset_strip(double offset, int cells) {
  Strip strip(isotropic(0.004, 1e5, 0), 0.1, even_lines(0, 1, cells));
  BareSheet& sheet = strip.sheet();
  for (int k = 0; k < sheet.points(); ++k)
    if (sheet.function(k)[0] >= cells)
      sheet.hold(k, {false, true, true});
  const int steps = std::max(1, static_cast<int>(std::ceil(offset / 0.05)));
  const Eigen::Matrix3Xd none = Eigen::Matrix3Xd::Zero(3, sheet.points());
  for (int step = 0; step < steps; ++step) {
    for (int k = 0; k < sheet.points(); ++k)
      if (sheet.function(k)[0] >= cells)
        sheet.move(k, {0, offset / steps, 0});
    sheet.rest(none);
  }
  return strip;
}

} // namespace

Checks offset_clamp_checks() {
  Checks checks;
  const double stiffness = 1e5 * std::pow(0.004, 3) / 12 * 0.1; // E I of the whole width
  for (const double offset : {0.1, 0.3, 0.5, 0.7}) {
    Strip strip = offset_strip(offset, offset < 0.6 ? strip_cells : 2 * strip_cells);
    const Elastica exact = clamped_both_ends(offset);
    const std::string subject = "clamps offset by " + std::to_string(offset).substr(0, 3) + " S";
    const int points = strip.sheet().points();
    checks.push_back({subject, "height h/S", exact.reach, elastica_here, strip.tip()[0], 0.001, points, 1});
    // Curvature is even within a cell and swings from end to end, which costs 1 / cells^2 of the energy.
    checks.push_back({subject, "energy U S/EI", exact.energy, elastica_here, strip.sheet().elastic_energy() / stiffness,
                      0.005, points, 0});
    checks.push_back({subject, "curvature at the clamp, k S", exact.root_curvature, elastica_here,
                      strip.root_curvature(), 0.005, points, 0});
  }
  return checks;
}

double end_shear_error(int cells) {
  Strip strip = shear_strip(cells);
  load_shear(strip, 1);
  const Elastica exact = cantilever(4, 0);
  return std::hypot(strip.tip()[0] / 10 - exact.reach, strip.tip()[1] / 10 - exact.drop);
}

double offset_clamp_error(int cells) {
  return std::abs(offset_strip(0.5, cells).tip()[0] - clamped_both_ends(0.5).reach);
}

std::vector<PathPoint> end_shear_path() {
  std::vector<PathPoint> path;
  Strip strip = shear_strip(strip_cells);
  for (int k = 0; k <= 20; ++k) {
    const double alpha = 0.5 * k;
    strip.sheet().rest(strip.tip_load({0, alpha, 0}));
    path.push_back({alpha, strip.tip()[1] / 10, 1 - strip.tip()[0] / 10});
  }
  return path;
}

} // namespace fanwright::opened
