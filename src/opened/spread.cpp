#include "opened/spread.h"

#include "opened/crease.h"
#include "opened/equilibrium.h"
#include "opened/measure.h"
#include "opened/relax.h"
#include "opened/tilt.h"
#include "opened/tolerances.h"

#include <array>
#include <cmath>

namespace fanwright::opened {
namespace {

/// A way in which a sheet may differ from the paper named. Only one side is solved; the form on the other side is
/// taken to lie as far the opposite way, times `mirror`.
struct Variation {
  PaperChange paper;
  double mirror;
};

/// Caliper at constant modulus, and bending stiffness alone. Softer paper gives way further than stiffer paper holds
/// back, about as the logarithm of the stiffness.
std::array<Variation, 2> variations() {
  constexpr double thicker = 1 + tolerance::caliper_share;
  constexpr double softer = 1 - tolerance::stiffness_share;
  return {Variation{{thicker, thicker * thicker * thicker, thicker}, 1.0},
          Variation{{1, softer, 1}, -std::log(1 + tolerance::stiffness_share) / std::log(softer)}};
}

Contribution larger(const Contribution& a, const Contribution& b) {
  return {std::max(a.height_mm, b.height_mm), std::max(a.diameter_mm, b.diameter_mm)};
}

/// Independent causes: half-widths add as squares (JCGM 100, Guide to the expression of uncertainty, 5.1).
Contribution together(const Contribution& a, const Contribution& b) {
  return {std::hypot(a.height_mm, b.height_mm), std::hypot(a.diameter_mm, b.diameter_mm)};
}

class Estimate {
public:
  Estimate(const Panel& panel, const Form& form, const Options& options)
      : panel_(panel), form_(form), options_(options), base_(*form.equilibrium),
        factor_(base_.mechanics.pattern(), 1.0) {}

  std::variant<Spread, Failure> run() {
    const OneThread one_thread;
    Ground ground;
    ++spread_.factorisations;
    if (!factor_.prepare(base_.mechanics, base_.unknowns, base_.mechanics.forces(base_.unknowns), ground)) {
      return unfound();
    }
    spread_.tilt = tilt(form_, factor_);
    show();
    if (!add_paper() || !add_crease()) {
      return unfound();
    }
    show();
    const Contribution all = together(together(spread_.paper, spread_.crease), spread_.tilt);
    spread_.height_mm = all.height_mm;
    spread_.diameter_mm = all.diameter_mm;
    return spread_;
  }

private:
  Failure unfound() const {
    if (cancelled_) {
      return {"Cancelled."};
    }
    return {"The spread of this form could not be computed: with slightly other paper no neighbouring form was found; "
            "use more leaves or fewer rows."};
  }

  bool add_paper() {
    const Eigen::Matrix3Xd places = base_.mechanics.places(base_.unknowns);
    for (const Variation& variation : variations()) {
      const Mechanics other = base_.mechanics.in_paper(variation.paper);
      Vector unknowns = base_.unknowns;
      const NewtonResult result = relax(other, factor_, unknowns, ground_at(other, unknowns),
                                        {tolerance::relax_energy_share, 0}, options_.cancelled);
      count(result);
      if (!result.converged) {
        return false;
      }
      const Eigen::Matrix3Xd moved = other.places(unknowns) - places;
      spread_.paper =
          together(spread_.paper, larger(changed(base_.grid, base_.pieces, places + moved),
                                         changed(base_.grid, base_.pieces, places - variation.mirror * moved)));
      show();
    }
    return true;
  }

  bool add_crease() {
    spread_.surface_strain = row_edge_strain(base_);
    if (spread_.surface_strain <= tolerance::set_strain) {
      return true;
    }
    const Creased sheet = creased(panel_, base_, options_.cancelled);
    count(sheet.result);
    if (sheet.result.converged) {
      spread_.crease = changed(sheet.grid, sheet.pieces, sheet.places);
    }
    return sheet.result.converged;
  }

  void count(const NewtonResult& result) {
    cancelled_ = cancelled_ || result.cancelled;
    spread_.steps += result.steps;
    spread_.factorisations += result.factorisations;
  }

  void show() {
    if (options_.progress) {
      options_.progress(0.25 * ++shown_);
    }
  }

  /// Half-width that holds the change to another sheet if it may be as large the other way.
  Contribution changed(const Grid& grid, const Pieces& pieces, Eigen::Matrix3Xd places) const {
    Form form;
    measure_edge(panel_, Surface(grid, pieces, std::move(places)), form);
    return {std::abs(form.height_mm - form_.height_mm), std::abs(form.diameter_mm - form_.diameter_mm)};
  }

  const Panel& panel_;
  const Form& form_;
  const Options& options_;
  const Equilibrium& base_;
  DampedFactor factor_;
  Spread spread_;
  bool cancelled_ = false;
  int shown_ = 0; ///< stages done
};

} // namespace

std::variant<Spread, Failure> spread(const Panel& panel, const Form& form, const Options& options) {
  if (!form.equilibrium) {
    return Failure{"The spread goes on from an opened form; open the leaf first."};
  }
  return Estimate(panel, form, options).run();
}

} // namespace fanwright::opened
