// Energy of the half-panel in its wedge, with gradient and Hessian (docs/model.md).
// Unknowns: the places of the control points, less what glue and spine hold. Energies N mm, lengths mm.
#pragma once

#include "opened/arc.h"
#include "opened/grid.h"
#include "opened/pieces.h"

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include <vector>

namespace fanwright::opened {

using Vector = Eigen::VectorXd;
using Matrix = Eigen::SparseMatrix<double>; ///< lower triangle only

/// Membrane forces (n_xx, n_zz, n_xz), N/mm, one column for each element.
using Forces = Eigen::Matrix3Xd;

/// Which wall holds a control point.
enum class Hold { free, wall_a, wall_b };

/// How the Hessian sees a bent cell: as the energy does, or stiffer, as the parabola that it is.
enum class Bends { as_arcs, as_parabolas };

/// Factors on membrane stiffness (force per width), bending stiffness (moment per width) and caliper.
struct PaperChange {
  double membrane = 1, bending = 1, caliper = 1;
};

/// Supports of a sheet that no glue holds: which components of its control points are held, and where. Components are
/// X, Y, Z, or, of points that lie on a wall, those of the wall: away from the axis, off the wall, Z.
struct Supports {
  std::vector<std::array<bool, 3>> held; ///< one for each control point
  Eigen::Matrix3Xd places;               ///< of all control points, mm; only held components count
  std::vector<Hold> walls = {};          ///< of all control points; empty: no walls
  double wedge_rad = 0;                  ///< between wall A (Y = 0) and wall B
};

class Mechanics {
public:
  Mechanics(const Panel& panel, const Grid& grid, const Pieces& pieces) : Mechanics(panel, grid, pieces, nullptr, {}) {}
  /// The same, less work where a sheet before has the piece too: `alike` names it, or is -1; see alike_pieces().
  Mechanics(const Panel& panel, const Grid& grid, const Pieces& pieces, const Mechanics* before,
            const std::vector<int>& alike);
  /// A sheet on supports alone, with no contact: cases of handbooks, and the panels of pleats, hinged on both walls.
  Mechanics(const Sheet& sheet, const Grid& grid, const Pieces& pieces, const Supports& supports);

  int unknowns() const { return unknowns_; }
  double clearance_mm() const { return clearance_; } ///< half a caliper
  double wedge_rad() const { return wedge_; }
  /// Places of all control points (3 x points) from the unknowns.
  Eigen::Matrix3Xd places(const Vector& unknowns) const;
  /// Unknowns that best follow the given places (held components are dropped). Of forces on the points it makes the
  /// forces on the unknowns.
  Vector unknowns_of(const Eigen::Matrix3Xd& places) const;
  /// Moves control points onto the walls that hold them; used on a first guess.
  void settle(Eigen::Matrix3Xd& places) const;
  /// The same leaf in other paper: stiffnesses and caliper as multiples of these.
  Mechanics in_paper(const PaperChange& change) const;
  /// The same leaf in a wedge of another angle, radians.
  Mechanics in_wedge_of(double wedge_rad) const;
  /// Makes one piece of paper (its index in Pieces) a hinge that keeps `share` of its bending stiffness.
  void make_hinge(int piece, double share);
  /// Fixes the height that is pinned at the value it has in `places`.
  void pin_height(const Eigen::Matrix3Xd& places) { rest_(2, pinned_) = places(2, pinned_); }
  /// Dead forces on the control points (3 x points), N: the energy falls by their work. None to begin with.
  void set_load(const Eigen::Matrix3Xd& forces) { load_ = forces; }

  double energy(const Vector& unknowns) const;
  double energy_and_gradient(const Vector& unknowns, Vector& gradient) const;
  /// Also the Hessian into `hessian`, whose pattern is pattern(). Its geometric part uses the given membrane forces;
  /// with forces(unknowns) and arcs it is the energy's second derivative. Without arcs and without compression it is
  /// positive semi-definite.
  double derivatives(const Vector& unknowns, const Forces& forces, Bends bends, Vector& gradient,
                     Matrix& hessian) const;
  /// Membrane forces at `unknowns`.
  Forces forces(const Vector& unknowns) const;
  /// Membrane forces that the strain linearised at `unknowns` gives after `step`.
  Forces forces_after(const Vector& unknowns, const Vector& step) const;
  const Matrix& pattern() const { return pattern_; }

  double bending_energy(const Eigen::Matrix3Xd& places) const;
  double membrane_energy(const Eigen::Matrix3Xd& places) const;
  /// Moment about the axis that holds the opening, N mm: dU/dbeta of one half-panel, its points going along by `moves`,
  /// mm per radian, as far as the walls let them. At an equilibrium all moves give the same; beside it, the nearer they
  /// are to those of the paper the better.
  double holding_moment(const Eigen::Matrix3Xd& places, Eigen::Matrix3Xd moves) const;
  /// Largest principal membrane strain.
  double peak_strain(const Eigen::Matrix3Xd& places) const;
  /// The piece (its index in Pieces) that has it.
  int most_stretched(const Eigen::Matrix3Xd& places) const;

private:
  using Load = Eigen::Matrix<double, 3, 9>;

  struct Element {
    std::array<int, 9> points{};
    std::array<double, 9> dx{}, dz{};    ///< means over the paper
    std::array<double, 9> bow{};         ///< what the tangent along z differs by within the element; see add_element
    std::array<double, 9> curl{};        ///< mean of the second derivative along x, 1/mm2
    Arc arc_curl, arc_bow;               ///< what bending stores less than `bending` says
    double area = 0;                     ///< of paper, mm2
    bool mostly_paper = true;            ///< see tolerance::strain_share
    Eigen::Matrix<double, 9, 9> bending; ///< N/mm
    int first_contact = 0, last_contact = 0;
    /// Of each pair (a, b) of points with points[a] > points[b], at a + 9 b: entries of b's columns before those of a.
    std::array<int, 81> skipped{};

    void soften(double factor) {
      bending *= factor;
      arc_curl.soften(factor);
      arc_bow.soften(factor);
    }
  };
  struct Contact {
    std::array<double, 9> value{};
    double weight = 0; ///< N/mm per mm of sinking
  };
  struct Strain {
    Eigen::Vector3d along_x, along_z; ///< tangents, means over the element
    Eigen::Vector3d bowed;            ///< mean difference of the tangent along z from its mean
    Eigen::Vector3d curled;           ///< mean second derivative along x, 1/mm
    Eigen::Vector3d green;            ///< exx, ezz, 2 exz
    Eigen::Vector3d force;            ///< thickness times second Piola-Kirchhoff stress, N/mm
  };

  void turn_wall_b(double wedge_rad);
  void hold_points(const Panel& panel, const Grid& grid, const Pieces& pieces);
  void pin_middle(const Grid& grid, const Pieces& pieces);
  void number_unknowns();
  void add_element(const Grid& grid, const Piece& piece);
  void add_element_like(const Mechanics& before, int piece, const std::array<int, 9>& points);
  void add_contacts(const Grid& grid, const Piece& piece);
  static double arc_energy(const Element& element, const Strain& s) {
    return element.arc_curl.energy(s.curled) + element.arc_bow.energy(s.bowed);
  }
  void make_pattern();
  int unknowns_of_point(int point) const;
  void fill_pattern(const std::vector<std::vector<int>>& above, int entries);
  static void find_skipped(Element& element, const std::vector<std::vector<int>>& above,
                           const std::vector<std::vector<int>>& start);
  Load gather(const Element& element, const Eigen::Matrix3Xd& places) const;
  Eigen::Matrix3Xd moves(const Vector& step) const;
  Strain strain(const Element& element, const Load& corner) const;
  double largest_strain(const Element& element, const Eigen::Matrix3Xd& places) const;
  double element_energy(const Element& element, const Load& corner) const;
  double element_gradient(const Element& element, const Load& corner, Load& force) const;
  bool may_touch(const Element& element, const Load& corner) const;
  double contact_energy(const Element& element, const Load& corner, Load* force) const;
  Eigen::Vector3d turned(int point, const Eigen::Vector3d& v) const;   ///< into the point's own frame
  Eigen::Vector3d placed(int point, const Eigen::Vector3d& own) const; ///< out of it
  double load_work(const Eigen::Matrix3Xd& places, Vector* gradient) const;
  void add_to_gradient(const Element& element, const Load& force, Vector& gradient) const;
  void add_to_hessian(const Element& element, const Load& corner, const Eigen::Vector3d& forces, Bends bends,
                      double* values) const;
  void add_contact_to_hessian(const Element& element, const Load& corner, double* values) const;
  void add_block(const Element& element, std::size_t a, std::size_t b, const Eigen::Matrix3d& block,
                 double* values) const;

  double wedge_ = 0, clearance_ = 0;
  Eigen::Matrix3d membrane_; ///< N/mm
  Eigen::Matrix3d bend_;     ///< N mm, acting on (xx, zz, 2 xz)
  Eigen::Vector3d normal_b_, radial_b_;
  int points_ = 0, unknowns_ = 0, pinned_ = 0;
  bool touches_ = true; ///< is there contact with the walls?
  std::vector<Hold> hold_;
  std::vector<std::array<bool, 3>> held_; ///< components in the point's own frame: radial, off the wall, height
  Eigen::Matrix3Xd rest_;                 ///< held components in that frame, mm
  Eigen::Matrix3Xd load_;                 ///< dead forces, N; empty when there are none
  std::vector<std::array<int, 3>> index_; ///< unknown of each component in the point's own frame; -1 when held
  std::vector<Element> elements_;
  std::vector<Contact> contacts_;
  Matrix pattern_;
};

/// Have two matrices the same entries?
bool same_pattern(const Matrix& a, const Matrix& b);

/// Angle between the two walls, radians.
double wedge_of(const Panel& panel);

/// Nearest forces without compression: they keep the Hessian positive semi-definite.
Forces tensile_part(const Forces& forces);

} // namespace fanwright::opened
