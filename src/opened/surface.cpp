#include "opened/surface.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fanwright::opened {
namespace {

/// Vertices of one mesh, shared where pieces meet.
class Vertices {
public:
  explicit Vertices(Mesh& mesh) : mesh_(mesh) {}

  template <typename Place> int at(leaf::Point flat, const Place& place) {
    // 1e-5 mm: far above rounding, far below any slit.
    const std::pair key{std::llround(flat.x * 1e5), std::llround(flat.z * 1e5)};
    const auto [found, fresh] = known_.try_emplace(key, static_cast<int>(mesh_.points.size()));
    if (fresh) {
      const Eigen::Vector3d p = place();
      mesh_.points.push_back({p[0], p[1], p[2]});
      mesh_.flat.push_back(flat);
    }
    return found->second;
  }

private:
  Mesh& mesh_;
  std::map<std::pair<long long, long long>, int> known_;
};

int parts(double length, double spacing) { return std::max(1, static_cast<int>(std::ceil(length / spacing - 1e-6))); }

} // namespace

Eigen::Vector3d Surface::at(const Piece& piece, double x, double zeta) const {
  const std::array<double, 9> values = grid_.values(piece.i, piece.j, x, zeta);
  Eigen::Vector3d place = Eigen::Vector3d::Zero();
  for (std::size_t a = 0; a < 9; ++a) {
    place += values[a] * places_.col(piece.points[a]);
  }
  return place;
}

Eigen::Matrix<double, 3, 2> Surface::tangents(const Piece& piece, double x, double zeta) const {
  const Basis n = grid_.basis(piece.i, piece.j, x, zeta);
  Eigen::Matrix<double, 3, 2> tangents = Eigen::Matrix<double, 3, 2>::Zero();
  for (std::size_t a = 0; a < 9; ++a) {
    tangents.col(0) += n.dx[a] * places_.col(piece.points[a]);
    tangents.col(1) += n.dz[a] * places_.col(piece.points[a]);
  }
  return tangents;
}

Eigen::Vector3d Surface::at(leaf::Point flat) const {
  const double zeta = grid_.zeta_of(flat);
  const int piece = pieces_.nearest(grid_, flat.x, zeta);
  return at(pieces_.pieces[static_cast<std::size_t>(piece)], flat.x, zeta);
}

Mesh Surface::mesh(double spacing_mm) const {
  Mesh mesh;
  Vertices vertices(mesh);
  const auto add = [&](int a, int b, int c) {
    if (a != b && b != c && c != a) {
      mesh.triangles.push_back({a, b, c});
    }
  };
  for (const Piece& piece : pieces_.pieces) {
    for (const Trapezoid& t : piece.paper) {
      const int up = parts(t.high - t.low, spacing_mm);
      const int across = parts(std::max(t.right_low - t.left_low, t.right_high - t.left_high), spacing_mm);
      const auto vertex = [&](int p, int q) {
        const double v = static_cast<double>(q) / up;
        const double left = t.left_low + v * (t.left_high - t.left_low);
        const double right = t.right_low + v * (t.right_high - t.right_low);
        const double x = left + (right - left) * p / across;
        const double zeta = t.low + v * (t.high - t.low);
        return vertices.at(grid_.flat_of(x, zeta), [&] { return at(piece, x, zeta); });
      };
      for (int q = 0; q < up; ++q) {
        for (int p = 0; p < across; ++p) {
          const int a = vertex(p, q);
          const int b = vertex(p + 1, q);
          const int c = vertex(p + 1, q + 1);
          const int d = vertex(p, q + 1);
          add(a, b, c);
          add(a, c, d);
        }
      }
    }
  }
  return mesh;
}

std::vector<leaf::Point> outer_edge(const leaf::Ring& outline, double spacing_mm) {
  constexpr double on_spine = 1e-6;
  const std::size_t count = outline.size();
  // The spine's stretch is the run of points on x = 0; the edge starts at the run's last point and ends at its first.
  std::size_t foot = 0;
  for (std::size_t k = 0; k < count; ++k) {
    if (outline[k].x < on_spine && outline[(k + 1) % count].x >= on_spine) {
      foot = k;
    }
  }
  std::vector<leaf::Point> edge{outline[foot]};
  for (std::size_t k = 1; k <= count; ++k) {
    const leaf::Point from = edge.back();
    const leaf::Point to = outline[(foot + k) % count];
    const int steps = parts(std::hypot(to.x - from.x, to.z - from.z), spacing_mm);
    for (int s = 1; s <= steps; ++s) {
      const double t = static_cast<double>(s) / steps;
      edge.push_back({from.x + t * (to.x - from.x), from.z + t * (to.z - from.z)});
    }
    if (to.x < on_spine) {
      break;
    }
  }
  return edge;
}

} // namespace fanwright::opened
