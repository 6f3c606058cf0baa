// Quadratic B-splines of one variable on an uneven grid (C1, open at both ends).
// Based on: de Boor, A Practical Guide to Splines, chapter IX.
#pragma once

#include <array>
#include <vector>

namespace fanwright::opened {

/// Values and derivatives of the three splines that live on one cell.
struct SplineValues {
  std::array<double, 3> value{}, first{}, second{};
};

class Spline {
public:
  Spline() = default;
  /// `lines`: ascending grid lines, mm, at least two.
  explicit Spline(std::vector<double> lines);

  int cells() const { return static_cast<int>(lines_.size()) - 1; }
  int functions() const { return cells() + 2; }
  double line(int i) const { return lines_[static_cast<std::size_t>(i)]; }
  double width(int cell) const { return line(cell + 1) - line(cell); }
  const std::vector<double>& lines() const { return lines_; }

  /// Cell holding `x`; clamped to the grid.
  int cell_of(double x) const;

  /// Splines cell, cell + 1, cell + 2 at `x`, extended as polynomials beyond the cell.
  SplineValues at(int cell, double x) const;

  /// Do the splines of a cell equal those of one of another grid?
  bool has_same_cell(int cell, const Spline& other, int other_cell) const {
    return cells_[static_cast<std::size_t>(cell)] == other.cells_[static_cast<std::size_t>(other_cell)];
  }

  /// Greville abscissa: the control points there make the identity.
  double greville(int function) const;

private:
  /// What its three splines are made of on one cell.
  struct Cell {
    double low = 0, high = 0;   ///< its lines
    double left = 0, right = 0; ///< one over: its width times that of it and the cell before, or after
    bool operator==(const Cell&) const = default;
  };
  double knot(int i) const;
  std::vector<double> lines_;
  std::vector<Cell> cells_;
};

} // namespace fanwright::opened
