// Numbered jobs done by several threads; the caller works too and alone calls the hooks.
#pragma once

#include <functional>

namespace fanwright::picture {

struct Crew {
  int threads = 0;                      ///< 0: one for each core
  std::function<void(double)> progress; ///< share of the jobs handed out, 0..1; may be empty
  std::function<bool()> cancelled;      ///< may be empty
};

/// Calls job(0) .. job(count - 1), each once, in any order. False when cancelled; then some were not called.
bool work_through(int count, const Crew& crew, const std::function<void(int)>& job);

} // namespace fanwright::picture
