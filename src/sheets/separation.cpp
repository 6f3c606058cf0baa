#include "sheets/separation.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::sheets {

namespace {

constexpr double least_raise = 1.15, most_raise = 1.6; // of a weight in a round, by depth
constexpr double fading = 0.95;                        // of a weight whose pair is apart
constexpr double clearly_better = 0.98;                // of the overlap, to earn another try
constexpr std::size_t cells_a_side = 12;               // of a room
constexpr int samples_anywhere = 25, samples_nearby = 10,
              samples_a_room = 6;       // places looked at for one item in one stance
constexpr double nearly_apart_um = 300; // overlap for each item, where giving way together may do
constexpr int most_pushes = 8, most_sweeps = 200;
constexpr std::size_t refined = 5;                                      // best of them searched further
constexpr double coarse_step = 0.1, coarse_end = 0.02, fine_end_um = 3; // of an item's size

double size_of(const Figure& figure) { return static_cast<double>(std::min(figure.box.width(), figure.box.height())); }

} // namespace

Separation::Separation(const Figures& figures, std::vector<Extent> rooms, std::uint64_t seed,
                       std::function<bool()> stop)
    : figures_(figures), rooms_(std::move(rooms)), chance_(seed), stop_(std::move(stop)) {}

void Separation::start(std::vector<Item> items) {
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
    weights_[i] = depths_[i] > 0 ? weights_[i] * (least_raise + (most_raise - least_raise) * depths_[i] / deepest)
                                 : std::max(1.0, weights_[i] * fading);
}

void Separation::gather(std::size_t index, std::size_t figure) {
  constexpr double side = static_cast<double>(cells_a_side);
  Surroundings& around = around_[figure - first_figure_];
  around.obstacles.clear();
  around.cells.resize(rooms_.size());
  for (std::size_t r = 0; r < rooms_.size(); ++r) {
    Cells& cells = around.cells[r];
    const Extent places = places_in(rooms_[r], figures_[figure].box);
    cells.left = static_cast<double>(places.left), cells.bottom = static_cast<double>(places.bottom);
    cells.per_x = side / static_cast<double>(std::max<std::int64_t>(1, places.right - places.left));
    cells.per_z = side / static_cast<double>(std::max<std::int64_t>(1, places.top - places.bottom));
    cells.lists.resize(cells_a_side * cells_a_side);
    for (auto& list : cells.lists)
      list.clear();
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
  Surroundings& around = around_[figure - first_figure_];
  Cells& cells = around.cells[other.room];
  const double left = (box_left - cells.left) * cells.per_x, right = (box_right - cells.left) * cells.per_x;
  const double bottom = (box_bottom - cells.bottom) * cells.per_z, top = (box_top - cells.bottom) * cells.per_z;
  if (right < 0 || left > side || top < 0 || bottom > side)
    return;
  const auto number = static_cast<std::uint16_t>(around.obstacles.size());
  around.obstacles.push_back(
      {other.x, other.z, pair.sign, weight(index, other_index) * scales_[index] * scales_[other_index], pair.region});
  const auto cell = [](double at) { return static_cast<std::size_t>(std::clamp(at, 0.0, side - 1)); };
  for (std::size_t row = cell(bottom); row <= cell(top); ++row)
    for (std::size_t column = cell(left); column <= cell(right); ++column)
      cells.lists[row * cells_a_side + column].push_back(number);
}

const std::vector<std::uint16_t>& Separation::near(const Surroundings& around, std::size_t room, double x,
                                                   double z) const {
  constexpr double side = static_cast<double>(cells_a_side);
  const Cells& cells = around.cells[room];
  const auto column = static_cast<std::size_t>(std::clamp((x - cells.left) * cells.per_x, 0.0, side - 1));
  const auto row = static_cast<std::size_t>(std::clamp((z - cells.bottom) * cells.per_z, 0.0, side - 1));
  return cells.lists[row * cells_a_side + column];
}

double Separation::loss_at(const Spotted& place, double x, double z, double cutoff) {
  ++work_;
  const Surroundings& around = around_[place.figure - first_figure_];
  double loss = 0;
  for (const std::uint16_t number : near(around, place.room, x, z)) {
    const Obstacle& o = around.obstacles[number];
    if (const double depth = o.keep_out->about_depth((x - o.x) * o.sign, (z - o.z) * o.sign); depth > 0)
      loss += o.weight * loss_of(depth);
    if (loss >= cutoff)
      return loss;
  }
  return loss;
}

/// From obstacle to obstacle: out of whichever leaves least overlap with the others.
void Separation::push_out(Spotted& place) {
  const Extent places = places_in(rooms_[place.room], figures_[place.figure].box);
  const Surroundings& around = around_[place.figure - first_figure_];
  for (int pushes = 0; pushes < most_pushes && place.loss > 0; ++pushes) {
    Spotted best = place;
    ++work_;
    for (const std::uint16_t number : near(around, place.room, place.x, place.z)) {
      const Obstacle& o = around.obstacles[number];
      const Push push = o.keep_out->push((place.x - o.x) * o.sign, (place.z - o.z) * o.sign);
      if (push.depth <= 0)
        continue;
      const double over = (push.depth + 1) / push.depth * o.sign; // a micrometre clear
      const double x =
          std::clamp(place.x + push.x * over, static_cast<double>(places.left), static_cast<double>(places.right));
      const double z =
          std::clamp(place.z + push.z * over, static_cast<double>(places.bottom), static_cast<double>(places.top));
      if (const double loss = loss_at(place, x, z, best.loss); loss < best.loss)
        best = {x, z, loss, place.figure, place.room};
    }
    if (best.loss >= place.loss)
      return;
    place = best;
  }
}

/// All overlapping pairs give way by half their depth at a time; true when that leaves no overlap.
bool Separation::relax() {
  std::vector<Item> before = items_;
  for (int sweeps = 0; sweeps < most_sweeps; ++sweeps) {
    double deepest = 0;
    for (std::size_t a = 0; a < items_.size(); ++a)
      for (std::size_t b = a + 1; b < items_.size(); ++b) {
        Item &one = items_[a], &other = items_[b];
        if (one.room != other.room)
          continue;
        const Apart& pair = figures_.apart(one.figure, other.figure);
        const Push push = pair.region->push((other.x - one.x) * pair.sign, (other.z - one.z) * pair.sign);
        if (push.depth <= 0)
          continue;
        deepest = std::max(deepest, push.depth);
        const double half = 0.5 * (push.depth + 0.5) / push.depth * pair.sign;
        other.x += half * push.x, other.z += half * push.z;
        one.x -= half * push.x, one.z -= half * push.z;
        bring_in(one);
        bring_in(other);
      }
    work_ += static_cast<std::int64_t>(items_.size());
    if (deepest == 0) {
      for (std::size_t i = 0; i < items_.size(); ++i)
        measure(i);
      return true;
    }
  }
  items_ = std::move(before);
  return false;
}

void Separation::look(Spotted place, std::vector<Spotted>& best) {
  const double cutoff = best.size() < refined ? std::numeric_limits<double>::infinity() : best.back().loss;
  place.loss = loss_at(place, place.x, place.z, cutoff);
  if (place.loss >= cutoff)
    return;
  if (best.size() == refined)
    best.pop_back();
  best.insert(std::upper_bound(best.begin(), best.end(), place,
                               [](const Spotted& a, const Spotted& b) { return a.loss < b.loss; }),
              place);
}

void Separation::sample(std::size_t index, std::size_t figure, bool anywhere, std::vector<Spotted>& best) {
  const Item& item = items_[index];
  const int anywhere_in_all = std::max(samples_anywhere, samples_a_room * static_cast<int>(rooms_.size()));
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
  for (int i = 0; i < samples_nearby; ++i) {
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
  around_.resize(std::max(around_.size(), figures_.first(kind + 1) - first_figure_));
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
