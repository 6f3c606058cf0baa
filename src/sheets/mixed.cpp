#include "sheets/mixed.h"

#include "sheets/exchange.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace fanwright::sheets {

namespace {

constexpr double easy_density = 0.7; // of the first try; denser ones come from giving up rooms
constexpr Patience first_patience{60, 2, 4}, patience{100, 2, 4};

class RoomSearch {
public:
  RoomSearch(const Figures& figures, const MixedWish& wish)
      : figures_(figures), wish_(wish), separation_(figures, wish.seed, stop(), Manner::quick),
        exchange_(figures, wish.seed + 1, stop()) {}

  Mixed run() {
    first();
    while (!best_.items.empty() && best_.rooms > wish_.fewest && !stuck_ && !ended())
      give_up_a_room();
    best_.work = work();
    return best_;
  }

private:
  std::int64_t work() const { return separation_.work() + exchange_.work(); }

  std::function<bool()> stop() const {
    return [this] { return ended(); };
  }

  bool ended() const {
    if (wish_.progress)
      wish_.progress(
          std::min(1.0, static_cast<double>(work()) / static_cast<double>(std::max<std::int64_t>(1, wish_.work))));
    // The first answer is worth waiting for: it may take as much again as was granted.
    return work() >= (best_.items.empty() ? 2 : 1) * wish_.work || (wish_.stop && wish_.stop());
  }

  static double area(const Extent& room) {
    return static_cast<double>(room.width()) * static_cast<double>(room.height());
  }

  std::vector<Extent> first_rooms(std::size_t count) const {
    return {wish_.rooms.begin(), wish_.rooms.begin() + static_cast<std::ptrdiff_t>(count)};
  }

  /// A stance that fits the room, or none.
  std::optional<std::size_t> fitting(std::size_t kind, const Extent& room) {
    std::vector<std::size_t> figures;
    for (std::size_t figure = figures_.first(kind); figure < figures_.first(kind + 1); ++figure)
      if (fits(places_in(room, figures_[figure].box)))
        figures.push_back(figure);
    if (figures.empty())
      return std::nullopt;
    return figures[separation_.chance().below(figures.size())];
  }

  Item anywhere_in(std::size_t room, std::size_t figure) {
    const Extent& space = wish_.rooms[room];
    Chance& chance = separation_.chance();
    return {figure, room, chance.between(static_cast<double>(space.left), static_cast<double>(space.right)),
            chance.between(static_cast<double>(space.bottom), static_cast<double>(space.top))};
  }

  /// Puts the item into the emptiest of the first `rooms` that takes it; `used` is the paper in each so far.
  bool assign(std::size_t kind, std::size_t rooms, std::vector<double>& used, Item& item) {
    std::optional<std::size_t> chosen, figure;
    for (std::size_t room = 0; room < rooms; ++room)
      if (!chosen || area(wish_.rooms[room]) - used[room] > area(wish_.rooms[*chosen]) - used[*chosen])
        if (const auto stance = fitting(kind, wish_.rooms[room]))
          chosen = room, figure = stance;
    if (!chosen)
      return false;
    used[*chosen] += figures_.area_um2(kind);
    item = anywhere_in(*chosen, *figure);
    return true;
  }

  void first() {
    std::vector<std::size_t> by_area(wish_.kinds.size());
    std::iota(by_area.begin(), by_area.end(), 0);
    std::stable_sort(by_area.begin(), by_area.end(), [this](std::size_t a, std::size_t b) {
      return figures_.area_um2(wish_.kinds[a]) > figures_.area_um2(wish_.kinds[b]);
    });
    double wanted = 0;
    for (const std::size_t kind : wish_.kinds)
      wanted += figures_.area_um2(kind) / easy_density;
    double offered = 0;
    for (std::size_t rooms = 1; rooms <= wish_.rooms.size() && !ended(); ++rooms) {
      offered += area(wish_.rooms[rooms - 1]);
      if (rooms < wish_.fewest || (offered < wanted && rooms < wish_.rooms.size()))
        continue;
      std::vector<Item> items(wish_.kinds.size());
      std::vector<double> used(rooms, 0);
      if (!std::all_of(by_area.begin(), by_area.end(),
                       [&](std::size_t i) { return assign(wish_.kinds[i], rooms, used, items[i]); }))
        continue;
      separation_.start(first_rooms(rooms), std::move(items));
      if (separation_.separate(first_patience)) {
        best_ = {separation_.items(), rooms, 0};
        return;
      }
    }
  }

  /// The pieces of one room go to the others; the last room takes its place in the count.
  void give_up_a_room() {
    const std::size_t rooms = best_.rooms - 1;
    std::vector<double> used(best_.rooms, 0);
    for (std::size_t i = 0; i < best_.items.size(); ++i)
      used[best_.items[i].room] += figures_.area_um2(wish_.kinds[i]);
    // Rooms are given up from the end, where the dearer or smaller ones stand; alike ones trade contents.
    std::size_t emptiest = rooms;
    for (std::size_t room = 0; room < rooms; ++room)
      if (wish_.rooms[room].width() == wish_.rooms[rooms].width() &&
          wish_.rooms[room].height() == wish_.rooms[rooms].height() && used[room] < used[emptiest])
        emptiest = room;
    std::vector<Item> items = best_.items;
    std::swap(used[emptiest], used[rooms]);
    bool possible = true;
    for (std::size_t i = 0; i < items.size(); ++i)
      if (items[i].room == emptiest)
        possible = possible && assign(wish_.kinds[i], rooms, used, items[i]);
      else if (items[i].room == rooms)
        items[i].room = emptiest;
    if (!possible) {
      stuck_ = true;
      return;
    }
    bring_apart(rooms, std::move(items));
  }

  void bring_apart(std::size_t rooms, std::vector<Item> items) {
    separation_.start(first_rooms(rooms), std::move(items));
    while (!ended()) {
      if (separation_.separate(patience)) {
        best_ = {separation_.items(), rooms, 0};
        return;
      }
      exchange_.start(first_rooms(rooms), separation_.items());
      if (exchange_.run()) {
        best_ = {exchange_.items(), rooms, 0};
        return;
      }
      separation_.start(first_rooms(rooms), exchange_.items());
      shake(rooms);
    }
  }

  /// A few pieces change places with pieces of other kinds, in the same room or another.
  void shake(std::size_t rooms) {
    Chance& chance = separation_.chance();
    const std::size_t count = separation_.items().size();
    for (std::size_t swaps = 0; swaps < std::max<std::size_t>(1, rooms); ++swaps) {
      const std::size_t a = chance.below(count), b = chance.below(count);
      const Item first = separation_.items()[a], second = separation_.items()[b];
      if (wish_.kinds[a] == wish_.kinds[b] || !fits(places_in(wish_.rooms[second.room], figures_[first.figure].box)) ||
          !fits(places_in(wish_.rooms[first.room], figures_[second.figure].box)))
        continue;
      separation_.put(a, {first.figure, second.room, second.x, second.z});
      separation_.put(b, {second.figure, first.room, first.x, first.z});
    }
    separation_.forget_weights();
  }

  const Figures& figures_;
  const MixedWish& wish_;
  Mixed best_;
  bool stuck_ = false; ///< the last room holds a piece that fits no other
  Separation separation_;
  Exchange exchange_;
};

} // namespace

Mixed fewest_rooms(const Figures& figures, const MixedWish& wish) { return RoomSearch(figures, wish).run(); }

std::vector<Item> drawn_left(const Figures& figures, const Extent& room, std::vector<Item> items, std::int64_t work,
                             std::uint64_t seed, const std::function<bool()>& stop) {
  constexpr double first_share = 0.2, least_um = 500;
  const Separation* watched = nullptr;
  const auto ended = [&] { return watched->work() >= work || (stop && stop()); };
  Separation separation(figures, seed, ended);
  watched = &separation;
  const auto right_end = [&](const std::vector<Item>& laid) {
    double right = static_cast<double>(room.left);
    for (const Item& item : laid)
      right = std::max(right, item.x + static_cast<double>(figures[item.figure].box.right));
    return right;
  };
  double step = first_share * (right_end(items) - static_cast<double>(room.left));
  while (step > least_um && !ended()) {
    Extent narrower = room;
    narrower.right = static_cast<std::int64_t>(right_end(items) - step);
    const bool fit = std::all_of(items.begin(), items.end(),
                                 [&](const Item& item) { return fits(places_in(narrower, figures[item.figure].box)); });
    if (fit)
      separation.start({narrower}, items);
    if (fit && separation.separate({40, 1}))
      items = separation.items();
    else
      step /= 2;
  }
  return items;
}

} // namespace fanwright::sheets
