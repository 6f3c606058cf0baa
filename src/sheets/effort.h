// How hard a layout is searched.
#pragma once

#include <cstdint>
#include <functional>

namespace fanwright::sheets {

/// Work is counted in places looked at, about six million a second on one core of 2020: a budget of work gives the same
/// layout on every machine, a budget of time would not.
struct Effort {
  std::int64_t work = 1'000'000; ///< 0: patterns alone, no search
  std::uint64_t seed = 1;
  std::function<void(double)> progress; ///< called with 0..1; may be empty
  std::function<bool()> cancelled;      ///< polled; when true the best layout so far is returned; may be empty
};

} // namespace fanwright::sheets
