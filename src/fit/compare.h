// A made prototype held against its prediction: which input explains the difference, and the size that corrects it.
// Lengths mm.
#pragma once

#include "fit/leaf_of.h"
#include "opened/opened.h"
#include "opened/spread.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::fit {

/// What may differ between the file and the piece on the table.
enum class Cause {
  fitted_to_page, ///< templates printed with the printer's "fit to page"
  cut_scale,      ///< all templates at another scale
  stencil_scale,  ///< rows at another scale than the leaves
  moved_rows,     ///< all rows too high or too low on the leaf
  wide_glue,      ///< rows of another width than planned
  leaf_count,
  opening,
  caliper, ///< thicker or thinner paper
  stiffness,
  creases, ///< sharp at the rows' edges, where the paper takes a set
  humidity,
};

/// One input changed, alone.
struct Explanation {
  Cause cause = Cause::cut_scale;
  double value =
      0; ///< scale; scale; scale; mm up; mm width; leaves; degrees; mm; factor; share 0..1; % relative humidity
  double height_mm = 0, diameter_mm = 0; ///< what it predicts
  double misfit = 0;                     ///< of both readings, in standard deviations (root of the sum of squares)
  double doubt = 0;                      ///< how far-fetched the value is, in usual deviations
  std::string sentence;                  ///< "The leaves were cut to 94.1 % of their size."
  std::string check;                     ///< how to find out
  bool in_making = false;                ///< a slip of printing, cutting or gluing: the design needs no change
  double score() const { return misfit * misfit + doubt * doubt; }
};

struct Readings {
  double height_mm = 0, diameter_mm = 0;
  double uncertainty_mm = 0.5; ///< of each reading with a ruler
};

struct Comparison {
  double height_mm = 0, diameter_mm = 0; ///< predicted
  opened::Spread spread;
  Readings readings;
  bool as_predicted = false; ///< both readings lie within the spread and the ruler's uncertainty
  std::vector<Explanation>
      explanations; ///< best first, those that fit before those that do not; empty when as predicted
  /// The first so many fit too nearly alike to be told apart by height and diameter; 0 when nothing fits.
  int alike = 0;
};

/// Opens the design with one input changed at a time and ranks the changes by how well they fit both readings and how
/// likely they are. Deterministic. Readings under half or over twice what is predicted are refused.
std::variant<Comparison, Failure> compare(const design::Design& design, const design::Size& size,
                                          const Readings& readings, const Options& options = {});

/// What is wanted of the next piece; one of the two.
struct Wanted {
  std::optional<double> height_mm, diameter_mm;
};

struct Correction {
  double height_mm = 0;                                      ///< for the size's "height" in the file
  double scale = 1;                                          ///< against the size as it is
  double predicted_height_mm = 0, predicted_diameter_mm = 0; ///< by the file, nothing taken off for the difference
  double expected_height_mm = 0, expected_diameter_mm = 0;   ///< when the difference comes again
};

/// The size that comes out as wanted if it differs from its prediction as the prototype did.
std::variant<Correction, Failure> corrected(const design::Design& design, const design::Size& size,
                                            const Comparison& comparison, const Wanted& wanted,
                                            const Options& options = {});

} // namespace fanwright::fit
