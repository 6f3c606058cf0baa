#include "sheets/figures.h"

#include <utility>

namespace fanwright::sheets {

Figures::Figures(const std::vector<SearchedKind>& kinds, double gap_um, std::shared_ptr<Known> known)
    : known_(std::move(known)) {
  constexpr std::size_t many_corners = 15;
  std::size_t corners = 0;
  for (const SearchedKind& kind : kinds)
    corners += kind.profile.shape.outline.size();
  wound_ = corners > many_corners * kinds.size();
  std::vector<Profile> profiles;
  for (std::size_t kind = 0; kind < kinds.size(); ++kind) {
    first_.push_back(figures_.size());
    constexpr double um2_per_mm2 = 1e6;
    areas_.push_back(area_mm2(kinds[kind].profile.shape) * um2_per_mm2);
    for (const Stance stance : kinds[kind].stances) {
      profiles.push_back(laid(kinds[kind].profile, stance));
      figures_.push_back({kind, stance, profiles.back().box});
    }
  }
  first_.push_back(figures_.size());
  pairs_.resize(figures_.size() * figures_.size());
  for (std::size_t fixed = 0; fixed < figures_.size(); ++fixed)
    for (std::size_t moving = 0; moving < figures_.size(); ++moving) {
      const Pair pair = alike(fixed, moving);
      Apart& first = pairs_[pair.fixed * figures_.size() + pair.moving];
      if (!first.region) {
        const Profile &there = profiles[pair.fixed], &here = profiles[pair.moving];
        first = {&known_->region(there.shape, here.shape, gap_um + search_slack_um + there.off_um + here.off_um), 1};
      }
      pairs_[fixed * figures_.size() + moving] = {first.region, pair.sign};
    }
}

std::size_t Figures::half_turned(std::size_t figure) const {
  const Figure& one = figures_[figure];
  const Stance wanted{(one.stance.turn_deg + 180) % 360, one.stance.mirrored};
  for (std::size_t other = first_[one.kind]; other < first_[one.kind + 1]; ++other)
    if (figures_[other].stance == wanted)
      return other;
  return figures_.size();
}

/// Pieces that trade places, and pieces turned together by 180 degrees, meet at the opposite moves: the first pair in
/// order stands for all four.
Figures::Pair Figures::alike(std::size_t fixed, std::size_t moving) const {
  Pair least{fixed, moving, 1};
  const auto consider = [&](std::size_t a, std::size_t b, double sign) {
    if (a < figures_.size() && b < figures_.size() && std::pair(a, b) < std::pair(least.fixed, least.moving))
      least = {a, b, sign};
  };
  consider(moving, fixed, -1);
  consider(half_turned(fixed), half_turned(moving), -1);
  consider(half_turned(moving), half_turned(fixed), 1);
  return least;
}

} // namespace fanwright::sheets
