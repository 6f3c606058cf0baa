#include "opened/tilt.h"

#include "opened/equilibrium.h"
#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace fanwright::opened {
namespace {

double away(const EdgePoint& a, const EdgePoint& b) { return std::hypot(a.x - b.x, a.z - b.z); }

/// Gradient of the mean height (or radius) of the edge near one of its points, on the unknowns. The weight falls to
/// nothing at `reach_mm`, so that the mean does not jump with the points' spacing.
class EdgeMean {
public:
  EdgeMean(const Form& form, double reach_mm)
      : form_(form), sheet_(*form.equilibrium), surface_(sheet_.surface()), reach_mm_(reach_mm) {}

  template <typename Direction> Vector gradient(const EdgePoint& centre, const Direction& direction) const {
    Eigen::Matrix3Xd load = Eigen::Matrix3Xd::Zero(3, sheet_.pieces.points);
    double sum = 0;
    for (std::size_t k = 0; k < form_.edge.size(); ++k) {
      const double weight = std::max(0.0, 1 - away(form_.edge[k], centre) / reach_mm_) * length_at(k);
      if (weight > 0) {
        add(form_.edge[k], weight, direction, load);
        sum += weight;
      }
    }
    return sheet_.mechanics.unknowns_of(load) / sum;
  }

private:
  /// Length of edge that a point stands for, mm.
  double length_at(std::size_t k) const {
    const std::vector<EdgePoint>& edge = form_.edge;
    return 0.5 * (away(edge[k], edge[k == 0 ? 0 : k - 1]) + away(edge[k], edge[std::min(k + 1, edge.size() - 1)]));
  }

  template <typename Direction>
  void add(const EdgePoint& point, double weight, const Direction& direction, Eigen::Matrix3Xd& load) const {
    const double zeta = sheet_.grid.zeta_of({point.x, point.z});
    const int nearest = sheet_.pieces.nearest(sheet_.grid, point.x, zeta);
    const Piece& piece = sheet_.pieces.pieces[static_cast<std::size_t>(nearest)];
    const Basis n = sheet_.grid.basis(piece.i, piece.j, point.x, zeta);
    const Eigen::Vector3d way = direction(surface_.at(piece, point.x, zeta));
    for (std::size_t a = 0; a < 9; ++a) {
      load.col(piece.points[a]) += weight * n.value[a] * way;
    }
  }

  const Form& form_;
  const Equilibrium& sheet_;
  Surface surface_;
  double reach_mm_;
};

} // namespace

Contribution tilt(const Form& form, const DampedFactor& factor) {
  const auto lower = [](const EdgePoint& a, const EdgePoint& b) { return a.height < b.height; };
  const auto nearer = [](const EdgePoint& a, const EdgePoint& b) { return a.radius < b.radius; };
  const auto [lowest, highest] = std::minmax_element(form.edge.begin(), form.edge.end(), lower);
  const auto widest = std::max_element(form.edge.begin(), form.edge.end(), nearer);
  const EdgeMean mean(form, tolerance::tilt_reach_share * std::max(form.height_mm, form.diameter_mm));
  const auto upward = [](const Eigen::Vector3d&) { return Eigen::Vector3d(0, 0, 1); };
  const auto outward = [](const Eigen::Vector3d& place) {
    return Eigen::Vector3d(Eigen::Vector3d(place[0], place[1], 0).normalized());
  };
  const double energy = tolerance::tilt_energy_share * form.energy_nmm();
  const auto reach = [&](const Vector& gradient) {
    return std::sqrt(2 * energy * std::max(0.0, gradient.dot(factor.solve(gradient))));
  };
  return {reach(mean.gradient(*highest, upward) - mean.gradient(*lowest, upward)),
          reach(2 * mean.gradient(*widest, outward))};
}

} // namespace fanwright::opened
