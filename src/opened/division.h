// How one direction of the grid is cut: which wanted places become lines, and into how many cells the stretches between
// these are cut. A grid beside another is cut alike as long as that suits: one line more or less moves the opened edge
// by up to 0.3 % of the size, as much as a small change of the leaf does, and what follows a change would take turns
// between the two.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace fanwright::opened {

/// What a grid leaves to one beside it.
struct Division {
  std::vector<std::vector<int>> joined; ///< of each line, ascending, the indices of the wanted places it is the mean of
  std::vector<int> cells;               ///< between each line and the next
};

/// A stretch may be so much longer or shorter than one that is cut anew, as a share of it, and keep its cells.
inline constexpr double kept_stretch_share = 0.15;

/// The lines that must be, mm, and how the stretches between them were cut before.
class Stretches {
public:
  /// Places that are wanted nearer to each other than `nearest` mm become one line; the outermost two, places 0 and 1,
  /// stay as they are. `before`: may be null.
  Stretches(const std::vector<double>& wanted, double nearest, const Division* before);

  std::size_t count() const { return lines_.size() - 1; }
  double from(std::size_t k) const { return lines_[k]; }
  double to(std::size_t k) const { return lines_[k + 1]; }
  double length(std::size_t k) const { return to(k) - from(k); }
  /// Is it the first or the last?
  bool is_end(std::size_t k) const { return k == 0 || k + 1 == count(); }

  /// Into how many cells to cut a stretch when one of so many mm is cut into `cells_in` of them.
  template <typename CellsIn> int cells(std::size_t k, const CellsIn& cells_in) {
    int cells = cells_in(length(k));
    if (k < cells_before_.size())
      cells = std::clamp(cells_before_[k], cells_in((1 - kept_stretch_share) * length(k)),
                         cells_in((1 + kept_stretch_share) * length(k)));
    division_.cells.push_back(cells);
    return cells;
  }

  /// Once all stretches have been asked for their cells, in turn.
  const Division& division() const { return division_; }

private:
  std::vector<double> lines_;
  std::vector<int> cells_before_;
  Division division_;
};

} // namespace fanwright::opened
