// The pieces of a job in every stance they may take, and what keeps any two of them apart.
#pragma once

#include "sheets/known.h"

#include <memory>
#include <vector>

namespace fanwright::sheets {

/// One kind of piece in one stance.
struct Figure {
  std::size_t kind = 0;
  Stance stance;
  Extent box;
};

/// A kind as a search needs it.
struct SearchedKind {
  Profile profile;
  std::vector<Stance> stances;
};

/// The region of a pair: that of another pair, turned by 180 degrees where `sign` is -1.
struct Apart {
  const KeepOut* region = nullptr;
  double sign = 1;
};

class Figures {
public:
  /// Computes every pair's no-fit region that is not known; `gap_um` lies between the true outlines.
  Figures(const std::vector<SearchedKind>& kinds, double gap_um,
          std::shared_ptr<Known> known = std::make_shared<Known>());
  Figures(const Figures&) = delete;
  Figures& operator=(const Figures&) = delete;

  const Figure& operator[](std::size_t figure) const { return figures_[figure]; }

  std::size_t kinds() const { return areas_.size(); }

  /// The figures of a kind: `first(kind)` up to `first(kind + 1)`.
  std::size_t first(std::size_t kind) const { return first_[kind]; }

  /// Whether outlines have many corners (more than 15 on average): asking for a place then costs more, and fewer of
  /// them serve as well.
  bool wound() const { return wound_; }

  double area_um2(std::size_t kind) const { return areas_[kind]; }

  /// Where the origin of figure `moving` may not be, relative to that of `fixed`.
  const Apart& apart(std::size_t fixed, std::size_t moving) const { return pairs_[fixed * figures_.size() + moving]; }

  /// How deep two pieces lie in each other, micrometres; `x` and `z` are the move from the first to the second.
  double depth(std::size_t first, std::size_t second, double x, double z) const {
    const Apart& pair = apart(first, second);
    return pair.region->depth(x * pair.sign, z * pair.sign);
  }

private:
  struct Pair {
    std::size_t fixed, moving;
    double sign;
  };
  Pair alike(std::size_t fixed, std::size_t moving) const;
  std::size_t half_turned(std::size_t figure) const;

  bool wound_ = false;
  std::vector<Figure> figures_;
  std::vector<std::size_t> first_;
  std::vector<double> areas_;
  std::shared_ptr<Known> known_; ///< holds the regions
  std::vector<Apart> pairs_;     ///< by fixed figure, then by moving figure
};

} // namespace fanwright::sheets
