// What to change in a design whose opened outline no leaf reaches: single changes that were tried and work.
#pragma once

#include "fit/leaf_of.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::fit {

/// One change of a design; alone it makes one size's outline reachable. Lengths mm.
struct Change {
  enum Of {
    leaves, ///< of the size
    rows,   ///< count of its evenly spaced rows
    look,   ///< of rows that place themselves: "open"
    width,  ///< of the drawn outline, in all sizes
    height, ///< of the size
  };
  Of of = leaves;
  std::string where;                       ///< JSON pointer of what is changed, as "/sizes/0/leaves"
  std::variant<double, std::string> value; ///< to write there; for a width the narrowed path data
  std::string sentence;                    ///< "at least 28 leaves"
};

/// A design with a change in it, and the size that the change is for.
struct Changed {
  design::Design design;
  design::Size size;
};
Changed with(const design::Design& design, const design::Size& size, const Change& change);

/// Changes that were tried on a size that `failure` refuses, each of which makes it: the smallest of its kind that was
/// found, at most one of each kind, most usual first. Empty for mistakes in the file, for designs drawn flat, and
/// when cancelled. Deterministic; at most `tolerance::most_remedy_tries` leaves are derived.
std::vector<Change> remedies(const design::Design& design, const design::Size& size, const Failure& failure,
                             const Options& options = {});

/// What is wrong, without advice that was not tried: the failure's sentence up to its last semicolon.
std::string reason_of(const std::string& sentence);

/// "Tried, and each works: at least 28 leaves; no wider than 118 mm."; empty when there are none.
std::string sentence_of(const std::vector<Change>& remedies);

/// The failure as it is told: the reason and the remedies, or the failure's own sentence where none was found.
std::string refusal_of(const Failure& failure, const std::vector<Change>& remedies);

} // namespace fanwright::fit
