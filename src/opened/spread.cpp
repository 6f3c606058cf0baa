#include "opened/spread.h"

#include "opened/equilibrium.h"
#include "opened/measure.h"
#include "opened/relax.h"
#include "opened/tolerances.h"

#include <array>
#include <cmath>

namespace fanwright::opened {
namespace {

/// The ways in which a sheet may differ from the paper named: caliper at constant modulus, then bending stiffness
/// alone.
std::array<PaperChange, 4> paper_changes() {
  const auto caliper = [](double factor) { return PaperChange{factor, factor * factor * factor, factor}; };
  return {caliper(1 - tolerance::caliper_share), caliper(1 + tolerance::caliper_share),
          PaperChange{1, 1 - tolerance::stiffness_share, 1}, PaperChange{1, 1 + tolerance::stiffness_share, 1}};
}

/// Half-width that holds the change from `base` to `form` if it may be as large the other way.
Contribution change(const Form& base, const Form& form) {
  return {std::abs(form.height_mm - base.height_mm), std::abs(form.diameter_mm - base.diameter_mm)};
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
      : panel_(panel), form_(form), options_(options), base_(*form.equilibrium), factor_(base_.mechanics, 1.0) {}

  std::variant<Spread, Failure> run() {
    const OneThread one_thread;
    double energy = 0;
    Vector gradient;
    if (!factor_.prepare(base_.unknowns, base_.mechanics.forces(base_.unknowns), energy, gradient)) {
      return unfound();
    }
    if (!add_paper()) {
      return unfound();
    }
    spread_.factorisations += factor_.factorisations();
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
    std::array<Contribution, 4> changes;
    const auto papers = paper_changes();
    for (std::size_t k = 0; k < papers.size(); ++k) {
      const Mechanics other = base_.mechanics.in_paper(papers[k]);
      Vector unknowns = base_.unknowns;
      const NewtonResult result = relax(other, factor_, {}, unknowns, options_.cancelled);
      cancelled_ = result.cancelled;
      spread_.steps += result.steps;
      spread_.factorisations += result.factorisations;
      if (!result.converged) {
        return false;
      }
      changes[k] = change(form_, measured(other.places(unknowns)));
    }
    spread_.paper = together(larger(changes[0], changes[1]), larger(changes[2], changes[3]));
    return true;
  }

  Form measured(Eigen::Matrix3Xd places) const {
    Form form;
    measure_edge(panel_, Surface(base_.grid, base_.pieces, std::move(places)), form);
    return form;
  }

  const Panel& panel_;
  const Form& form_;
  const Options& options_;
  const Equilibrium& base_;
  DampedFactor factor_;
  Spread spread_;
  bool cancelled_ = false;
};

} // namespace

std::variant<Spread, Failure> spread(const Panel& panel, const Form& form, const Options& options) {
  if (!form.equilibrium) {
    return Failure{"The spread goes on from an opened form; open the leaf first."};
  }
  return Estimate(panel, form, options).run();
}

} // namespace fanwright::opened
