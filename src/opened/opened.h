// The opened form of an ornament: equilibrium of one half-panel in its mirror wedge (docs/model.md).
// One-off call: open(panel); solver.h opens a changed panel from the form before. Plain values in and out; no files, no
// globals, deterministic.
#pragma once

#include "leaf/leaf.h"

#include <array>
#include <functional>
#include <memory>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::opened {

using Point3 = std::array<double, 3>;

/// Elastic sheet in leaf axes. thickness mm; moduli MPa.
struct Sheet {
  double thickness_mm = 0.2;
  double modulus_x_mpa = 3000; ///< across the leaf, away from the spine
  double modulus_z_mpa = 3000; ///< along the spine
  double poisson = 0.3;        ///< sqrt(nu_xz nu_zx)
  double shear_mpa = 1153.8;
};

/// What is opened. Rings in leaf coordinates, mm.
struct Panel {
  leaf::Ring outline;
  std::vector<leaf::Ring> cut_outs;
  std::vector<leaf::GlueRow> rows;
  Sheet sheet;
  int leaves = 46;
  double opening_deg = 360;
};

/// Sheet in leaf axes of a paper lying with its grain as stated.
Sheet sheet_of(const paper::Paper& paper);

/// Panel of a leaf; curves flattened to leaf::flatten_tolerance_mm.
Panel panel_of(const leaf::Leaf& leaf, const design::Size& size);

/// One point of the outer edge: flat place and opened place.
struct EdgePoint {
  double x = 0, z = 0; ///< flat, mm
  double radius = 0;   ///< distance from the axis, mm
  double height = 0;   ///< above the ornament's lowest point, mm
};

/// Part of the half-panel's mid-surface as triangles. Wedge frame: axis of the ornament is Z, wall A is Y = 0, X > 0;
/// wall B is turned by wedge_rad about Z. `flat` are the vertices' leaf coordinates.
struct Mesh {
  std::vector<Point3> points;
  std::vector<leaf::Point> flat;
  std::vector<std::array<int, 3>> triangles;
};

/// How near two neighbouring rows on different walls are to locking.
struct RowLock {
  int lower = 0, upper = 0; ///< indices into Panel::rows
  double ratio = 0;         ///< q = beta x / s, dimensionless
};

/// The solved sheet behind a form; see equilibrium.h.
struct Equilibrium;

struct Form {
  double wedge_rad = 0; ///< beta = opening / (2 leaves)
  double height_mm = 0, diameter_mm = 0, spine_height_mm = 0, hub_radius_mm = 0, foot_lift_mm = 0;
  double lock_ratio = 0;          ///< largest q = beta x1 / s over neighbouring rows
  std::vector<RowLock> row_locks; ///< of each gap between rows on different walls, from the foot
  double peak_strain = 0;         ///< largest membrane strain in the paper, dimensionless
  double holding_moment_nmm = 0;  ///< total moment about the axis that holds the opening, N mm
  double bending_energy_nmm = 0, membrane_energy_nmm = 0; ///< of one half-panel, N mm
  std::vector<EdgePoint> edge;                            ///< along the outline from the spine's foot to its top
  /// Place of any flat point in the wedge frame, mm, heights as in `mesh`; just outside the paper the sheet goes on.
  std::function<Point3(leaf::Point)> place;
  Mesh mesh; ///< of the half-panel; Z = 0 at the lowest point of the ornament
  int unknowns = 0, iterations = 0, factorisations = 0;
  double seconds = 0;
  std::shared_ptr<const Equilibrium> equilibrium; ///< what spread() goes on from

  /// All energy of one half-panel, N mm.
  double energy_nmm() const { return bending_energy_nmm + membrane_energy_nmm; }
};

/// Why no form could be computed; `sentence` is for the maker.
struct Failure {
  std::string sentence;
};

/// How near the outer edge comes to the converged form, as a share of the size (docs/model.md).
enum class Detail {
  full,  ///< 0.25 %
  quick, ///< 0.5 %, in a fifth of the time; pulls and moments are a quarter too high
  glance ///< 2 %; half of quick's time. To be corrected by what a finer form beside it says: preview.h
};

struct Options {
  double cell_mm = 0;                   ///< target cell size; 0: chosen from the leaf
  int cells_per_gap = 0;                ///< least cells between neighbouring rows; 0: default
  std::function<void(double)> progress; ///< called with 0..1, may be empty
  std::function<bool()> cancelled;      ///< polled between iterations, may be empty
  bool mesh = true;                     ///< false leaves Form::mesh empty, for forms that are only measured
  Detail detail = Detail::full;
};

std::variant<Form, Failure> open(const Panel& panel, const Options& options = {});

/// Fills the mesh of a form that was opened without one.
void make_mesh(Form& form);

/// All 2N half-panels of an opened ornament are copies of the first: the place of `point` in wedge `k` (0..2N-1).
/// Even wedges are turned copies, odd ones mirrored and turned. Same Z.
Point3 in_wedge(const Form& form, int k, const Point3& point);

} // namespace fanwright::opened
