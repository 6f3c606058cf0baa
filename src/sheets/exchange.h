// Pieces of almost separated rooms change rooms, two at a time; the rooms concerned are separated anew, by themselves.
//
// What keeps many pieces from fitting few rooms is less how they lie in a room than which of them lie together. Two
// rooms at a time cost less than all, and rooms that are free of overlap stay so.
#pragma once

#include "sheets/separation.h"

namespace fanwright::sheets {

class Exchange {
public:
  /// `stop` is asked now and then and may be empty.
  Exchange(const Figures& figures, std::uint64_t seed, std::function<bool()> stop = {});

  /// Starts over with these items.
  void start(std::vector<Extent> rooms, std::vector<Item> items);

  /// Exchanges pieces until none overlap. Then true; false when many tries in a row were of no use.
  bool run();

  const std::vector<Item>& items() const { return items_; }
  std::int64_t work() const { return separation_.work(); }

private:
  struct Pair {
    std::size_t one, other;
  };
  double overlap() const;
  double overlap_in(std::size_t room) const;
  bool may_change_places(std::size_t one, std::size_t other) const;
  double fuller_after(const Pair& pair) const;
  std::optional<Pair> draw();
  bool try_once(const Pair& pair);

  const Figures& figures_;
  std::function<bool()> stop_;
  Separation separation_; ///< of the rooms that a pair lies in
  std::vector<Extent> rooms_;
  std::vector<Item> items_;
  std::vector<double> overlaps_, paper_; ///< by room: sum of depths, micrometres; area, square micrometres
  double least_ = 0;                     ///< overlap since the start
};

} // namespace fanwright::sheets
