#include "sheets/separation.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace fanwright::sheets {

namespace {

constexpr double fading = 0.95;          // of a weight whose pair is apart
constexpr double clearly_better = 0.98;  // of the overlap, to earn another try
constexpr std::size_t cells_a_side = 32; // of a room
constexpr std::size_t bits_a_word = 64;
constexpr double nearly_apart_um = 300; // overlap for each item, where giving way together may do
constexpr double clear_um = 3;          // of what is pushed out, by a push that is right to some micrometres
constexpr int most_pushes = 8;
constexpr double coarse_step = 0.1, coarse_end = 0.02; // of an item's size
constexpr double fine_end_um = 100;                    // what is finer, pushing out and giving way find

/// The column or row of a place given in cells.
std::size_t cell_at(double place) {
  return static_cast<std::size_t>(std::clamp(place, 0.0, static_cast<double>(cells_a_side - 1)));
}

double size_of(const Figure& figure) { return static_cast<double>(std::min(figure.box.width(), figure.box.height())); }

} // namespace

Separation::Separation(const Figures& figures, std::vector<Extent> rooms, std::uint64_t seed,
                       std::function<bool()> stop)
    : figures_(figures), sampling_(figures.wound() ? Sampling{6, 5, 4, 2} : Sampling{25, 10, 6, 5}),
      rooms_(std::move(rooms)), chance_(seed), stop_(std::move(stop)) {}

void Separation::start(std::vector<Item> items) {
  // With few corners each in turn finds what the other does not; with many the quick raise loses.
  raise_ = !figures_.wound() && starts_++ % 2 == 1 ? Raise{1.3, 2.5} : Raise{1.15, 1.6};
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
  shallow_ = 0.3 * std::sqrt(area / static_cast<double>(items_.size()));
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
  for (std::size_t i = 0; i < depths_.size(); ++i)
    weights_[i] = depths_[i] > 0 ? weights_[i] * (raise_.least + (raise_.most - raise_.least) * depths_[i] / deepest)
                                 : std::max(1.0, weights_[i] * fading);
}

void Separation::gather(std::size_t index, std::size_t figure) {
  constexpr double side = static_cast<double>(cells_a_side);
  std::vector<std::size_t> standing(rooms_.size(), 0);
  for (const Item& item : items_)
    ++standing[item.room];
  for (std::size_t r = 0; r < rooms_.size(); ++r) {
    Surroundings& there = around(figure, r);
    const Extent places = places_in(rooms_[r], figures_[figure].box);
    there.left = static_cast<double>(places.left), there.bottom = static_cast<double>(places.bottom);
    there.per_x = side / static_cast<double>(std::max<std::int64_t>(1, places.right - places.left));
    there.per_z = side / static_cast<double>(std::max<std::int64_t>(1, places.top - places.bottom));
    there.obstacles.clear();
    there.words = (standing[r] + bits_a_word - 1) / bits_a_word;
    there.columns.assign(cells_a_side * there.words, 0);
    there.rows.assign(cells_a_side * there.words, 0);
  }
  for (std::size_t k = 0; k < items_.size(); ++k)
    if (k != index)
      add_obstacle(index, k, figure);
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
  for (std::size_t column = cell_at(left); column <= cell_at(right); ++column)
    there.columns[column * there.words + word] |= bit;
  for (std::size_t row = cell_at(bottom); row <= cell_at(top); ++row)
    there.rows[row * there.words + word] |= bit;
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

/// From obstacle to obstacle: out of whichever leaves least overlap with the others.
void Separation::push_out(Spotted& place) {
  const Extent places = places_in(rooms_[place.room], figures_[place.figure].box);
  for (int pushes = 0; pushes < most_pushes && place.loss > 0; ++pushes) {
    Spotted best = place;
    ++work_;
    visit_near(around(place.figure, place.room), place.x, place.z, [&](const KeepOut::Round& obstacle) {
      const Push push = obstacle.about_push(place.x, place.z);
      if (push.depth <= 0)
        return true;
      const double over = (push.depth + clear_um) / push.depth;
      const double x =
          std::clamp(place.x + push.x * over, static_cast<double>(places.left), static_cast<double>(places.right));
      const double z =
          std::clamp(place.z + push.z * over, static_cast<double>(places.bottom), static_cast<double>(places.top));
      if (const double loss = loss_at(place, x, z, best.loss); loss < best.loss)
        best = {x, z, loss, place.figure, place.room};
      return true;
    });
    if (best.loss >= place.loss)
      return;
    place = best;
  }
}

void Separation::look(Spotted place, std::vector<Spotted>& best) {
  const double cutoff = best.size() < sampling_.refined ? std::numeric_limits<double>::infinity() : best.back().loss;
  place.loss = loss_at(place, place.x, place.z, cutoff);
  if (place.loss >= cutoff)
    return;
  if (best.size() == sampling_.refined)
    best.pop_back();
  best.insert(std::upper_bound(best.begin(), best.end(), place,
                               [](const Spotted& a, const Spotted& b) { return a.loss < b.loss; }),
              place);
}

void Separation::sample(std::size_t index, std::size_t figure, bool anywhere, std::vector<Spotted>& best) {
  const Item& item = items_[index];
  const int anywhere_in_all = std::max(sampling_.anywhere, sampling_.a_room * static_cast<int>(rooms_.size()));
  for (int i = 0; i < anywhere_in_all; ++i) {
    const std::size_t room = chance_.below(rooms_.size());
    const Extent places = places_in(rooms_[room], figures_[figure].box);
    if (!fits(places))
      continue;
    const double x = chance_.between(static_cast<double>(places.left), static_cast<double>(places.right));
    const double z = chance_.between(static_cast<double>(places.bottom), static_cast<double>(places.top));
    look({x, z, 0, figure, room}, best);
  }
  const Extent places = places_in(rooms_[item.room], figures_[figure].box);
  if (anywhere || !fits(places))
    return;
  // Turned pieces stay where their middle was.
  const Extent &now = figures_[item.figure].box, &then = figures_[figure].box;
  const double middle_x = item.x + static_cast<double>(now.left + now.right - then.left - then.right) / 2;
  const double middle_z = item.z + static_cast<double>(now.bottom + now.top - then.bottom - then.top) / 2;
  for (int i = 0; i < sampling_.nearby; ++i) {
    const double reach = i == 0 ? 0 : 0.5;
    const double x = middle_x + reach * chance_.between(-1, 1) * static_cast<double>(then.width());
    const double z = middle_z + reach * chance_.between(-1, 1) * static_cast<double>(then.height());
    look({std::clamp(x, static_cast<double>(places.left), static_cast<double>(places.right)),
          std::clamp(z, static_cast<double>(places.bottom), static_cast<double>(places.top)), 0, figure, item.room},
         best);
  }
}

void Separation::refine(Spotted& place, double step, double least_step) {
  const Extent places = places_in(rooms_[place.room], figures_[place.figure].box);
  const double left = static_cast<double>(places.left), right = static_cast<double>(places.right);
  const double bottom = static_cast<double>(places.bottom), top = static_cast<double>(places.top);
  double step_x = step, step_z = step;
  while (place.loss > 0 && std::max(step_x, step_z) > least_step) {
    const std::size_t axis = chance_.below(4);
    const double along_x = axis == 1 ? 0 : step_x, along_z = axis == 0 ? 0 : axis == 3 ? -step_z : step_z;
    double best_x = place.x, best_z = place.z, best = place.loss;
    for (const double way : {1.0, -1.0}) {
      const double x = std::clamp(place.x + way * along_x, left, right),
                   z = std::clamp(place.z + way * along_z, bottom, top);
      if (const double loss = loss_at(place, x, z, best); loss < best)
        best_x = x, best_z = z, best = loss;
    }
    const double factor = best < place.loss ? 1.1 : 0.5;
    if (axis != 1)
      step_x *= axis >= 2 ? std::sqrt(factor) : factor;
    if (axis != 0)
      step_z *= axis >= 2 ? std::sqrt(factor) : factor;
    place = {best_x, best_z, best, place.figure, place.room};
  }
}

void Separation::settle(std::size_t index, bool anywhere) {
  const Item before = items_[index];
  const std::size_t kind = figures_[before.figure].kind;
  first_figure_ = figures_.first(kind);
  around_.resize(std::max(around_.size(), (figures_.first(kind + 1) - first_figure_) * rooms_.size()));
  Spotted chosen{before.x, before.z, std::numeric_limits<double>::infinity(), before.figure, before.room};
  std::vector<Spotted> best;
  for (std::size_t figure = first_figure_; figure < figures_.first(kind + 1); ++figure) {
    gather(index, figure);
    if (!anywhere && figure == before.figure)
      chosen.loss = loss_at(chosen, before.x, before.z, std::numeric_limits<double>::infinity());
    sample(index, figure, anywhere, best);
  }
  for (Spotted& place : best) {
    const double size = size_of(figures_[place.figure]);
    push_out(place);
    refine(place, coarse_step * size, coarse_end * size);
  }
  const auto least =
      std::min_element(best.begin(), best.end(), [](const Spotted& a, const Spotted& b) { return a.loss < b.loss; });
  if (least != best.end()) {
    refine(*least, coarse_end * size_of(figures_[least->figure]), fine_end_um);
    if (least->loss < chosen.loss)
      chosen = *least;
  }
  items_[index] = {chosen.figure, chosen.room, chosen.x, chosen.z};
  measure(index);
}

bool Separation::round() {
  std::vector<std::size_t> overlapping;
  for (std::size_t i = 0; i < items_.size(); ++i)
    if (std::any_of(&depth(i, 0), &depth(i, 0) + items_.size(), [](double deep) { return deep > 0; }))
      overlapping.push_back(i);
  if (overlapping.empty())
    return true;
  chance_.shuffle(overlapping);
  for (const std::size_t i : overlapping)
    if (std::any_of(&depth(i, 0), &depth(i, 0) + items_.size(), [](double deep) { return deep > 0; }))
      settle(i, false);
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
      if (round())
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
