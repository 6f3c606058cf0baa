#include "sheets/touching.h"

#include "sheets/exact.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::sheets {

namespace {

constexpr double clear_um = 2.5;      // that pieces keep where there is room for it: rounding takes up to 1.5
constexpr double clear_enough_um = 1; // less than clear_um, that is enough
constexpr double at_rest_um = 0.01;   // of pieces that fill the room exactly
constexpr double share_given = 0.8;   // by each of two: more than half comes to rest sooner
constexpr double neighbourhood_um = 1000;
constexpr double less_clear_um = 0.5; // each time that they do not find it
constexpr int most_sweeps = 600;
constexpr int looked_back = 20;        // sweeps, over which the deepest overlap has to shrink
constexpr double shrinking = 0.8;      // to that
constexpr std::int64_t longer_um = 40; // where pieces do not come to rest: what they sank adds up along the room
constexpr int most_longer = 8;

} // namespace

Touching::Touching(const std::vector<SearchedKind>& kinds)
    : searched_(kinds, -sunk_um - search_slack_um), kept_(kinds, clear_um - search_slack_um) {
  for (const SearchedKind& kind : kinds)
    for (const Stance stance : kind.stances)
      shapes_.push_back(laid(kind.profile.shape, stance));
}

bool Touching::bring_apart(Mended& mended, const Extent& room) const {
  std::vector<Item>& items = mended.items;
  const std::vector<Neighbours> pairs = neighbours(kept_, items, neighbourhood_um);
  const auto bring_in = [&](Item& item) {
    const Extent places = places_in(room, kept_[item.figure].box);
    item.x = std::clamp(item.x, static_cast<double>(places.left), static_cast<double>(places.right));
    item.z = std::clamp(item.z, static_cast<double>(places.bottom), static_cast<double>(places.top));
  };
  double clear = clear_um, before = std::numeric_limits<double>::infinity();
  for (int sweeps = 1; sweeps <= most_sweeps; ++sweeps) {
    double deepest = 0;
    mended.work += static_cast<std::int64_t>(pairs.size());
    for (const auto& [a, b, about] : pairs) {
      Item &one = items[a], &other = items[b];
      const std::optional<Side> side = about.side(other.x - one.x, other.z - one.z);
      const double depth = side ? side->depth - clear_um + clear : 0;
      if (depth <= 0)
        continue;
      deepest = std::max(deepest, depth);
      other.x += share_given * depth * side->x, other.z += share_given * depth * side->z;
      one.x -= share_given * depth * side->x, one.z -= share_given * depth * side->z;
      bring_in(one);
      bring_in(other);
    }
    if (deepest < (clear == clear_um ? clear_enough_um : at_rest_um))
      return true;
    if (sweeps % looked_back != 0)
      continue;
    if (deepest > shrinking * before) {
      if (clear == 0)
        return false;
      clear = std::max(0.0, clear - less_clear_um);
    }
    before = deepest;
  }
  return false;
}

bool Touching::sound(const std::vector<Item>& items) const {
  std::vector<Shape> shapes;
  shapes.reserve(items.size());
  for (const Item& item : items)
    shapes.push_back(moved(shapes_[item.figure], {std::llround(item.x), std::llround(item.z)}));
  return !first_conflict(shapes, 0);
}

Mended Touching::apart(const std::vector<Item>& items, const Extent& room) const {
  Mended mended;
  Extent longer = room;
  for (int tries = 0; tries <= most_longer; ++tries, longer.right += longer_um) {
    mended.items = items;
    if (!bring_apart(mended, longer))
      continue;
    for (Item& item : mended.items)
      item.x = std::round(item.x), item.z = std::round(item.z);
    if (sound(mended.items))
      return mended;
  }
  mended.items.clear();
  return mended;
}

} // namespace fanwright::sheets
