#include "opened/pieces.h"

#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace fanwright::opened {
namespace {

struct Edge {
  double x0, z0, x1, z1; ///< z0 < z1, grid coordinates
  double x_at(double z) const { return x0 + (x1 - x0) * (z - z0) / (z1 - z0); }
};

class Joined {
public:
  explicit Joined(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), 0); }
  int root(int a) {
    while (parent_[static_cast<std::size_t>(a)] != a) {
      int& up = parent_[static_cast<std::size_t>(a)];
      up = parent_[static_cast<std::size_t>(up)];
      a = up;
    }
    return a;
  }
  void join(int a, int b) {
    const int ra = root(a);
    const int rb = root(b);
    parent_[static_cast<std::size_t>(std::max(ra, rb))] = std::min(ra, rb);
  }

private:
  std::vector<int> parent_;
};

bool overlap(double a0, double a1, double b0, double b1) { return std::min(a1, b1) - std::max(a0, b0) > 1e-9; }

/// Edges of all rings, sorted into the grid's rows of cells.
std::vector<std::vector<Edge>> edges_by_row(const Panel& panel, const Grid& grid) {
  std::vector<std::vector<Edge>> rows(static_cast<std::size_t>(grid.cells_up()));
  const auto add_ring = [&](const leaf::Ring& ring) {
    for (std::size_t k = 0; k < ring.size(); ++k) {
      const leaf::Point a = ring[k];
      const leaf::Point b = ring[(k + 1) % ring.size()];
      Edge edge{a.x, grid.zeta_of(a), b.x, grid.zeta_of(b)};
      if (edge.z0 > edge.z1) {
        edge = {edge.x1, edge.z1, edge.x0, edge.z0};
      }
      if (edge.z1 - edge.z0 < 1e-12) {
        continue;
      }
      for (int j = grid.up().cell_of(edge.z0); j < grid.cells_up() && grid.up().line(j) < edge.z1; ++j) {
        rows[static_cast<std::size_t>(j)].push_back(edge);
      }
    }
  };
  add_ring(panel.outline);
  for (const leaf::Ring& hole : panel.cut_outs) {
    add_ring(hole);
  }
  return rows;
}

/// Trapezoids of paper in the row of cells j, between two heights with no vertex between them.
void cut_slab(const std::vector<Edge>& edges, double low, double high, const Grid& grid, int j,
              std::vector<std::vector<Trapezoid>>& cells) {
  const double mid = 0.5 * (low + high);
  std::vector<std::pair<double, const Edge*>> crossings;
  for (const Edge& edge : edges) {
    if (edge.z0 < mid && edge.z1 > mid) {
      crossings.emplace_back(edge.x_at(mid), &edge);
    }
  }
  std::sort(crossings.begin(), crossings.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t k = 0; k + 1 < crossings.size(); k += 2) {
    const Edge& left = *crossings[k].second;
    const Edge& right = *crossings[k + 1].second;
    const int last = grid.across().cell_of(crossings[k + 1].first);
    for (int i = grid.across().cell_of(crossings[k].first); i <= last; ++i) {
      const double wall0 = grid.across().line(i);
      const double wall1 = grid.across().line(i + 1);
      const auto inside = [&](double x) { return std::clamp(x, wall0, wall1); };
      Trapezoid t{low,
                  high,
                  inside(left.x_at(low)),
                  inside(right.x_at(low)),
                  inside(left.x_at(high)),
                  inside(right.x_at(high))};
      t.right_low = std::max(t.right_low, t.left_low);
      t.right_high = std::max(t.right_high, t.left_high);
      if (t.area() > 1e-12) {
        cells[static_cast<std::size_t>(i + grid.cells_across() * j)].push_back(t);
      }
    }
  }
}

/// Heights at which the row of cells must be split: vertices, and places where an edge meets a line across.
std::vector<double> breaks(const std::vector<Edge>& edges, const Grid& grid, int j) {
  const double bottom = grid.up().line(j);
  const double top = grid.up().line(j + 1);
  std::vector<double> heights{bottom, top};
  for (const Edge& edge : edges) {
    heights.push_back(edge.z0);
    heights.push_back(edge.z1);
    if (std::abs(edge.x1 - edge.x0) < 1e-12) {
      continue;
    }
    for (const double line : grid.across().lines()) {
      const double t = (line - edge.x0) / (edge.x1 - edge.x0);
      if (t > 0 && t < 1) {
        heights.push_back(edge.z0 + t * (edge.z1 - edge.z0));
      }
    }
  }
  std::sort(heights.begin(), heights.end());
  std::vector<double> kept;
  for (const double z : heights) {
    if (z >= bottom && z <= top && (kept.empty() || z - kept.back() > 1e-9)) {
      kept.push_back(z);
    }
  }
  return kept;
}

/// Stacked trapezoids whose sides go on straight are one: keeps uncut cells to a single rectangle.
void merge_straight(std::vector<Trapezoid>& paper) {
  std::vector<Trapezoid> kept;
  for (const Trapezoid& t : paper) {
    const auto fits = [&](const Trapezoid& below) {
      const double h0 = below.high - below.low;
      const double h1 = t.high - t.low;
      return std::abs(below.high - t.low) < 1e-9 && std::abs(below.left_high - t.left_low) < 1e-9 &&
             std::abs(below.right_high - t.right_low) < 1e-9 &&
             std::abs((below.left_high - below.left_low) * h1 - (t.left_high - t.left_low) * h0) < 1e-9 * h0 * h1 &&
             std::abs((below.right_high - below.right_low) * h1 - (t.right_high - t.right_low) * h0) < 1e-9 * h0 * h1;
    };
    const auto below = std::find_if(kept.begin(), kept.end(), fits);
    if (below == kept.end()) {
      kept.push_back(t);
    } else {
      below->high = t.high;
      below->left_high = t.left_high;
      below->right_high = t.right_high;
    }
  }
  paper = std::move(kept);
}

/// Splits a cell's trapezoids into connected pieces.
void split_cell(std::vector<Trapezoid>& paper, int i, int j, double cell_area, std::vector<Piece>& pieces) {
  merge_straight(paper);
  Joined joined(paper.size());
  for (std::size_t a = 0; a < paper.size(); ++a) {
    for (std::size_t b = 0; b < paper.size(); ++b) {
      if (std::abs(paper[a].high - paper[b].low) < 1e-9 &&
          overlap(paper[a].left_high, paper[a].right_high, paper[b].left_low, paper[b].right_low)) {
        joined.join(static_cast<int>(a), static_cast<int>(b));
      }
    }
  }
  for (std::size_t a = 0; a < paper.size(); ++a) {
    if (joined.root(static_cast<int>(a)) != static_cast<int>(a)) {
      continue;
    }
    Piece piece;
    piece.i = i;
    piece.j = j;
    for (std::size_t b = 0; b < paper.size(); ++b) {
      if (joined.root(static_cast<int>(b)) == static_cast<int>(a)) {
        piece.paper.push_back(paper[b]);
        piece.area += paper[b].area();
      }
    }
    piece.whole = piece.area > (1.0 - 1e-9) * cell_area;
    if (piece.area > tolerance::sliver_share * cell_area) {
      pieces.push_back(std::move(piece));
    }
  }
}

/// Do two pieces of neighbouring cells touch along the side they share?
bool touch(const Grid& grid, const Piece& a, const Piece& b) {
  for (const Trapezoid& s : a.paper) {
    for (const Trapezoid& t : b.paper) {
      if (b.i == a.i + 1 && b.j == a.j) {
        const double wall = grid.across().line(b.i);
        const bool reach =
            std::max(s.right_low, s.right_high) > wall - 1e-9 && std::min(t.left_low, t.left_high) < wall + 1e-9;
        if (reach && overlap(s.low, s.high, t.low, t.high)) {
          return true;
        }
      } else if (b.j == a.j + 1 && b.i == a.i && std::abs(s.high - t.low) < 1e-9 &&
                 overlap(s.left_high, s.right_high, t.left_low, t.right_low)) {
        return true;
      }
    }
  }
  return false;
}

/// Pairs of touching pieces in neighbouring cells.
std::vector<std::array<int, 2>> contacts(const Grid& grid, const Pieces& all) {
  std::vector<std::array<int, 2>> pairs;
  const int across = grid.cells_across();
  const int count = static_cast<int>(all.pieces.size());
  for (int p = 0; p < count; ++p) {
    const Piece& piece = all.pieces[static_cast<std::size_t>(p)];
    for (const auto& [di, dj] : {std::pair{1, 0}, std::pair{0, 1}}) {
      if (piece.i + di >= across || piece.j + dj >= grid.cells_up()) {
        continue;
      }
      const std::size_t cell = static_cast<std::size_t>(piece.i + di + across * (piece.j + dj));
      for (int q = all.first_of_cell[cell]; q < all.first_of_cell[cell + 1]; ++q) {
        if (touch(grid, piece, all.pieces[static_cast<std::size_t>(q)])) {
          pairs.push_back({p, q});
        }
      }
    }
  }
  return pairs;
}

/// One control point for each connected part of a grid function's support.
void number_points(const Grid& grid, Pieces& all) {
  const int across = grid.cells_across();
  std::vector<std::vector<int>> neighbours(all.pieces.size());
  for (const auto& [p, q] : contacts(grid, all)) {
    neighbours[static_cast<std::size_t>(p)].push_back(q);
  }
  for (int fj = 0; fj < grid.up().functions(); ++fj) {
    for (int fi = 0; fi < grid.across().functions(); ++fi) {
      std::vector<int> support;
      for (int j = std::max(0, fj - 2); j <= std::min(fj, grid.cells_up() - 1); ++j) {
        for (int i = std::max(0, fi - 2); i <= std::min(fi, across - 1); ++i) {
          const std::size_t cell = static_cast<std::size_t>(i + across * j);
          for (int p = all.first_of_cell[cell]; p < all.first_of_cell[cell + 1]; ++p) {
            support.push_back(p);
          }
        }
      }
      const auto index_of = [&](int p) {
        const auto found = std::lower_bound(support.begin(), support.end(), p);
        return found != support.end() && *found == p ? static_cast<int>(found - support.begin()) : -1;
      };
      Joined joined(support.size());
      for (std::size_t s = 0; s < support.size(); ++s) {
        for (const int q : neighbours[static_cast<std::size_t>(support[s])]) {
          if (const int other = index_of(q); other >= 0) {
            joined.join(static_cast<int>(s), other);
          }
        }
      }
      std::vector<int> number(support.size(), -1);
      for (std::size_t s = 0; s < support.size(); ++s) {
        int& mine = number[static_cast<std::size_t>(joined.root(static_cast<int>(s)))];
        if (mine < 0) {
          mine = all.points++;
          all.place.push_back({fi, fj});
        }
        Piece& piece = all.pieces[static_cast<std::size_t>(support[s])];
        piece.points[static_cast<std::size_t>(fi - piece.i + 3 * (fj - piece.j))] = mine;
      }
    }
  }
}

std::array<double, 2> nearest_on(const Trapezoid& t, double x, double zeta) {
  const double z = std::clamp(zeta, t.low, t.high);
  const double share = (z - t.low) / (t.high - t.low);
  const double left = t.left_low + share * (t.left_high - t.left_low);
  const double right = t.right_low + share * (t.right_high - t.right_low);
  return {std::clamp(x, left, std::max(left, right)), z};
}

double distance_squared(const Trapezoid& t, double x, double zeta) {
  const auto [there_x, there_zeta] = nearest_on(t, x, zeta);
  return (x - there_x) * (x - there_x) + (zeta - there_zeta) * (zeta - there_zeta);
}

} // namespace

Pieces cut(const Panel& panel, const Grid& grid) {
  Pieces all;
  const auto rows = edges_by_row(panel, grid);
  std::vector<std::vector<Trapezoid>> cells(static_cast<std::size_t>(grid.cells_across() * grid.cells_up()));
  for (int j = 0; j < grid.cells_up(); ++j) {
    const auto& edges = rows[static_cast<std::size_t>(j)];
    const std::vector<double> heights = breaks(edges, grid, j);
    for (std::size_t k = 0; k + 1 < heights.size(); ++k) {
      cut_slab(edges, heights[k], heights[k + 1], grid, j, cells);
    }
  }
  all.first_of_cell.assign(cells.size() + 1, 0);
  for (int j = 0; j < grid.cells_up(); ++j) {
    for (int i = 0; i < grid.cells_across(); ++i) {
      const std::size_t cell = static_cast<std::size_t>(i + grid.cells_across() * j);
      split_cell(cells[cell], i, j, grid.across().width(i) * grid.up().width(j), all.pieces);
      all.first_of_cell[cell + 1] = static_cast<int>(all.pieces.size());
    }
  }
  number_points(grid, all);
  return all;
}

std::array<double, 2> Piece::nearest(double x, double zeta) const {
  const auto by_distance = [&](const Trapezoid& t) { return distance_squared(t, x, zeta); };
  return nearest_on(*std::ranges::min_element(paper, {}, by_distance), x, zeta);
}

int Pieces::nearest(const Grid& grid, double x, double zeta) const {
  int best = -1;
  double least = std::numeric_limits<double>::infinity();
  const auto look = [&](int p) {
    const Piece& piece = pieces[static_cast<std::size_t>(p)];
    for (const Trapezoid& t : piece.paper) {
      // A whole cell next door evaluates more soundly than a sliver, at equal distance.
      const double away = distance_squared(t, x, zeta) - (piece.whole ? 1e-12 : 0.0);
      if (away < least) {
        least = away;
        best = p;
      }
    }
  };
  const int ci = grid.across().cell_of(x);
  const int cj = grid.up().cell_of(zeta);
  for (int j = std::max(0, cj - 1); j <= std::min(cj + 1, grid.cells_up() - 1); ++j) {
    for (int i = std::max(0, ci - 1); i <= std::min(ci + 1, grid.cells_across() - 1); ++i) {
      const std::size_t cell = static_cast<std::size_t>(i + grid.cells_across() * j);
      for (int p = first_of_cell[cell]; p < first_of_cell[cell + 1]; ++p) {
        look(p);
      }
    }
  }
  if (best < 0) {
    for (int p = 0; p < static_cast<int>(pieces.size()); ++p) {
      look(p);
    }
  }
  return best;
}

} // namespace fanwright::opened
