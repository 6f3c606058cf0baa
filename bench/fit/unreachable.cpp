#include "unreachable.h"

#include "../processor_time.h"
#include "fit/remedy.h"
#include "leaf/contour.h"
#include "leaf/silhouette.h"
#include "trade_shapes.h"

#include "fit/narrowed.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <variant>

namespace fanwright::bench {
namespace {

/// The drawn outline's measures, mm.
struct Measures {
  double height = 0, widest = 0;
};

Measures measures_of(const design::Design& design) {
  const auto outline = leaf::silhouette(design, design.sizes[0]);
  const leaf::Box box = leaf::bounds(std::get<leaf::Silhouette>(outline).outline);
  return {box.height(), box.right};
}

design::EvenRows& even_rows(design::Design& design) {
  design::Size& size = design.sizes[0];
  if (!std::holds_alternative<design::EvenRows>(size.rows))
    size.rows = design::EvenRows{9, design::Side::inside, 2.5, 3, 3};
  return std::get<design::EvenRows>(size.rows);
}

/// Clear paper between two rows, mm.
double clear_of(const design::EvenRows& rows, const Measures& drawn) {
  return (drawn.height - 2 * rows.edge_gap_mm - rows.width_mm) / (rows.count - 1) - rows.width_mm;
}

double lock_of(design::Design& design) {
  const Measures drawn = measures_of(design);
  return std::numbers::pi / design.sizes[0].leaves * drawn.widest / clear_of(even_rows(design), drawn);
}

// Rows lock above a lock ratio of 0.9: the rim of a gap would have to be longer than its paper, and it tears. A quarter
// more leaves no doubt, since the leaf is narrower than the drawn outline by less than that.

/// So few leaves that the rows as drawn lock.
void few_leaves(design::Design& design, Draws& draw) {
  const double lock = draw.between(1.15, 2.4);
  int& leaves = design.sizes[0].leaves;
  leaves = std::max(4, static_cast<int>(leaves * lock_of(design) / lock));
}

/// So many rows.
void close_rows(design::Design& design, Draws& draw) {
  const double lock = draw.between(1.15, 2.0);
  const Measures drawn = measures_of(design);
  design::EvenRows& rows = even_rows(design);
  const double clear = std::numbers::pi / design.sizes[0].leaves * drawn.widest / lock;
  rows.count = static_cast<int>((drawn.height - 2 * rows.edge_gap_mm - rows.width_mm) / (clear + rows.width_mm)) + 2;
}

/// So wide, by up to twice, and with too few leaves for that.
void wide(design::Design& design, Draws& draw) {
  design.silhouette_path = fit::narrowed(design.silhouette_path, draw.between(1.4, 2.0));
  few_leaves(design, draw);
}

/// The ends of the spine would stand off by far more than the body's width takes: L^2 / (8 r), r = x / (0.6 q^2), is
/// above its widest radius.
void slender(design::Design& design, Draws& draw) {
  const double lock = draw.between(0.7, 0.85);
  int& leaves = design.sizes[0].leaves;
  leaves = std::max(5, static_cast<int>(leaves * lock_of(design) / lock));
  const Measures drawn = measures_of(design);
  const auto off_axis = [&] {
    const double q = lock_of(design);
    return 0.6 * q * q * drawn.height * drawn.height / (8 * drawn.widest);
  };
  while (leaves > 3 && off_axis() < drawn.widest)
    --leaves;
}

/// Share of the opened silhouette that lies outside the wanted one where no paper comes nearer to the axis than
/// `radius` mm. By Green's theorem: the integral of max(x, radius) - x over z against that of max(x, radius).
double added_by_hub(const design::Design& design, double radius) {
  const auto outline = leaf::silhouette(design, design.sizes[0]);
  const leaf::Ring ring = leaf::flatten(std::get<leaf::Silhouette>(outline).outline, leaf::flatten_tolerance_mm);
  double added = 0, all = 0; // from the spine's foot to its top
  for (std::size_t k = 1; k < ring.size(); ++k) {
    const double x = (ring[k - 1].x + ring[k].x) / 2, rise = ring[k].z - ring[k - 1].z;
    added += rise * (std::max(x, radius) - x);
    all += rise * std::max(x, radius);
  }
  return added / all;
}

/// A hub of half the widest radius or more, so large that it adds more than 3 % to the silhouette: twice what passes.
void hub(design::Design& design, Draws& draw) {
  const double widest = measures_of(design).widest;
  double radius = draw.between(0.45, 0.8) * widest;
  while (radius < widest && added_by_hub(design, radius) < 0.03)
    radius += 0.02 * widest;
  design::Size& size = design.sizes[0];
  const double wanted = radius * std::numbers::pi;
  size.leaves = std::clamp(static_cast<int>(wanted / size.paper.caliper_mm), 2, 400);
  size.paper.caliper_mm = std::max(size.paper.caliper_mm, wanted / size.leaves);
}

/// Rows that place themselves find no three places that open.
void few_for_auto(design::Design& design, Draws& draw) {
  design::Size& size = design.sizes[0];
  size.rows = design::AutoRows{design::Look::usual, design::Side::inside, 3.0, {}, {}};
  const Measures drawn = measures_of(design);
  // Three rows leave two gaps: q = pi x / (N s) with s half of the height.
  size.leaves =
      std::max(2, static_cast<int>(std::numbers::pi * drawn.widest / (draw.between(1.15, 2.0) * 0.5 * drawn.height)));
}

double seconds_since(double begun) { return processor_seconds() - begun; }

} // namespace

std::vector<Unreachable> unreachable_targets(std::uint64_t seed, int count) {
  using Spoil = void (*)(design::Design&, Draws&);
  const std::array<std::pair<const char*, Spoil>, 6> reasons{{{"few leaves", few_leaves},
                                                              {"close rows", close_rows},
                                                              {"wide", wide},
                                                              {"slender", slender},
                                                              {"hub", hub},
                                                              {"few for auto", few_for_auto}}};
  // Families come in turn too, and six of them: shifted, so that every reason meets every family.
  const auto shapes = trade_shapes(seed, 6 * count);
  Draws draw(seed + 1);
  std::vector<Unreachable> targets;
  for (int k = 0; k < count; ++k) {
    const auto& [reason, spoil] = reasons[static_cast<std::size_t>(k) % reasons.size()];
    const bool slim = spoil == slender;
    const int family = slim ? 1 : (k / 6 + k) % 6;
    Unreachable target{reason, shapes[static_cast<std::size_t>(6 * k + family)].design};
    spoil(target.design, draw);
    targets.push_back(std::move(target));
  }
  return targets;
}

int bench_unreachable(std::uint64_t seed, int count, int only) {
  int refused = 0, told = 0, proposed = 0, work = 0;
  double longest = 0, sum = 0;
  const auto targets = unreachable_targets(seed, count);
  for (int k = 0; k < count; ++k) {
    if (only >= 0 && k != only)
      continue;
    const auto& [reason, design] = targets[static_cast<std::size_t>(k)];
    const design::Size& size = design.sizes[0];
    const double begun = processor_seconds();
    const auto found = fit::opened_leaf(design, size);
    const double refusal_s = seconds_since(begun);
    const auto* failure = std::get_if<fit::Failure>(&found);
    if (failure == nullptr) {
      const auto& form = std::get<fit::OpenedLeaf>(found).form;
      fmt::print("{:>3} {:<12} {:<7} {:>3} leaves  REACHED, lock ratio {:.2f}, {:.0f} x {:.0f} mm\n", k, reason,
                 design.title, size.leaves, form.lock_ratio, form.diameter_mm, form.height_mm);
      continue;
    }
    ++refused;
    const auto remedies = fit::remedies(design, size, *failure);
    const double seconds = seconds_since(begun);
    longest = std::max(longest, seconds);
    sum += seconds;
    int good = 0;
    for (const fit::Change& change : remedies) {
      const fit::Changed changed = fit::with(design, size, change);
      good += std::holds_alternative<fit::OpenedLeaf>(fit::opened_leaf(changed.design, changed.size)) ? 1 : 0;
    }
    told += remedies.empty() ? 0 : 1;
    proposed += static_cast<int>(remedies.size());
    work += good;
    fmt::print("{:>3} {:<12} {:<7} {:>3} leaves {:4.1f} + {:4.1f} s  {}/{} work: {}\n", k, reason, design.title,
               size.leaves, refusal_s, seconds - refusal_s, good, remedies.size(), fit::refusal_of(*failure, remedies));
    std::fflush(stdout);
  }
  fmt::print("\n{} targets: {} refused, {} with remedies; {} remedies, {} work; mean {:.1f} s, longest {:.1f} s\n",
             only >= 0 ? 1 : count, refused, told, proposed, work, sum / std::max(1, refused), longest);
  const int all = only >= 0 ? 1 : count;
  return refused == all && told == all && proposed == work ? 0 : 1;
}

} // namespace fanwright::bench
