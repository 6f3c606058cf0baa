#include "studio/listeners.h"

#include "studio/told.h"

#include <algorithm>

namespace fanwright::studio {
namespace {

using Clock = std::chrono::steady_clock;

constexpr auto look_up = std::chrono::milliseconds(500); ///< how often a page that has gone is noticed
constexpr auto sign_of_life = std::chrono::seconds(10);

/// As server-sent events are written (HTML Living Standard, section 9.2); JSON text holds no line feeds.
std::string event(const News& news) { return "event: " + news.kind + "\ndata: " + news.text + "\n\n"; }

} // namespace

Reply Listeners::listen(const std::string& design) {
  const auto page = std::make_shared<Page>();
  page->design = design;
  {
    const std::lock_guard lock(mutex_);
    std::erase_if(pages_, [](const auto& other) { return other.expired(); });
    if (pages_.size() >= static_cast<std::size_t>(most))
      return told::refusal(503, "Too many pages of this studio are open; close some.");
    pages_.push_back(page);
  }
  Reply reply;
  reply.type = "text/event-stream";
  reply.goes_on = [this, page](const Write& write) { return write_on(*page, write); };
  return reply;
}

bool Listeners::write_on(Page& page, const Write& write) {
  std::string text;
  {
    std::unique_lock lock(mutex_);
    told_.wait_for(lock, look_up, [&] { return !page.unread.empty(); });
    while (!page.unread.empty()) {
      text += event(page.unread.front());
      page.unread.pop_front();
    }
  }
  if (text.empty() && Clock::now() - page.written > sign_of_life)
    text = ":\n\n";
  if (text.empty())
    return true;
  page.written = Clock::now();
  return write(text);
}

void Listeners::tell(const std::string& design, const News& news) {
  const std::lock_guard lock(mutex_);
  for (const auto& known : pages_)
    if (const auto page = known.lock(); page && page->design == design) {
      std::erase_if(page->unread, [&](const News& old) {
        return old.topic == news.topic || (old.revision > 0 && old.revision < news.revision);
      });
      page->unread.push_back(news);
    }
  told_.notify_all();
}

int Listeners::count(const std::string& design) const {
  const std::lock_guard lock(mutex_);
  return static_cast<int>(std::ranges::count_if(pages_, [&](const auto& known) {
    const auto page = known.lock();
    return page && page->design == design;
  }));
}

} // namespace fanwright::studio
