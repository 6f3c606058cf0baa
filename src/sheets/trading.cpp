// Two pieces of about the same size trade places, where that lessens their overlap.
#include "sheets/separation.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::sheets {

namespace {

constexpr int most_asked = 10; // pieces, for one of another kind and of about the size

} // namespace

Item middle_on(const Figures& figures, std::size_t figure, const Item& there) {
  const Extent &box = figures[figure].box, &its = figures[there.figure].box;
  return {figure, there.room, there.x + static_cast<double>(its.left + its.right - box.left - box.right) / 2,
          there.z + static_cast<double>(its.bottom + its.top - box.bottom - box.top) / 2};
}

bool may_change_places(const Figures& figures, const std::vector<Extent>& rooms, const Item& one, const Item& other,
                       double most_times) {
  const Figure &here = figures[one.figure], &there = figures[other.figure];
  const double larger = figures.area_um2(there.kind) / figures.area_um2(here.kind);
  return here.kind != there.kind && larger < most_times && larger > 1 / most_times &&
         fits(places_in(rooms[other.room], here.box)) && fits(places_in(rooms[one.room], there.box));
}

double Separation::loss_of(std::size_t one, std::size_t other) const {
  const double deep = depths_[one * items_.size() + other];
  return weights_[one * items_.size() + other] * scales_[one] * scales_[other] * std::sqrt(deep * (deep + shallow_));
}

double Separation::loss_of_both(std::size_t one, std::size_t other) const {
  double loss = -loss_of(one, other);
  for (std::size_t k = 0; k < items_.size(); ++k)
    loss += loss_of(one, k) + loss_of(other, k);
  return loss;
}

std::optional<std::size_t> Separation::partner_of(std::size_t index) {
  for (int asked = 0; asked < most_asked; ++asked)
    if (const std::size_t other = chance_.below(items_.size());
        may_change_places(figures_, rooms_, items_[index], items_[other], settings_.most_larger))
      return other;
  return std::nullopt;
}

/// Puts the item where another one lies or lay: middle on middle, in the stance that overlaps least once it has slipped
/// out of what is there.
void Separation::settle_about(std::size_t index, const Item& there) {
  const std::size_t kind = figures_[items_[index].figure].kind;
  Spotted chosen{0, 0, std::numeric_limits<double>::infinity(), 0, there.room};
  surround(kind);
  for (std::size_t figure = first_figure_; figure < figures_.first(kind + 1); ++figure) {
    gather(index, figure, there.room);
    const Surroundings& space = around(figure, there.room);
    if (!space.fits())
      continue;
    const Item middle = middle_on(figures_, figure, there);
    Spotted place{std::clamp(middle.x, space.left, space.right), std::clamp(middle.z, space.bottom, space.top), 0,
                  figure, there.room};
    place.loss = loss_at(place, place.x, place.z, std::numeric_limits<double>::infinity());
    slip_out(place);
    if (place.loss < chosen.loss)
      chosen = place;
  }
  items_[index] = {chosen.figure, chosen.room, chosen.x, chosen.z};
  measure_near(index);
}

/// True when that lessened the overlap, by the present weights; else nothing has changed.
bool Separation::trade(std::size_t index) {
  const std::optional<std::size_t> partner = partner_of(index);
  if (!partner)
    return false;
  const std::size_t other = *partner, count = items_.size();
  const Item here = items_[index], there = items_[other];
  const std::vector<double> depths(&depth(index, 0), &depth(index, 0) + count),
      others(&depth(other, 0), &depth(other, 0) + count);
  const double before = loss_of_both(index, other);
  // The partner goes first, so that it is not in the way.
  items_[other].room = here.room, items_[other].x = here.x, items_[other].z = here.z;
  bring_in(items_[other]);
  settle_about(index, there);
  settle_about(other, here);
  if (loss_of_both(index, other) < before)
    return true;
  items_[index] = here, items_[other] = there;
  for (std::size_t k = 0; k < count; ++k) {
    depth(index, k) = depth(k, index) = depths[k];
    depth(other, k) = depth(k, other) = others[k];
  }
  return false;
}

} // namespace fanwright::sheets
