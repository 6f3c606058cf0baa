#include "fit/settled.h"

#include "fit/pull_back.h"
#include "fit/refusals.h"
#include "fit/tolerances.h"

#include <algorithm>
#include <cmath>
#include <ctime>
#include <optional>
#include <utility>

namespace fanwright::fit {
namespace {

/// The leaf's form, from the solver's last one where that is near.
std::variant<opened::Form, Failure> opened_form(const leaf::Leaf& leaf, const design::Size& size, opened::Detail detail,
                                                opened::Solver& solver, const Options& options) {
  if (auto failure = locked(leaf, size))
    return *std::move(failure);
  opened::Options how;
  how.cancelled = options.cancelled;
  how.mesh = false;
  how.detail = detail;
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
      : design_(design), size_(size), drawing_(std::move(drawing)), follows_(start == Begun::near),
        quick_(start == Begun::quick), near_(follows_) {}

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
      quick_ = true;
    }
    // Until the points have nearly settled, a quick answer tells where they go as well as a full one.
    const bool quick = quick_ && !near_;
    const std::clock_t begun = std::clock();
    auto form = opened_form(std::get<leaf::Leaf>(leaf), size_, quick ? opened::Detail::quick : opened::Detail::full,
                            solver, options);
    if (auto* failure = std::get_if<Failure>(&form))
      return std::move(*failure);
    count(quick, begun);
    Drawing solved = drawing_;
    miss_ = pull_back(std::get<opened::Form>(form), drawing_);
    // Beside a quick answer lies a full one: what is found far from there is another form, and leads astray.
    if (quick_ && curves && !quick && !best_ && miss_.worst_mm > 2 * tolerance::near_share * drawing_.size_mm) {
      if (std::exchange(begun_anew_, true))
        return off(miss_.worst_mm);
      drawing_ = std::move(solved);
      solver = opened::Solver();
      return std::nullopt;
    }
    if (curves && !quick)
      mix(Pull{solved, drawing_});
    else
      pull_before_.reset();
    solved_ = std::move(solved);
    const bool alike = best_ && best_->drawing.curve_mm == solved_->curve_mm;
    slow_ = alike && miss_.worst_mm > tolerance::slow_share * best_->miss.worst_mm;
    stuck_ = slow_ && miss_.mean_mm > tolerance::stuck_share * best_->miss.mean_mm;
    if (curves && !quick)
      consider(std::get<leaf::Leaf>(std::move(leaf)), std::get<opened::Form>(std::move(form)));
    // Curves are laid through points that have nearly settled; before that they would only wave.
    near_ = near_ || miss_.worst_mm < tolerance::near_share * drawing_.size_mm;
    return std::nullopt;
  }

  bool arrived() const {
    if (!best_)
      return false;
    // Two equilibria may take turns: what is good enough is not looked for again and again.
    const bool stays = slow_ && best_->miss.worst_mm < 0.5 * tolerance::outline_share * drawing_.size_mm;
    const bool follows = follows_ && best_->miss.worst_mm < tolerance::followed_share * drawing_.size_mm;
    const bool will_do = stays || has_settled();
    if (!will_do && !follows)
      return false;
    // It goes on where more of the silhouette would be covered if only the leaf were nearer, and it is wanted.
    return best_->overlap >= tolerance::good_overlap || (has_settled() && stuck_) ||
           (will_do && most_overlap_ <= tolerance::good_overlap);
  }

  std::variant<Settled, Failure> end() && {
    if (!best_ || best_->miss.worst_mm > tolerance::outline_share * drawing_.size_mm)
      return off(best_ ? best_->miss.worst_mm : miss_.worst_mm);
    opened::make_mesh(best_->form);
    best_->solves = solves_;
    return *std::move(best_);
  }

private:
  /// Was the last one as near as is asked, in each point and on average?
  bool has_settled() const {
    return miss_.worst_mm < tolerance::settled_share * drawing_.size_mm &&
           miss_.mean_mm < tolerance::settled_breadth_share * drawing_.breadth_mm;
  }

  /// Keeps the form of the drawing that was solved last if it is the best. Where the points have settled and it is the
  /// curves through them that leave some of the silhouette, these come nearer from here on.
  void consider(leaf::Leaf leaf, opened::Form form) {
    const double covered = overlap(form, *solved_);
    if (!best_ || is_better(covered))
      best_ = Settled{std::move(leaf), std::move(form), *solved_, miss_, covered, {}};
    const bool is_short = best_->overlap < tolerance::good_overlap;
    most_overlap_ = is_short ? overlap(hub_of(best_->form, drawing_), drawing_) : 1;
    if (is_short && has_settled() && most_overlap_ > tolerance::good_overlap)
      come_nearer();
  }

  /// Pulls of other curves are not mixed with those to come.
  void come_nearer() {
    if (std::exchange(drawing_.curve_mm, tolerance::fine_curve_mm) != tolerance::fine_curve_mm)
      pull_before_.reset();
  }

  void count(bool quick, std::clock_t begun) {
    ++(quick ? solves_.quick : solves_.full);
    (quick ? solves_.quick_seconds : solves_.full_seconds) +=
        static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
  }

  /// Is the last one better? Among those that are near enough in each point, by what they cost in area.
  bool is_better(double covered) const {
    const Miss& than = best_->miss;
    if (std::max(miss_.worst_mm, than.worst_mm) >= tolerance::settled_share * drawing_.size_mm)
      return miss_.worst_mm < than.worst_mm;
    return std::min(covered, best_->overlap) < tolerance::good_overlap ? covered > best_->overlap
                                                                       : miss_.mean_mm < than.mean_mm;
  }

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
  Solves solves_;
  double most_overlap_ = 1; ///< that paper could come to with the best form's hub, where that form falls short
  bool follows_, quick_, near_, slow_ = false, stuck_ = false, begun_anew_ = false;
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
