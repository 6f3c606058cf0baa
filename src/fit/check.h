// Whether a design can be made, and what to change if not: one finding for every check (docs/check.md).
#pragma once

#include "fit/leaf_of.h"
#include "fit/remedy.h"
#include "opened/opened.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::fit {

/// What one check found. Sentences are for the maker.
struct Finding {
  enum Verdict {
    good,
    note,    ///< nothing wrong, but worth knowing
    warning, ///< it can be made, but will show, or asks for care
    fails,   ///< it cannot be made like this
  };
  std::string id; ///< "closes.hub"; never changes, docs/check.md lists them all
  Verdict verdict = good;
  double value = 0;            ///< as measured, in `unit`
  std::string unit;            ///< "mm", "deg", "g" ...; empty for ratios and counts
  std::optional<double> limit; ///< what the value is held against, in `unit`; empty where it is told only
  std::string limit_source;    ///< who sets the limit, or "common practice"
  std::string sentence;        ///< what was found
  std::string remedy;          ///< what to do; empty when good
  std::string where;           ///< JSON pointer of what to change
  std::vector<Change> tried{}; ///< of "opens.form": changes that were tried, each of which works
};

/// All checks of one size, worst first, equal ones always in the same order. `leaf` is the flat leaf of the size,
/// `form` its opened form with its mesh.
std::vector<Finding> check(const design::Design& design, const design::Size& size, const leaf::Leaf& leaf,
                           const opened::Form& form);

/// Those checks that need no opened form.
std::vector<Finding> check(const design::Design& design, const design::Size& size, const leaf::Leaf& leaf);

/// Finds leaf and form, then checks. A size that has no leaf or no opened form is a finding, "opens.form", that fails;
/// what no leaf can be read from is a Failure.
std::variant<std::vector<Finding>, Failure> check(const design::Design& design, const design::Size& size,
                                                  const Options& options = {});

/// The worst verdict; good when there are none.
Finding::Verdict worst(const std::vector<Finding>& findings);

} // namespace fanwright::fit
