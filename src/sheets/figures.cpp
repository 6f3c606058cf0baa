#include "sheets/figures.h"

#include "sheets/no_fit.h"

namespace fanwright::sheets {

Figures::Figures(const std::vector<SearchedKind>& kinds, double gap_um) {
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
  keep_outs_.reserve(figures_.size() * figures_.size());
  for (std::size_t fixed = 0; fixed < figures_.size(); ++fixed)
    for (std::size_t moving = 0; moving < figures_.size(); ++moving) {
      const double reach = gap_um + search_slack_um + profiles[fixed].off_um + profiles[moving].off_um;
      keep_outs_.emplace_back(
          moving < fixed ? std::vector<Loop>{} : no_fit_region(profiles[fixed].shape, profiles[moving].shape), reach);
    }
}

} // namespace fanwright::sheets
