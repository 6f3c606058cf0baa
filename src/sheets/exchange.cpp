#include "sheets/exchange.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace fanwright::sheets {

namespace {

constexpr Patience patience{60, 1, 2};
constexpr int most_in_vain = 40;       // tries in a row
constexpr int most_idle = 200;         // tries without a clearly lesser overlap
constexpr double clearly_less = 0.98;  // than the least before
constexpr double most_worse = 1.1;     // than the least overlap since the start, for a try that is kept
constexpr double in_one_room = 0.3;    // of the tries: pieces change places in a room
constexpr double of_two_pairs = 0.5;   // of the others
constexpr double most_larger = 2;      // of the two, by area
constexpr std::size_t most_drawn = 10; // pairs, of which one is taken
constexpr int most_asked = 1000;       // to draw them

} // namespace

Exchange::Exchange(const Figures& figures, std::uint64_t seed, std::function<bool()> stop)
    : figures_(figures), stop_(std::move(stop)), separation_(figures, seed, stop_, Manner::quick) {}

void Exchange::start(std::vector<Extent> rooms, std::vector<Item> items) {
  rooms_ = std::move(rooms);
  items_ = std::move(items);
  overlaps_.assign(rooms_.size(), 0);
  paper_.assign(rooms_.size(), 0);
  for (std::size_t room = 0; room < rooms_.size(); ++room)
    measure(room);
  least_ = overlap();
}

double Exchange::overlap() const { return std::accumulate(overlaps_.begin(), overlaps_.end(), 0.0); }

void Exchange::measure(std::size_t room) {
  std::vector<const Item*> here;
  for (const Item& item : items_)
    if (item.room == room)
      here.push_back(&item);
  overlaps_[room] = 0, paper_[room] = 0;
  for (std::size_t a = 0; a < here.size(); ++a) {
    paper_[room] += figures_.area_um2(figures_[here[a]->figure].kind);
    for (std::size_t b = a + 1; b < here.size(); ++b)
      overlaps_[room] +=
          figures_.depth(here[a]->figure, here[b]->figure, here[b]->x - here[a]->x, here[b]->z - here[a]->z);
  }
}

/// How full the fuller one of the pairs' rooms would be.
double Exchange::fuller_after(const Pairs& pairs) const {
  const std::size_t room = items_[pairs[0].one].room, other_room = items_[pairs[0].other].room;
  double more = 0;
  for (const Pair& pair : pairs)
    more += figures_.area_um2(figures_[items_[pair.other].figure].kind) -
            figures_.area_um2(figures_[items_[pair.one].figure].kind);
  const auto share = [this](std::size_t of, double paper) {
    return paper / (static_cast<double>(rooms_[of].width()) * static_cast<double>(rooms_[of].height()));
  };
  return std::max(share(room, paper_[room] + more), share(other_room, paper_[other_room] - more));
}

/// Adds a pair of which the first lies in a room with overlap; of the rooms of the pairs that are there.
bool Exchange::draw_pair(bool within, Pairs& pairs) {
  Chance& chance = separation_.chance();
  for (int asked = 0; asked < most_asked; ++asked) {
    const Pair pair{chance.below(items_.size()), chance.below(items_.size())};
    const std::size_t room = items_[pair.one].room, other_room = items_[pair.other].room;
    if (overlaps_[room] == 0 || (room == other_room) != within ||
        !may_change_places(figures_, rooms_, items_[pair.one], items_[pair.other], most_larger))
      continue;
    const bool goes_with_them = std::all_of(pairs.begin(), pairs.end(), [&](const Pair& there) {
      return room == items_[there.one].room && other_room == items_[there.other].room && pair.one != there.one &&
             pair.other != there.other;
    });
    if (!goes_with_them)
      continue;
    pairs.push_back(pair);
    return true;
  }
  return false;
}

/// What the pairs' two rooms would hold, as numbers by kind, each with the room's size. Which of two rooms of one size
/// holds which does not matter.
Exchange::Contents Exchange::contents_after(const Pairs& pairs) const {
  const std::size_t room = items_[pairs[0].one].room, other_room = items_[pairs[0].other].room;
  Contents contents;
  for (const std::size_t one : {room, other_room}) {
    std::vector<std::int64_t> numbers(figures_.kinds(), 0);
    for (const Item& item : items_)
      numbers[figures_[item.figure].kind] += item.room == one ? 1 : 0;
    for (const Pair& pair : pairs) {
      const std::size_t goes = figures_[items_[pair.one].figure].kind, comes = figures_[items_[pair.other].figure].kind;
      numbers[one == room ? goes : comes] -= 1;
      numbers[one == room ? comes : goes] += 1;
    }
    numbers.insert(numbers.end(), {rooms_[one].width(), rooms_[one].height()});
    contents.push_back(std::move(numbers));
  }
  std::sort(contents.begin(), contents.end());
  return contents;
}

/// Of some exchanges of one pair or two that have not been tried, the one that leaves its rooms most evenly full; of
/// how many is left to chance.
Exchange::Pairs Exchange::draw(bool within) {
  Chance& chance = separation_.chance();
  const std::size_t wanted = within ? 1 : 1 + chance.below(most_drawn);
  Pairs chosen;
  double evenest = 0;
  for (std::size_t drawn = 0; drawn < wanted; ++drawn) {
    Pairs pairs;
    if (!draw_pair(within, pairs))
      break;
    if (!within && chance.share() < of_two_pairs)
      draw_pair(within, pairs);
    if (!within && tried_.contains(contents_after(pairs)))
      continue;
    const double fuller = fuller_after(pairs);
    if (chosen.empty() || fuller < evenest)
      chosen = pairs, evenest = fuller;
  }
  return chosen;
}

/// True when what came of it is kept.
bool Exchange::try_once(const Pairs& pairs) {
  std::vector<std::size_t> rooms{items_[pairs[0].one].room};
  if (const std::size_t other = items_[pairs[0].other].room; other != rooms[0]) {
    rooms.push_back(other);
    tried_.insert(contents_after(pairs));
  }
  std::vector<Item> all = items_;
  for (const Pair& pair : pairs) {
    all[pair.one] = middle_on(figures_, items_[pair.one].figure, items_[pair.other]);
    all[pair.other] = middle_on(figures_, items_[pair.other].figure, items_[pair.one]);
  }
  std::vector<std::size_t> indices;
  std::vector<Item> items;
  std::vector<Extent> spaces;
  double before = 0;
  for (const std::size_t room : rooms) {
    spaces.push_back(rooms_[room]);
    before += overlaps_[room];
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto room = std::find(rooms.begin(), rooms.end(), all[i].room);
    if (room == rooms.end())
      continue;
    indices.push_back(i);
    items.push_back(all[i]);
    items.back().room = static_cast<std::size_t>(room - rooms.begin());
  }
  separation_.start(std::move(spaces), std::move(items));
  separation_.separate(patience);
  const double change = separation_.overlap() - before;
  if (change > 0 && overlap() + change > most_worse * least_)
    return false;
  for (std::size_t i = 0; i < indices.size(); ++i) {
    all[indices[i]] = separation_.items()[i];
    all[indices[i]].room = rooms[all[indices[i]].room];
  }
  items_ = std::move(all);
  for (const std::size_t room : rooms)
    measure(room);
  least_ = std::min(least_, overlap());
  return true;
}

bool Exchange::run() {
  double before = least_;
  for (int in_vain = 0, idle = 0; overlap() > 0 && in_vain < most_in_vain && idle < most_idle; ++in_vain, ++idle) {
    const bool within = rooms_.size() == 1 || separation_.chance().share() < in_one_room;
    Pairs pairs = draw(within);
    if (pairs.empty())
      pairs = draw(!within);
    if (pairs.empty() || (stop_ && stop_()))
      return false;
    if (try_once(pairs))
      in_vain = -1;
    if (least_ < clearly_less * before)
      before = least_, idle = -1;
  }
  return overlap() == 0;
}

} // namespace fanwright::sheets
