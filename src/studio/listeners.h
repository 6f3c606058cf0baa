// What is told to the pages that listen to a design, in order, newest news only.
#pragma once

#include "studio/http.h"

#include <condition_variable>
#include <cstdint>
#include <deque>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

namespace fanwright::studio {

/// Something to tell. News of the same topic takes the place of older news that no page has read yet.
struct News {
  std::string kind;           ///< name of the event: "form"
  std::string topic;          ///< "form medium"
  std::uint64_t revision = 0; ///< of the design it was computed for; 0: of none
  std::string text;           ///< JSON
};

class Listeners {
public:
  static constexpr int most = 32; ///< pages listening to all designs together

  /// A reply that goes on with the news of `design`; 503 when too many listen.
  Reply listen(const std::string& design);

  /// Tells all who listen to `design`. News of a revision drops unread news of older ones.
  void tell(const std::string& design, const News& news);

  /// How many listen to `design`.
  int count(const std::string& design) const;

private:
  struct Page {
    std::string design;
    std::deque<News> unread;
    std::chrono::steady_clock::time_point written;
  };
  bool write_on(Page& page, const Write& write);

  mutable std::mutex mutex_;
  std::condition_variable told_;
  std::vector<std::weak_ptr<Page>> pages_;
};

} // namespace fanwright::studio
