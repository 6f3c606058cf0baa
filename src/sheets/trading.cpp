// Two pieces of about the same size trade places, where that lessens their overlap.
#include "sheets/separation.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::sheets {

namespace {

constexpr double most_larger = 1.6; // of two that trade places, by area
constexpr int most_asked = 10;      // pieces, for one of another kind and of about the size

} // namespace

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
  const Item& item = items_[index];
  const Figure& figure = figures_[item.figure];
  for (int asked = 0; asked < most_asked; ++asked) {
    const std::size_t other = chance_.below(items_.size());
    const Item& there = items_[other];
    const Figure& partner = figures_[there.figure];
    const double larger = figures_.area_um2(partner.kind) / figures_.area_um2(figure.kind);
    if (partner.kind != figure.kind && larger < most_larger && larger > 1 / most_larger &&
        fits(places_in(rooms_[there.room], figure.box)) && fits(places_in(rooms_[item.room], partner.box)))
      return other;
  }
  return std::nullopt;
}

/// Puts the item where another one lies or lay: middle on middle, in the stance that overlaps least once it has slipped
/// out of what is there.
void Separation::settle_about(std::size_t index, const Item& there) {
  const std::size_t kind = figures_[items_[index].figure].kind;
  const Extent& its = figures_[there.figure].box;
  Spotted chosen{0, 0, std::numeric_limits<double>::infinity(), 0, there.room};
  surround(kind);
  for (std::size_t figure = first_figure_; figure < figures_.first(kind + 1); ++figure) {
    gather(index, figure, there.room);
    const Surroundings& space = around(figure, there.room);
    if (!space.fits())
      continue;
    const Extent& box = figures_[figure].box;
    const double x = there.x + static_cast<double>(its.left + its.right - box.left - box.right) / 2;
    const double z = there.z + static_cast<double>(its.bottom + its.top - box.bottom - box.top) / 2;
    Spotted place{std::clamp(x, space.left, space.right), std::clamp(z, space.bottom, space.top), 0, figure,
                  there.room};
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
