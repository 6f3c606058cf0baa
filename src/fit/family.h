// Other sizes of a drawn design: what a maker would vary with the size, proposed with reasons, and opened.
// Lengths mm.
#pragma once

#include "fit/leaf_of.h"
#include "leaf/leaf.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::fit {

/// Why a proposal is as it is: "leaves", and a sentence.
struct Reason {
  std::string what, sentence;
};

/// One proposed size.
struct Proposal {
  design::Size size;                            ///< complete; named by its place in the family
  leaf::Leaf leaf;                              ///< its flat leaf
  double scale = 1;                             ///< against the size it goes by
  double flat_width_mm = 0, flat_height_mm = 0; ///< of the leaf, both halves
  double height_mm = 0, diameter_mm = 0;        ///< opened
  double lock_ratio = 0, holding_moment_nmm = 0;
  double row_spacing_mm = 0; ///< mean, from row to row
  double sag = 1; ///< how much its leaves sag for their size, against the size it goes by: scale^3 x weight / stiffness
  std::vector<Reason> reasons;
};

/// Fewest and most heights of one family, as in the design file.
inline constexpr std::size_t most_sizes_of_family = 12;

/// Proposes a size for each height, lowest first. Heights are those of the silhouette as drawn, like "height" in the
/// file. Each proposal opens with a lock ratio of at most 0.7, or the family is refused with the height that does not.
/// Refuses no heights, more than most_sizes_of_family, equal ones, and heights outside 10 to 2000 mm. Deterministic.
std::variant<std::vector<Proposal>, Failure> family(const design::Design& design, const design::Size& from,
                                                    const std::vector<double>& heights_mm, const Options& options = {});

/// The grammage on sale that suits a height: caliper growing as scale^1.5 keeps the sag, within what is usual for the
/// height, shifted by what the maker chose at the size she drew.
double family_gsm(double drawn_gsm, double drawn_height_mm, double height_mm);

} // namespace fanwright::fit
