// Advice before a sheet is cut: how many leaves, how many rows, which paper, and what they look like.
// Mechanics (lock ratio, hub, stack) with limits set by common practice (advice_practice.h; docs/advice.md).
// Lengths mm, grammage g/m2, moments N mm.
#pragma once

#include "fit/leaf_of.h"
#include "leaf/leaf.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::fit {

/// What advice needs to know of a body: its half silhouette and where the rows end.
struct Body {
  double height_mm = 0; ///< of the flat leaf
  double radius_mm = 0; ///< from the spine to the widest place
  double widest_z_mm = 0;
  double neck_mm = 0; ///< from the spine to the cut at the narrowest neck; 0 when the body has none
};

Body body_of(const leaf::Leaf& leaf);

/// How open cells look, by their lock ratio.
enum class Openness { slits, narrow, open, wide, stretched };

Openness openness_of(double lock_ratio);
std::string words_for(Openness openness);

/// The cells of a leaf count, and what goes with it.
struct Cells {
  int leaves = 0;
  double width_mm = 0;        ///< round the body at the widest place, between neighbouring walls of a kind
  double height_mm = 0;       ///< clear paper from one row to the next of its kind
  double lock_ratio = 0;      ///< of the gap at the widest place
  double most_lock_ratio = 0; ///< of all gaps
  double per_dm2 = 0;         ///< cells on a square decimetre of the widest place
  double hub_radius_mm = 0;
  double stack_mm = 0; ///< closed, pressed, with its glue
};

/// Cells of `leaf` if `leaves` of them make the ornament. Rows on one wall only have no cells: all zero but hub and
/// stack.
Cells cells_of(const leaf::Leaf& leaf, const design::Size& size, int leaves);

struct LeafAdvice {
  int low = 0, usual = 0, high = 0;
  std::string low_reason, high_reason;
  bool rows_ask_for_more = false; ///< the rows given lock with the leaves that suit the body
};

/// Leaves for the leaf's body, paper and opening, none of them so few that its rows pass most_lock.
LeafAdvice leaf_advice(const leaf::Leaf& leaf, const design::Size& size);

/// Leaves that suit a body of this radius (mm), before rounding and whatever else bounds them.
double usual_leaves(double radius_mm, double opening_deg);

struct RowAdvice {
  int low = 0, usual = 0, high = 0; ///< rows
  double spacing_mm = 0;            ///< from row to row, of the usual count
  std::string reason;
};

/// Rows for `leaves` leaves that keep the cells in proportion at the widest place.
RowAdvice row_advice(const leaf::Leaf& leaf, const design::Size& size, int leaves);

/// Width of a glue row that suits the height, mm: grows slowly, as beads do.
double usual_row_width_mm(double height_mm);

struct PaperAdvice {
  double low_gsm = 0, usual_gsm = 0, high_gsm = 0;
  std::string reason;
};

PaperAdvice paper_advice(double height_mm);

/// A look that was opened to see what it takes.
struct Opened {
  Cells cells;
  bool present = false;            ///< the leaf count of the file
  std::optional<double> height_mm; ///< empty when no form was found
  std::optional<double> diameter_mm;
  std::optional<double> moment_nmm;    ///< that holds the ornament open
  std::optional<double> seam_n_per_mm; ///< the same as a pull on the seam, per mm of its height at half the radius
};

struct Advice {
  leaf::Leaf leaf; ///< it was looked at
  Body body;
  LeafAdvice leaves;
  RowAdvice rows;
  PaperAdvice paper;
  std::vector<Opened> looks; ///< low, usual, high and present leaf count, ascending, each once
};

/// Advice for one size. Opens the leaf with every leaf count that is looked at. A design drawn opened whose own leaf
/// count does not open is looked at with the count that suits its drawn outline.
std::variant<Advice, Failure> advise(const design::Design& design, const design::Size& size,
                                     const Options& options = {});

} // namespace fanwright::fit
