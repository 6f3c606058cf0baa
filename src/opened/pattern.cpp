// Which entries the Hessian has, and where an element finds its own.
#include "opened/mechanics.h"

#include <algorithm>
#include <vector>

namespace fanwright::opened {

// The unknowns of a point are numbered in a row, points in ascending order: a column of the lower triangle holds the
// rest of its own point's unknowns and then, one after another, those of the points above that share an element with
// it.
void Mechanics::make_pattern() {
  std::vector<std::vector<int>> above(hold_.size());
  for (const Element& element : elements_) {
    for (const int p : element.points) {
      for (const int q : element.points) {
        if (q > p) {
          above[static_cast<std::size_t>(p)].push_back(q);
        }
      }
    }
  }
  std::vector<std::vector<int>> start(hold_.size()); // rows of a point's column before those of each point above
  int entries = 0;
  for (std::size_t p = 0; p < above.size(); ++p) {
    std::sort(above[p].begin(), above[p].end());
    above[p].erase(std::unique(above[p].begin(), above[p].end()), above[p].end());
    int rows = 0;
    for (const int q : above[p]) {
      start[p].push_back(rows);
      rows += unknowns_of_point(q);
    }
    const int own = unknowns_of_point(static_cast<int>(p));
    entries += own * rows + own * (own + 1) / 2;
  }
  fill_pattern(above, entries);
  for (Element& element : elements_) {
    find_skipped(element, above, start);
  }
}

int Mechanics::unknowns_of_point(int point) const {
  const auto& index = index_[static_cast<std::size_t>(point)];
  return static_cast<int>(std::count_if(index.begin(), index.end(), [](int i) { return i >= 0; }));
}

void Mechanics::fill_pattern(const std::vector<std::vector<int>>& above, int entries) {
  pattern_.resize(unknowns_, unknowns_);
  pattern_.resizeNonZeros(entries);
  int* inner = pattern_.innerIndexPtr();
  int at = 0;
  const auto add = [&](int point, int from) {
    for (const int row : index_[static_cast<std::size_t>(point)]) {
      if (row >= from) {
        inner[at++] = row;
      }
    }
  };
  for (std::size_t p = 0; p < above.size(); ++p) {
    for (const int column : index_[p]) {
      if (column < 0) {
        continue;
      }
      pattern_.outerIndexPtr()[column] = at;
      add(static_cast<int>(p), column);
      for (const int q : above[p]) {
        add(q, 0);
      }
    }
  }
  pattern_.outerIndexPtr()[unknowns_] = at;
  std::fill_n(pattern_.valuePtr(), entries, 0.0);
}

void Mechanics::find_skipped(Element& element, const std::vector<std::vector<int>>& above,
                             const std::vector<std::vector<int>>& start) {
  for (std::size_t b = 0; b < 9; ++b) {
    const std::size_t p = static_cast<std::size_t>(element.points[b]);
    for (std::size_t a = 0; a < 9; ++a) {
      if (element.points[a] > element.points[b]) {
        const auto found = std::lower_bound(above[p].begin(), above[p].end(), element.points[a]);
        element.skipped[a + 9 * b] = start[p][static_cast<std::size_t>(found - above[p].begin())];
      }
    }
  }
}

bool same_pattern(const Matrix& a, const Matrix& b) {
  return a.cols() == b.cols() && a.nonZeros() == b.nonZeros() &&
         std::equal(a.outerIndexPtr(), a.outerIndexPtr() + a.cols(), b.outerIndexPtr()) &&
         std::equal(a.innerIndexPtr(), a.innerIndexPtr() + a.nonZeros(), b.innerIndexPtr());
}

} // namespace fanwright::opened
