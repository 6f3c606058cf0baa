#include "sheets/separation.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace fanwright::sheets {

namespace {

constexpr double most_weight = 1e20;     // far beyond all others, and far from what a float cannot hold
constexpr double clearly_better = 0.98;  // of the overlap, to earn another try
constexpr std::size_t cells_a_side = 32; // of a room
constexpr std::size_t bits_a_word = 64;
constexpr double nearly_apart_um = 300; // overlap for each item, where giving way together may do
constexpr double clear_um = 3;          // of what is pushed out, by a push that is right to some micrometres
constexpr int most_slips = 8;
constexpr std::size_t most_sides = 16; // of a place, asked in pairs
constexpr double least_turn = 0.05;    // between two sides, sine: where flatter ones meet is far off

/// The column or row of a place given in cells.
std::size_t cell_at(double place) {
  return static_cast<std::size_t>(std::clamp(place, 0.0, static_cast<double>(cells_a_side - 1)));
}

} // namespace

Separation::Separation(const Figures& figures, std::uint64_t seed, std::function<bool()> stop, Manner manner)
    : figures_(figures), settings_(settings_for(figures, manner)), chance_(seed), stop_(std::move(stop)) {}

Separation::Settings Separation::settings_for(const Figures& figures, Manner manner) {
  if (!figures.wound())
    return {{25, 10, 6, 5}, 0.95, 0.3, 1.6, false};
  // Places among many corners cost more: fewer are looked at.
  constexpr Sampling few{6, 5, 4, 2};
  return manner == Manner::quick ? Settings{few, 0.9, 0.1, 3, true} : Settings{few, 0.95, 0.3, 1.6, false};
}

void Separation::start(std::vector<Extent> rooms, std::vector<Item> items) {
  // With few corners each in turn finds what the other does not; with many the quick raise loses.
  raise_ = !figures_.wound() && starts_++ % 2 == 1 ? Raise{1.3, 2.5} : Raise{1.15, 1.6};
  rooms_ = std::move(rooms);
  items_ = std::move(items);
  depths_.assign(items_.size() * items_.size(), 0);
  for (Item& item : items_)
    bring_in(item);
  for (std::size_t i = 0; i < items_.size(); ++i)
    measure(i);
  scales_.clear();
  for (const Item& item : items_)
    scales_.push_back(std::pow(figures_.area_um2(figures_[item.figure].kind), 0.35) / 1e4);
  double area = 0;
  for (const Item& item : items_)
    area += figures_.area_um2(figures_[item.figure].kind);
  shallow_ = settings_.shallow * std::sqrt(area / static_cast<double>(items_.size()));
  forget_weights();
}

void Separation::change_rooms(std::vector<Extent> rooms) {
  rooms_ = std::move(rooms);
  for (Item& item : items_)
    bring_in(item);
  for (std::size_t i = 0; i < items_.size(); ++i)
    measure(i);
}

void Separation::put(std::size_t index, const Item& item) {
  items_[index] = item;
  bring_in(items_[index]);
  measure(index);
}

void Separation::forget_weights() { weights_.assign(items_.size() * items_.size(), 1); }

void Separation::bring_in(Item& item) const {
  const std::size_t kind = figures_[item.figure].kind;
  const auto fit = [&](std::size_t figure) { return fits(places_in(rooms_[item.room], figures_[figure].box)); };
  // A room may have become too narrow for how the item lies; another stance of it may still fit.
  for (std::size_t figure = figures_.first(kind); !fit(item.figure) && figure < figures_.first(kind + 1); ++figure)
    if (fit(figure))
      item.figure = figure;
  const Extent places = places_in(rooms_[item.room], figures_[item.figure].box);
  item.x = std::max(std::min(item.x, static_cast<double>(places.right)), static_cast<double>(places.left));
  item.z = std::max(std::min(item.z, static_cast<double>(places.top)), static_cast<double>(places.bottom));
}

void Separation::measure(std::size_t index) {
  const Item& item = items_[index];
  for (std::size_t k = 0; k < items_.size(); ++k) {
    const Item& other = items_[k];
    const double deep = k == index || other.room != item.room
                            ? 0
                            : figures_.depth(item.figure, other.figure, other.x - item.x, other.z - item.z);
    depth(index, k) = depth(k, index) = deep;
  }
}

/// The same, where its surroundings have been gathered.
void Separation::measure_near(std::size_t index) {
  const Item& item = items_[index];
  for (std::size_t k = 0; k < items_.size(); ++k)
    depth(index, k) = depth(k, index) = 0;
  const Surroundings& there = around(item.figure, item.room);
  visit_near(there, item.x, item.z, [&](const KeepOut::Round& obstacle) {
    const std::size_t k = there.items[static_cast<std::size_t>(&obstacle - there.obstacles.data())];
    const Item& other = items_[k];
    depth(index, k) = depth(k, index) = figures_.depth(item.figure, other.figure, other.x - item.x, other.z - item.z);
    return true;
  });
}

double Separation::overlap() const {
  double sum = 0;
  for (std::size_t a = 0; a < items_.size(); ++a)
    for (std::size_t b = a + 1; b < items_.size(); ++b)
      sum += depths_[a * items_.size() + b];
  return sum;
}

void Separation::raise_weights() {
  double deepest = 0;
  for (const double deep : depths_)
    deepest = std::max(deepest, deep);
  const double per_depth = (raise_.most - raise_.least) / deepest;
  for (std::size_t i = 0; i < depths_.size(); ++i) {
    const double raised = std::min(most_weight, weights_[i] * (raise_.least + per_depth * depths_[i]));
    const double faded = std::max(1.0, weights_[i] * settings_.fading);
    weights_[i] = depths_[i] > 0 ? raised : faded;
  }
}

void Separation::gather(std::size_t index, std::size_t figure, std::optional<std::size_t> only_room) {
  constexpr double side = static_cast<double>(cells_a_side);
  std::vector<std::size_t> standing(rooms_.size(), 0);
  for (const Item& item : items_)
    ++standing[item.room];
  const std::size_t first = only_room.value_or(0), end = only_room ? first + 1 : rooms_.size();
  for (std::size_t r = first; r < end; ++r) {
    Surroundings& there = around(figure, r);
    const Extent places = places_in(rooms_[r], figures_[figure].box);
    there.left = static_cast<double>(places.left), there.right = static_cast<double>(places.right);
    there.bottom = static_cast<double>(places.bottom), there.top = static_cast<double>(places.top);
    there.per_x = side / static_cast<double>(std::max<std::int64_t>(1, places.right - places.left));
    there.per_z = side / static_cast<double>(std::max<std::int64_t>(1, places.top - places.bottom));
    there.obstacles.clear();
    there.items.clear();
    there.words = (standing[r] + bits_a_word - 1) / bits_a_word;
    there.columns.assign((cells_a_side + 1) * there.words, 0);
    there.rows.assign((cells_a_side + 1) * there.words, 0);
  }
  for (std::size_t k = 0; k < items_.size(); ++k)
    if (k != index && (!only_room || items_[k].room == *only_room))
      add_obstacle(index, k, figure);
  // So far the bits tell where an obstacle begins and where it is over.
  for (std::size_t r = first; r < end; ++r) {
    Surroundings& there = around(figure, r);
    for (std::size_t i = there.words; i < there.columns.size(); ++i) {
      there.columns[i] ^= there.columns[i - there.words];
      there.rows[i] ^= there.rows[i - there.words];
    }
  }
}

void Separation::add_obstacle(std::size_t index, std::size_t other_index, std::size_t figure) {
  constexpr double side = static_cast<double>(cells_a_side);
  const Item& other = items_[other_index];
  const Apart& pair = figures_.apart(other.figure, figure);
  const KeepOut& region = *pair.region;
  const bool turned = pair.sign < 0;
  const double box_left = other.x + (turned ? -region.right() : region.left());
  const double box_right = other.x + (turned ? -region.left() : region.right());
  const double box_bottom = other.z + (turned ? -region.top() : region.bottom());
  const double box_top = other.z + (turned ? -region.bottom() : region.top());
  Surroundings& there = around(figure, other.room);
  const double left = (box_left - there.left) * there.per_x, right = (box_right - there.left) * there.per_x;
  const double bottom = (box_bottom - there.bottom) * there.per_z, top = (box_top - there.bottom) * there.per_z;
  if (right < 0 || left > side || top < 0 || bottom > side)
    return;
  const std::size_t word = there.obstacles.size() / bits_a_word;
  const std::uint64_t bit = std::uint64_t{1} << there.obstacles.size() % bits_a_word;
  there.obstacles.push_back(region.round(other.x, other.z, pair.sign));
  there.obstacles.back().set_weight(weight(index, other_index) * scales_[index] * scales_[other_index]);
  there.items.push_back(other_index);
  there.columns[cell_at(left) * there.words + word] ^= bit;
  there.columns[(cell_at(right) + 1) * there.words + word] ^= bit;
  there.rows[cell_at(bottom) * there.words + word] ^= bit;
  there.rows[(cell_at(top) + 1) * there.words + word] ^= bit;
}

/// Calls `visit` with the obstacles that may reach to the place, until it returns false.
template <class Visit> void Separation::visit_near(const Surroundings& around, double x, double z, const Visit& visit) {
  const std::uint64_t* const column = &around.columns[cell_at((x - around.left) * around.per_x) * around.words];
  const std::uint64_t* const row = &around.rows[cell_at((z - around.bottom) * around.per_z) * around.words];
  for (std::size_t word = 0; word < around.words; ++word)
    for (std::uint64_t bits = column[word] & row[word]; bits != 0; bits &= bits - 1)
      if (!visit(around.obstacles[word * bits_a_word + static_cast<std::size_t>(std::countr_zero(bits))]))
        return;
}

double Separation::loss_at(const Spotted& place, double x, double z, double cutoff) {
  ++work_;
  // Shallow overlaps count as the root of their depth, deep ones as the depth: area lies between the two.
  const float shallow = static_cast<float>(shallow_), limit = static_cast<float>(cutoff);
  float loss = 0;
  visit_near(around(place.figure, place.room), x, z, [&](const KeepOut::Round& obstacle) {
    const float depth = obstacle.about_depth(x, z);
    loss += obstacle.weight() * std::sqrt(depth * (depth + shallow));
    return loss < limit;
  });
  return static_cast<double>(loss);
}

void Separation::find_sides(const Spotted& place) {
  const Surroundings& there = around(place.figure, place.room);
  sides_.clear();
  visit_near(there, place.x, place.z, [&](const KeepOut::Round& obstacle) {
    if (auto side = obstacle.about_side(place.x, place.z, settings_.deep_ways_approx)) {
      side->depth += clear_um;
      sides_.push_back(*side);
    }
    return sides_.size() < most_sides;
  });
  sides_.push_back({there.left - place.x, 1, 0});
  sides_.push_back({place.x - there.right, -1, 0});
  sides_.push_back({there.bottom - place.z, 0, 1});
  sides_.push_back({place.z - there.top, 0, -1});
}

/// Overlap is least where two sides meet: between sides it bends downward. So from place to place: straight out of an
/// obstacle, or to where its side meets another one that is in the way.
void Separation::slip_out(Spotted& place) {
  const Surroundings& there = around(place.figure, place.room);
  for (int slips = 0; slips < most_slips && place.loss > 0; ++slips) {
    Spotted best = place;
    const auto look_at = [&](double along_x, double along_z) {
      const double x = std::clamp(place.x + along_x, there.left, there.right),
                   z = std::clamp(place.z + along_z, there.bottom, there.top);
      if (const double loss = loss_at(place, x, z, best.loss); loss < best.loss)
        best = {x, z, loss, place.figure, place.room};
    };
    ++work_;
    find_sides(place);
    for (std::size_t i = 0; i < sides_.size(); ++i) {
      const Side& out = sides_[i];
      if (out.depth <= clear_um)
        continue;
      const double along_x = out.x * out.depth, along_z = out.z * out.depth;
      look_at(along_x, along_z);
      for (std::size_t k = 0; k < sides_.size(); ++k) {
        const Side& way = sides_[k];
        const double turn = out.x * way.z - out.z * way.x;
        const bool in_the_way = way.x * along_x + way.z * along_z < way.depth;
        if (in_the_way && std::abs(turn) > least_turn && (k > i || way.depth <= clear_um))
          look_at((out.depth * way.z - way.depth * out.z) / turn, (out.x * way.depth - way.x * out.depth) / turn);
      }
    }
    if (best.loss >= place.loss)
      return;
    place = best;
  }
}

void Separation::look(Spotted place, std::vector<Spotted>& best) {
  const double cutoff =
      best.size() < settings_.sampling.refined ? std::numeric_limits<double>::infinity() : best.back().loss;
  place.loss = loss_at(place, place.x, place.z, cutoff);
  if (place.loss >= cutoff)
    return;
  if (best.size() == settings_.sampling.refined)
    best.pop_back();
  best.insert(std::upper_bound(best.begin(), best.end(), place,
                               [](const Spotted& a, const Spotted& b) { return a.loss < b.loss; }),
              place);
}

void Separation::sample(std::size_t index, std::size_t figure, bool anywhere, std::vector<Spotted>& best) {
  const Item& item = items_[index];
  const int anywhere_in_all =
      std::max(settings_.sampling.anywhere, settings_.sampling.a_room * static_cast<int>(rooms_.size()));
  for (int i = 0; i < anywhere_in_all; ++i) {
    const std::size_t room = chance_.below(rooms_.size());
    const Surroundings& there = around(figure, room);
    if (!there.fits())
      continue;
    const double x = chance_.between(there.left, there.right), z = chance_.between(there.bottom, there.top);
    look({x, z, 0, figure, room}, best);
  }
  const Surroundings& there = around(figure, item.room);
  if (anywhere || !there.fits())
    return;
  // Turned pieces stay where their middle was.
  const Extent& then = figures_[figure].box;
  const Item middle = middle_on(figures_, figure, item);
  for (int i = 0; i < settings_.sampling.nearby; ++i) {
    const double reach = i == 0 ? 0 : 0.5;
    const double x = middle.x + reach * chance_.between(-1, 1) * static_cast<double>(then.width());
    const double z = middle.z + reach * chance_.between(-1, 1) * static_cast<double>(then.height());
    look({std::clamp(x, there.left, there.right), std::clamp(z, there.bottom, there.top), 0, figure, item.room}, best);
  }
}

/// Room for what stands round an item of the kind.
void Separation::surround(std::size_t kind) {
  first_figure_ = figures_.first(kind);
  around_.resize(std::max(around_.size(), (figures_.first(kind + 1) - first_figure_) * rooms_.size()));
}

void Separation::settle(std::size_t index, bool anywhere) {
  const Item before = items_[index];
  const std::size_t kind = figures_[before.figure].kind;
  surround(kind);
  Spotted chosen{before.x, before.z, std::numeric_limits<double>::infinity(), before.figure, before.room};
  std::vector<Spotted> best;
  for (std::size_t figure = first_figure_; figure < figures_.first(kind + 1); ++figure) {
    gather(index, figure);
    if (!anywhere && figure == before.figure)
      chosen.loss = loss_at(chosen, before.x, before.z, std::numeric_limits<double>::infinity());
    sample(index, figure, anywhere, best);
  }
  for (Spotted& place : best) {
    slip_out(place);
    if (place.loss < chosen.loss)
      chosen = place;
  }
  items_[index] = {chosen.figure, chosen.room, chosen.x, chosen.z};
  measure_near(index);
}

bool Separation::overlaps(std::size_t index) const {
  const auto row = depths_.begin() + static_cast<std::ptrdiff_t>(index * items_.size());
  return std::any_of(row, row + static_cast<std::ptrdiff_t>(items_.size()), [](double deep) { return deep > 0; });
}

bool Separation::round(int trades) {
  std::vector<std::size_t> overlapping;
  for (std::size_t i = 0; i < items_.size(); ++i)
    if (overlaps(i))
      overlapping.push_back(i);
  if (overlapping.empty())
    return true;
  chance_.shuffle(overlapping);
  for (const std::size_t i : overlapping) {
    if (overlaps(i))
      settle(i, false);
    for (int tried = 0; tried < trades && overlaps(i) && !trade(i); ++tried) {
    }
  }
  return false;
}

bool Separation::separate(const Patience& patience) {
  std::vector<Item> best = items_;
  double least = overlap();
  for (int tries = 0; tries < patience.tries; ++tries) {
    const double before = least;
    for (int idle = 0; idle < patience.idle_rounds; ++idle) {
      if (stop_ && stop_())
        break;
      if (round(patience.trades))
        return true;
      const double now = overlap();
      if (now == 0)
        return true;
      if (now < least) {
        least = now, best = items_;
        idle = -1;
        if (now < nearly_apart_um * static_cast<double>(items_.size()) && relax())
          return true;
      }
      raise_weights();
    }
    items_ = best;
    for (std::size_t i = 0; i < items_.size(); ++i)
      measure(i);
    if (stop_ && stop_())
      return false;
    if (least < clearly_better * before)
      tries = -1;
  }
  return false;
}

} // namespace fanwright::sheets
