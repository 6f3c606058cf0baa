// How many heavy computations may run side by side, over all designs.
#pragma once

#include <condition_variable>
#include <mutex>

namespace fanwright::studio {

class Solving {
public:
  explicit Solving(int at_once) : free_(at_once) {}

  /// One of the places, held for as long as this lives.
  class Place {
  public:
    explicit Place(Solving& solving) : solving_(solving) {
      std::unique_lock lock(solving_.mutex_);
      solving_.freed_.wait(lock, [&] { return solving_.free_ > 0; });
      --solving_.free_;
    }
    ~Place() {
      {
        const std::lock_guard lock(solving_.mutex_);
        ++solving_.free_;
      }
      solving_.freed_.notify_one();
    }
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;

  private:
    Solving& solving_;
  };

private:
  std::mutex mutex_;
  std::condition_variable freed_;
  int free_;
};

} // namespace fanwright::studio
