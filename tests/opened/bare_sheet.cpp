#include "opened/bare_sheet.h"

#include "opened/newton.h"
#include "opened/surface.h"

#include <cmath>
#include <utility>

namespace fanwright::opened {
namespace {

constexpr std::array<double, 3> gauss_spot{0.1127016653792583, 0.5, 0.8872983346207417};
constexpr std::array<double, 3> gauss_share{5.0 / 18, 8.0 / 18, 5.0 / 18};

Panel panel_of_outline(leaf::Ring outline, std::vector<leaf::Ring> cut_outs) {
  Panel panel;
  panel.outline = std::move(outline);
  panel.cut_outs = std::move(cut_outs);
  return panel;
}

} // namespace

BareSheet::BareSheet(const Sheet& sheet, leaf::Ring outline, std::vector<leaf::Ring> cut_outs,
                     std::vector<double> across, std::vector<double> up)
    : sheet_(sheet), grid_(Spline(std::move(across)), Spline(std::move(up))),
      pieces_(cut(panel_of_outline(std::move(outline), std::move(cut_outs)), grid_)),
      held_(static_cast<std::size_t>(pieces_.points), {false, false, false}), places_(3, pieces_.points) {
  for (int k = 0; k < pieces_.points; ++k) {
    const auto [i, j] = function(k);
    places_.col(k) << grid_.across().greville(i), 0, grid_.up().greville(j);
  }
}

void BareSheet::hold(int point, std::array<bool, 3> components) {
  auto& held = held_[static_cast<std::size_t>(point)];
  for (std::size_t c = 0; c < 3; ++c)
    held[c] = held[c] || components[c];
}

Eigen::Matrix3Xd BareSheet::spread_load(const Eigen::Vector3d& per_area) const {
  Eigen::Matrix3Xd load = Eigen::Matrix3Xd::Zero(3, points());
  for (const Piece& piece : pieces_.pieces)
    for (const Trapezoid& t : piece.paper)
      for (std::size_t q = 0; q < 3; ++q)
        for (std::size_t p = 0; p < 3; ++p) {
          const double z = t.low + gauss_spot[q] * (t.high - t.low);
          const double left = t.left_low + gauss_spot[q] * (t.left_high - t.left_low);
          const double width = t.right_low + gauss_spot[q] * (t.right_high - t.right_low) - left;
          const Basis n = grid_.basis(piece.i, piece.j, left + gauss_spot[p] * width, z);
          const double area = gauss_share[p] * gauss_share[q] * width * (t.high - t.low);
          for (std::size_t a = 0; a < 9; ++a)
            load.col(piece.points[a]) += area * n.value[a] * per_area;
        }
  return load;
}

Eigen::Matrix3Xd BareSheet::line_load(leaf::Point from, leaf::Point to, leaf::Point into,
                                      const Eigen::Vector3d& per_length) const {
  Eigen::Matrix3Xd load = Eigen::Matrix3Xd::Zero(3, points());
  constexpr int parts = 2000;
  const double length = std::hypot(to.x - from.x, to.z - from.z) / parts;
  for (int k = 0; k < parts; ++k) {
    const double share = (k + 0.5) / parts;
    const double x = from.x + share * (to.x - from.x);
    const double z = from.z + share * (to.z - from.z);
    const int carrier = pieces_.nearest(grid_, x + into.x, z + into.z);
    const Piece& piece = pieces_.pieces[static_cast<std::size_t>(carrier)];
    const Basis n = grid_.basis(piece.i, piece.j, x, z);
    for (std::size_t a = 0; a < 9; ++a)
      load.col(piece.points[a]) += length * n.value[a] * per_length;
  }
  return load;
}

bool BareSheet::rest(const Eigen::Matrix3Xd& load) {
  Mechanics loaded = mechanics();
  loaded.set_load(load);
  Vector unknowns = loaded.unknowns_of(places_);
  const NewtonResult result = minimise(loaded, unknowns, {}, Start::near);
  places_ = loaded.places(unknowns);
  return result.converged;
}

Eigen::Vector3d BareSheet::at(leaf::Point flat) const { return Surface(grid_, pieces_, places_).at(flat); }

std::vector<double> even_lines(double from, double to, int count) {
  std::vector<double> lines;
  for (int k = 0; k <= count; ++k)
    lines.push_back(from + (to - from) * k / count);
  return lines;
}

Sheet isotropic(double thickness_mm, double modulus_mpa, double poisson) {
  return {thickness_mm, modulus_mpa, modulus_mpa, poisson, modulus_mpa / (2 * (1 + poisson))};
}

} // namespace fanwright::opened
