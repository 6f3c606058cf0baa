#include "picture/parallel.h"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace fanwright::picture {

bool work_through(int count, const Crew& crew, const std::function<void(int)>& job) {
  constexpr int most_threads = 64;
  std::atomic<int> next{0};
  std::atomic<bool> stop{false};
  const auto work = [&](bool caller) {
    while (!stop) {
      const int number = next++;
      if (number >= count)
        return;
      job(number);
      if (caller && crew.progress)
        crew.progress(static_cast<double>(number + 1) / count);
      if (caller && crew.cancelled && crew.cancelled())
        stop = true;
    }
  };
  const int cores = static_cast<int>(std::thread::hardware_concurrency());
  const int threads = std::clamp(crew.threads > 0 ? crew.threads : cores, 1, most_threads);
  {
    std::vector<std::jthread> others;
    for (int i = 1; i < threads; ++i)
      others.emplace_back(work, false);
    work(true);
  }
  return !stop;
}

} // namespace fanwright::picture
