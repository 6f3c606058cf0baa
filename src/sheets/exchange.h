// Pieces of almost separated rooms change rooms, two at a time; the rooms concerned are separated anew, by themselves.
//
// What keeps many pieces from fitting few rooms is less how they lie in a room than which of them lie together. Two
// rooms at a time cost less than all, and rooms that are free of overlap stay so.
#pragma once

#include "sheets/separation.h"

#include <set>

namespace fanwright::sheets {

class Exchange {
public:
  /// `stop` is asked now and then and may be empty.
  Exchange(const Figures& figures, std::uint64_t seed, std::function<bool()> stop = {});

  /// Starts over with these items. What has been tried in two rooms is remembered, and not tried again.
  void start(std::vector<Extent> rooms, std::vector<Item> items);

  /// Exchanges pieces until none overlap. Then true; false when many tries in a row were of no use.
  bool run();

  const std::vector<Item>& items() const { return items_; }
  std::int64_t work() const { return separation_.work(); }

private:
  struct Pair {
    std::size_t one, other;
  };
  using Pairs = std::vector<Pair>; ///< of the same two rooms, or in one room
  using Contents = std::vector<std::vector<std::int64_t>>;
  double overlap() const;
  void measure(std::size_t room);
  double fuller_after(const Pairs& pairs) const;
  bool draw_pair(bool within, Pairs& pairs);
  Pairs draw(bool within);
  Contents contents_after(const Pairs& pairs) const;
  bool try_once(const Pairs& pairs);

  const Figures& figures_;
  std::function<bool()> stop_;
  Separation separation_; ///< of the rooms that a pair lies in
  std::vector<Extent> rooms_;
  std::vector<Item> items_;
  std::vector<double> overlaps_, paper_; ///< by room: sum of depths, micrometres; area, square micrometres
  std::set<Contents> tried_;             ///< of two rooms, since the exchange was made
  double least_ = 0;                     ///< overlap since the start
};

} // namespace fanwright::sheets
