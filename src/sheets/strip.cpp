#include "sheets/strip.h"

#include <algorithm>
#include <cmath>

namespace fanwright::sheets {

namespace {

constexpr double loose_density = 0.55;     // of the first, easy strip
constexpr double exploration_share = 0.8;  // of the work
constexpr double exploration_step = 0.002; // shorter each time
constexpr double first_squeeze = 5e-4, last_squeeze = 1e-5;

constexpr Patience long_patience{150, 2}, long_patience_if_wound{50, 2}, short_patience{60, 1};

class Search {
public:
  Search(const Figures& figures, const StripWish& wish)
      : figures_(figures), wish_(wish), separation_(figures, wish.seed, [this] { return ended(); }) {}

  Strip run() {
    double area = 0;
    for (const std::size_t kind : wish_.kinds) {
      area += figures_.area_um2(kind);
      least_ = std::max(least_, narrowest(kind));
    }
    length_ = std::max(least_, static_cast<std::int64_t>(area / static_cast<double>(wish_.height_um) / loose_density));
    until_ = exploration_share;
    scatter();
    explore();
    until_ = 1;
    if (!best_.items.empty())
      compress();
    best_.work = work();
    return best_;
  }

private:
  double share_done() const {
    if (wish_.share_done)
      return wish_.share_done();
    return static_cast<double>(work()) / static_cast<double>(std::max<std::int64_t>(1, wish_.work));
  }

  std::int64_t work() const { return separation_.work() + work_beside_; }

  bool ended() const {
    const double done = share_done();
    if (wish_.progress)
      wish_.progress(std::min(1.0, done));
    return done >= until_ || (!best_.items.empty() && best_.length_um <= least_) || (wish_.stop && wish_.stop());
  }

  /// Across the stance in which the kind takes least of the length.
  std::int64_t narrowest(std::size_t kind) const {
    std::int64_t width = figures_[figures_.first(kind)].box.width();
    for (std::size_t figure = figures_.first(kind); figure < figures_.first(kind + 1); ++figure)
      width = std::min(width, figures_[figure].box.width());
    return width;
  }

  void scatter() {
    std::vector<Item> items;
    Chance& chance = separation_.chance();
    for (const std::size_t kind : wish_.kinds) {
      const std::size_t figure = figures_.first(kind) + chance.below(figures_.first(kind + 1) - figures_.first(kind));
      items.push_back({figure, 0, chance.share() * static_cast<double>(length_),
                       chance.share() * static_cast<double>(wish_.height_um)});
    }
    separation_.start(rooms(length_), std::move(items));
  }

  std::vector<Extent> rooms(std::int64_t length) const { return {{0, 0, length, wish_.height_um}}; }

  double used(const std::vector<Item>& items) const {
    double end = 0;
    for (const Item& item : items)
      end = std::max(end, item.x + static_cast<double>(figures_[item.figure].box.right));
    return std::ceil(end);
  }

  /// What was found becomes the best strip, where it is shorter once it is mended.
  bool keep() {
    std::vector<Item> items = separation_.items();
    // What is found without a single move must cost something too, or a search that gets no further never ends.
    work_beside_ += static_cast<std::int64_t>(items.size());
    if (wish_.mended) {
      Mended mended = wish_.mended(items, rooms(static_cast<std::int64_t>(used(items)))[0]);
      work_beside_ += mended.work;
      if (mended.items.empty())
        return false;
      items = std::move(mended.items);
    }
    const auto length = static_cast<std::int64_t>(used(items));
    if (!best_.items.empty() && length >= best_.length_um)
      return false;
    best_.length_um = length;
    best_.items = std::move(items);
    return true;
  }

  void explore() {
    std::vector<Failed> pool;
    while (!ended()) {
      const bool apart = separation_.separate(figures_.wound() ? long_patience_if_wound : long_patience);
      failed_ = {separation_.overlap(), separation_.items()};
      if ((apart || nearly()) && keep()) {
        pool.clear();
        shorten(exploration_step * static_cast<double>(best_.length_um));
        continue;
      }
      pool.push_back(std::move(failed_));
      std::stable_sort(pool.begin(), pool.end(),
                       [](const Failed& a, const Failed& b) { return a.overlap < b.overlap; });
      // The better of the failures more often than the rest.
      const double share = separation_.chance().share();
      separation_.start(rooms(length_),
                        pool[static_cast<std::size_t>(share * share * static_cast<double>(pool.size()))].items);
      swap_two_large();
    }
  }

  /// The best failure on a strip half as much shorter.
  bool nearly() {
    if (best_.items.empty() || best_.length_um - length_ < 2)
      return false;
    separation_.change_rooms(rooms((length_ + best_.length_um) / 2));
    separation_.forget_weights();
    return separation_.separate(short_patience);
  }

  /// The best strip, cut at a random place and pushed together there.
  void shorten(double by) {
    length_ = std::max(least_, best_.length_um - static_cast<std::int64_t>(std::max(2.0, by)));
    const double cut = separation_.chance().share() * static_cast<double>(best_.length_um);
    std::vector<Item> items = best_.items;
    for (Item& item : items)
      if (const Extent& box = figures_[item.figure].box; item.x + static_cast<double>(box.left + box.right) / 2 > cut)
        item.x -= static_cast<double>(best_.length_um - length_);
    separation_.start(rooms(length_), std::move(items));
  }

  /// Two of the larger pieces of different kinds trade places.
  void swap_two_large() {
    std::vector<std::size_t> by_area(wish_.kinds.size());
    for (std::size_t i = 0; i < by_area.size(); ++i)
      by_area[i] = i;
    std::stable_sort(by_area.begin(), by_area.end(), [this](std::size_t a, std::size_t b) {
      return figures_.area_um2(wish_.kinds[a]) > figures_.area_um2(wish_.kinds[b]);
    });
    Chance& chance = separation_.chance();
    const std::size_t large = std::max<std::size_t>(2, by_area.size() * 3 / 4);
    for (int tries = 0; tries < 50; ++tries) {
      const std::size_t a = by_area[chance.below(std::min(large, by_area.size()))],
                        b = by_area[chance.below(std::min(large, by_area.size()))];
      if (wish_.kinds[a] == wish_.kinds[b])
        continue;
      const Item first = separation_.items()[a], second = separation_.items()[b];
      separation_.put(a, {first.figure, 0, second.x, second.z});
      separation_.put(b, {second.figure, 0, first.x, first.z});
      return;
    }
  }

  void compress() {
    const double begun = share_done();
    while (!ended()) {
      const double done = (share_done() - begun) / std::max(1e-9, 1 - begun);
      const double squeeze = first_squeeze * std::pow(last_squeeze / first_squeeze, std::clamp(done, 0.0, 1.0));
      shorten(squeeze * static_cast<double>(best_.length_um));
      if (separation_.separate(short_patience))
        keep();
    }
  }

  struct Failed {
    double overlap = 0;
    std::vector<Item> items;
  };

  const Figures& figures_;
  const StripWish& wish_;
  std::int64_t length_ = 0;
  std::int64_t least_ = 0;       ///< no strip is shorter than its widest piece
  std::int64_t work_beside_ = 0; ///< beside that of the separation
  double until_ = 1;             ///< share of the budget at which the present phase ends
  Strip best_;
  Failed failed_;
  Separation separation_;
};

} // namespace

Strip shortest_strip(const Figures& figures, const StripWish& wish) { return Search(figures, wish).run(); }

} // namespace fanwright::sheets
