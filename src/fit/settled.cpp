#include "fit/settled.h"

#include "fit/pull_back.h"
#include "fit/refusals.h"
#include "fit/tolerances.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace fanwright::fit {
namespace {

/// The leaf's form, from the solver's last one where that is near. `coarse`: wide cells will do.
std::variant<opened::Form, Failure> opened_form(const leaf::Leaf& leaf, const design::Size& size, bool coarse,
                                                opened::Solver& solver, const Options& options) {
  if (auto failure = locked(leaf, size))
    return *std::move(failure);
  opened::Options how;
  how.cancelled = options.cancelled;
  how.mesh = false;
  if (coarse)
    widen_cells(leaf, how);
  auto form = solver.open(opened::panel_of(leaf, size), how);
  if (const auto* failure = std::get_if<opened::Failure>(&form))
    return Failure{size.where, failure->sentence, true};
  if (const double ratio = std::get<opened::Form>(form).lock_ratio; ratio > tolerance::most_lock)
    return locked(ratio, size);
  return std::get<opened::Form>(std::move(form));
}

/// One drawing on its way.
class Way {
public:
  Way(const design::Design& design, const design::Size& size, Drawing drawing, Begun start)
      : design_(design), size_(size), drawing_(std::move(drawing)), wide_(start == Begun::wide),
        near_(start == Begun::near) {}

  /// Solves the drawing and pulls it back.
  std::optional<Failure> go_on(opened::Solver& solver, const Options& options) {
    bool curves = near_;
    auto leaf = next_leaf(curves);
    if (auto* failure = std::get_if<Failure>(&leaf))
      // Far off the outline, what is wrong with the leaf there tells nothing of it.
      return solved_ && !near_ ? off(miss_.worst_mm) : std::move(*failure);
    // Where rows have changed places the last form leads no solver on.
    if (near_ && !solved_ && !solver.leads_to(opened::panel_of(std::get<leaf::Leaf>(leaf), size_))) {
      near_ = false;
      wide_ = true;
    }
    // Until the points have nearly settled, wide cells tell where they go as well as narrow ones.
    const bool coarse = wide_ && !near_;
    auto form = opened_form(std::get<leaf::Leaf>(leaf), size_, coarse, solver, options);
    if (auto* failure = std::get_if<Failure>(&form))
      return std::move(*failure);
    Drawing solved = drawing_;
    miss_ = pull_back(std::get<opened::Form>(form), drawing_);
    // Beside a form of wide cells lies one of narrow cells: what is found far from there is another, and leads astray.
    if (wide_ && curves && !coarse && !best_ && miss_.worst_mm > 2 * tolerance::near_share * drawing_.size_mm) {
      drawing_ = std::move(solved);
      solver = opened::Solver();
      return std::nullopt;
    }
    if (curves && !coarse)
      mix(Pull{solved, drawing_});
    else
      pull_before_.reset();
    solved_ = std::move(solved);
    slow_ = best_ && miss_.worst_mm > tolerance::slow_share * best_->miss_mm;
    if (curves && !coarse && (!best_ || miss_.worst_mm < best_->miss_mm))
      best_ = Settled{std::get<leaf::Leaf>(std::move(leaf)), std::get<opened::Form>(std::move(form)), *solved_,
                      miss_.worst_mm};
    // Curves are laid through points that have nearly settled; before that they would only wave.
    near_ = near_ || miss_.worst_mm < tolerance::near_share * drawing_.size_mm;
    return std::nullopt;
  }

  bool arrived() const {
    if (!best_)
      return false;
    // Two equilibria may take turns: what is good enough is not looked for again and again.
    if (slow_ && best_->miss_mm < 0.5 * tolerance::outline_share * drawing_.size_mm)
      return true;
    return miss_.worst_mm < tolerance::settled_share * drawing_.size_mm &&
           miss_.mean_mm < tolerance::settled_breadth_share * drawing_.breadth_mm;
  }

  std::variant<Settled, Failure> end() && {
    if (!best_ || best_->miss_mm > tolerance::outline_share * drawing_.size_mm)
      return off(best_ ? best_->miss_mm : miss_.worst_mm);
    opened::make_mesh(best_->form);
    return *std::move(best_);
  }

private:
  /// Where a form answers to its leaf more than the leaf was moved, as soft tiers do, pulls take turns; and where it
  /// answers less, they fall short. So the drawing goes on from the mixture of the last two pulls that, were their
  /// misses mixed alike, would leave the least (Anderson, J. ACM 12, 1965, with a memory of one).
  void mix(Pull pull) {
    if (pull_before_) {
      const double share = std::clamp(mixed_share(*pull_before_, pull), tolerance::least_mixed, tolerance::most_mixed);
      drawing_ = between(pull_before_->to, pull.to, share);
    }
    pull_before_ = std::move(pull);
  }

  /// The leaf of the drawing's present state. Where a long pull has made lines cross, part of it is taken back.
  /// `curves`: few smooth curves are wanted; comes back false when only straight lines made a leaf.
  std::variant<leaf::Leaf, Failure> next_leaf(bool& curves) {
    const bool asked = curves;
    const auto made = [&] {
      curves = asked;
      auto leaf = leaf_from(design_, size_, drawing_, curves);
      if (!curves || std::holds_alternative<leaf::Leaf>(leaf))
        return leaf;
      curves = false;
      return leaf_from(design_, size_, drawing_, curves);
    };
    auto leaf = made();
    for (int k = 0; k < tolerance::most_retreats && solved_ && std::holds_alternative<Failure>(leaf); ++k) {
      drawing_ = between(*solved_, drawing_, 0.5);
      leaf = made();
    }
    return leaf;
  }

  const design::Design& design_;
  const design::Size& size_;
  Drawing drawing_;
  std::optional<Drawing> solved_;
  std::optional<Pull> pull_before_;
  std::optional<Settled> best_;
  Miss miss_;
  bool wide_, near_, slow_ = false;
};

} // namespace

std::variant<Settled, Failure> settled(const design::Design& design, const design::Size& size, Drawing drawing,
                                       Begun start, opened::Solver& solver, const Options& options) {
  Way way(design, size, std::move(drawing), start);
  for (int k = 0; k < tolerance::most_solves && !way.arrived(); ++k) {
    if (auto failure = way.go_on(solver, options))
      return *std::move(failure);
    if (options.progress)
      options.progress(1.0 - std::pow(0.6, k + 1));
  }
  return std::move(way).end();
}

} // namespace fanwright::fit
