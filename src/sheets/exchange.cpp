#include "sheets/exchange.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace fanwright::sheets {

namespace {

constexpr Patience patience{60, 1, 2};
constexpr int most_in_vain = 40;       // tries in a row
constexpr double most_worse = 1.1;     // than the least overlap since the start, for a try that is kept
constexpr double in_one_room = 0.3;    // of the tries: pieces change places in a room
constexpr double most_larger = 2;      // of the two, by area
constexpr std::size_t most_drawn = 10; // pairs, of which one is taken
constexpr int most_asked = 1000;       // to draw them

/// The item in the middle of where another one lies.
Item middle_on(const Figures& figures, const Item& item, const Item& there) {
  const Extent &box = figures[item.figure].box, &its = figures[there.figure].box;
  return {item.figure, there.room,
          there.x + static_cast<double>(its.left + its.right - box.left - box.right) / 2,
          there.z + static_cast<double>(its.bottom + its.top - box.bottom - box.top) / 2};
}

} // namespace

Exchange::Exchange(const Figures& figures, std::uint64_t seed, std::function<bool()> stop)
    : figures_(figures), stop_(std::move(stop)), separation_(figures, seed, stop_) {}

void Exchange::start(std::vector<Extent> rooms, std::vector<Item> items) {
  rooms_ = std::move(rooms);
  items_ = std::move(items);
  overlaps_.clear();
  paper_.assign(rooms_.size(), 0);
  for (const Item& item : items_)
    paper_[item.room] += figures_.area_um2(figures_[item.figure].kind);
  for (std::size_t room = 0; room < rooms_.size(); ++room)
    overlaps_.push_back(overlap_in(room));
  least_ = overlap();
}

double Exchange::overlap() const { return std::accumulate(overlaps_.begin(), overlaps_.end(), 0.0); }

double Exchange::overlap_in(std::size_t room) const {
  double sum = 0;
  for (std::size_t a = 0; a < items_.size(); ++a)
    for (std::size_t b = a + 1; b < items_.size(); ++b)
      if (const Item &one = items_[a], &other = items_[b]; one.room == room && other.room == room)
        sum += figures_.depth(one.figure, other.figure, other.x - one.x, other.z - one.z);
  return sum;
}

bool Exchange::may_change_places(std::size_t one, std::size_t other) const {
  const Figure &here = figures_[items_[one].figure], &there = figures_[items_[other].figure];
  const double larger = figures_.area_um2(here.kind) / figures_.area_um2(there.kind);
  return here.kind != there.kind && larger < most_larger && larger > 1 / most_larger &&
         fits(places_in(rooms_[items_[other].room], here.box)) && fits(places_in(rooms_[items_[one].room], there.box));
}

/// How full the fuller one of the pair's rooms would be.
double Exchange::fuller_after(const Pair& pair) const {
  const Item &one = items_[pair.one], &other = items_[pair.other];
  const double more = figures_.area_um2(figures_[other.figure].kind) - figures_.area_um2(figures_[one.figure].kind);
  const auto share = [this](std::size_t room, double paper) {
    return paper / (static_cast<double>(rooms_[room].width()) * static_cast<double>(rooms_[room].height()));
  };
  return std::max(share(one.room, paper_[one.room] + more), share(other.room, paper_[other.room] - more));
}

/// Of some pairs of which the first lies in a room with overlap, the one that leaves its rooms most evenly full; of how
/// many is left to chance.
std::optional<Exchange::Pair> Exchange::draw() {
  Chance& chance = separation_.chance();
  const bool within = rooms_.size() == 1 || chance.share() < in_one_room;
  const std::size_t wanted = within ? 1 : 1 + chance.below(most_drawn);
  std::optional<Pair> chosen;
  double evenest = 0;
  for (std::size_t asked = 0, drawn = 0; asked < most_asked && drawn < wanted; ++asked) {
    const Pair pair{chance.below(items_.size()), chance.below(items_.size())};
    const std::size_t room = items_[pair.one].room;
    if (overlaps_[room] == 0 || (room == items_[pair.other].room) != within || !may_change_places(pair.one, pair.other))
      continue;
    ++drawn;
    const double fuller = fuller_after(pair);
    if (!chosen || fuller < evenest)
      chosen = pair, evenest = fuller;
  }
  return chosen;
}

/// True when what came of it is kept.
bool Exchange::try_once(const Pair& pair) {
  const Item &one = items_[pair.one], &other = items_[pair.other];
  std::vector<std::size_t> rooms{one.room};
  if (other.room != one.room)
    rooms.push_back(other.room);
  std::vector<std::size_t> indices;
  std::vector<Item> items;
  std::vector<Extent> spaces;
  double before = 0;
  for (std::size_t r = 0; r < rooms.size(); ++r) {
    spaces.push_back(rooms_[rooms[r]]);
    before += overlaps_[rooms[r]];
  }
  for (std::size_t i = 0; i < items_.size(); ++i) {
    const Item item = i == pair.one     ? middle_on(figures_, one, other)
                      : i == pair.other ? middle_on(figures_, other, one)
                                        : items_[i];
    const auto room = std::find(rooms.begin(), rooms.end(), item.room);
    if (room == rooms.end())
      continue;
    indices.push_back(i);
    items.push_back(item);
    items.back().room = static_cast<std::size_t>(room - rooms.begin());
  }
  separation_.start(std::move(spaces), std::move(items));
  separation_.separate(patience);
  const double change = separation_.overlap() - before;
  if (change > 0 && overlap() + change > most_worse * least_)
    return false;
  std::vector<Item> all = items_;
  for (std::size_t i = 0; i < indices.size(); ++i) {
    all[indices[i]] = separation_.items()[i];
    all[indices[i]].room = rooms[all[indices[i]].room];
  }
  const double least = least_;
  start(std::move(rooms_), std::move(all));
  least_ = std::min(least, least_);
  return true;
}

bool Exchange::run() {
  for (int in_vain = 0; in_vain < most_in_vain && overlap() > 0 && !(stop_ && stop_()); ++in_vain) {
    const std::optional<Pair> pair = draw();
    if (!pair)
      return false;
    if (try_once(*pair))
      in_vain = -1;
  }
  return overlap() == 0;
}

} // namespace fanwright::sheets
