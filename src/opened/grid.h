// The background grid of the sheet: lines along x at row ends, lines along the rows at strip edges.
// Rows may slope: z = zeta + (x - middle) slope(zeta), where slope is constant inside each strip and blends
// smoothly between strips, so that every strip edge is exactly a grid line and the splines stay C1 in (x, z).
#pragma once

#include "opened/division.h"
#include "opened/opened.h"
#include "opened/spline.h"

#include <array>
#include <utility>
#include <vector>

namespace fanwright::opened {

/// The nine splines of one cell at a point: values and derivatives in leaf coordinates (x, z).
struct Basis {
  std::array<double, 9> value{}, dx{}, dz{}, dxx{}, dxz{}, dzz{};
  double stretch = 1.0; ///< dz / dzeta, the area of the map
};

/// How finely to cut; see Options.
struct Fineness {
  double cell_mm = 4.0;
  int cells_per_gap = 4;
  double crease_mm = 0; ///< width of a cell of its own at each edge between rows; 0: none
  double line_mm = 1.2; ///< lines across that are wanted nearer to each other are one; see tolerance::grid_line_mm
  bool operator==(const Fineness&) const = default;
  /// Into how many cells a gap of so many mm is cut.
  int cells_in(double gap, int least) const;
};

/// A row as a band of the grid.
struct Band {
  int row = 0;      ///< index into Panel::rows
  double low = 0;   ///< zeta of its lower edge
  double high = 0;  ///< zeta of its upper edge
  double slope = 0; ///< dz / dx
  double from_x = 0, to_x = 0;
  bool operator==(const Band&) const = default;
};

class Grid {
public:
  /// `before`: of a neighbouring panel, as many cells to a gap; it is cut alike as far as that suits, see division.h.
  Grid(const Panel& panel, const Fineness& fineness, const Grid* before = nullptr);
  /// Plain lines with no rows.
  Grid(Spline across, Spline up) : across_(std::move(across)), up_(std::move(up)) {}

  const Spline& across() const { return across_; } ///< in x
  const Spline& up() const { return up_; }         ///< in zeta
  int cells_across() const { return across_.cells(); }
  int cells_up() const { return up_.cells(); }
  const std::vector<Band>& bands() const { return bands_; } ///< by height

  /// False when rows converge so much that the map would fold; no other call is then allowed.
  bool sound() const { return sound_; }

  double zeta_of(leaf::Point flat) const;
  leaf::Point flat_of(double x, double zeta) const;

  /// Do rows slope in the same way as on another grid, between the lines that lie round a height zeta?
  bool slopes_alike(const Grid& other, double zeta) const;

  /// Basis of cell (i across, j up) at grid coordinates (x, zeta); functions ordered a + 3 b.
  Basis basis(int i, int j, double x, double zeta) const;
  /// The values alone.
  std::array<double, 9> values(int i, int j, double x, double zeta) const;
  /// dz / dzeta.
  double stretch(double x, double zeta) const { return 1.0 + (x - middle_) * slope_at(zeta).first; }

private:
  struct Slope {
    double value = 0, first = 0, second = 0;
  };
  Slope slope_at(double zeta) const;
  /// The last band that begins below zeta and the first that ends above it; null where there is none.
  std::array<const Band*, 2> bands_round(double zeta) const;
  /// Takes derivatives by x and zeta to those by x and z.
  void slope(Basis& n, double x, double zeta) const;
  void place_bands(const Panel& panel);
  void place_across(const Panel& panel, const Fineness& fineness, double width, const Grid* before);
  void place_up(const Fineness& fineness, double foot, double top, const Grid* before);
  bool map_is_monotone() const;

  Spline across_, up_;
  Division divided_across_, divided_up_;
  std::vector<Band> bands_;
  double middle_ = 0;
  bool sloped_ = false;
  bool sound_ = true;
};

} // namespace fanwright::opened
