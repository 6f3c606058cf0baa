// A flat sheet on supports of its own, with no walls: the set-up of handbook cases on the opened form's own mechanics.
#pragma once

#include "opened/mechanics.h"

namespace fanwright::opened {

/// Leaf coordinates (x, z) lie in space at (x, 0, z) while the sheet is flat.
class BareSheet {
public:
  /// `outline` cut by the given lines in x and z; every control point is free.
  BareSheet(const Sheet& sheet, leaf::Ring outline, std::vector<leaf::Ring> cut_outs, std::vector<double> across,
            std::vector<double> up);

  const Grid& grid() const { return grid_; }
  const Pieces& pieces() const { return pieces_; }
  const Eigen::Matrix3Xd& places() const { return places_; }
  int points() const { return pieces_.points; }
  std::array<int, 2> function(int point) const { return pieces_.place[static_cast<std::size_t>(point)]; }

  /// Holds components of a control point where they are.
  void hold(int point, std::array<bool, 3> components);
  void move(int point, const Eigen::Vector3d& by) { places_.col(point) += by; }

  /// Forces on the control points of a dead load on the paper, N/mm2.
  Eigen::Matrix3Xd spread_load(const Eigen::Vector3d& per_area) const;
  /// Forces of a dead load along a straight line of the sheet, N/mm; `into` leads from the line a little into the
  /// paper that carries it.
  Eigen::Matrix3Xd line_load(leaf::Point from, leaf::Point to, leaf::Point into,
                             const Eigen::Vector3d& per_length) const;

  /// Brings the sheet to rest under the load from where it is; false when no rest is found.
  bool rest(const Eigen::Matrix3Xd& load);

  Eigen::Vector3d at(leaf::Point flat) const;
  double elastic_energy() const { return mechanics().bending_energy(places_) + mechanics().membrane_energy(places_); }
  double peak_strain() const { return mechanics().peak_strain(places_); }

private:
  Mechanics mechanics() const { return {sheet_, grid_, pieces_, {held_, places_, {}, 0}}; }

  Sheet sheet_;
  Grid grid_;
  Pieces pieces_;
  std::vector<std::array<bool, 3>> held_;
  Eigen::Matrix3Xd places_;
};

/// `count` equal cells from `from` to `to`.
std::vector<double> even_lines(double from, double to, int count);

/// Isotropic paper.
Sheet isotropic(double thickness_mm, double modulus_mpa, double poisson);

} // namespace fanwright::opened
