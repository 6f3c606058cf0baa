// Rows spaced evenly up the leaf, each reaching as far out as the silhouette lets it.
#pragma once

#include "leaf/leaf.h"

#include <variant>
#include <vector>

namespace fanwright::leaf {

/// How far out a level strip can reach in given cut lines.
class Reach {
public:
  /// `outline` counter-clockwise with its spine stretch last; `edge_gap_mm` is kept from outline and cut-outs.
  Reach(const Ring& outline, const std::vector<Ring>& cut_outs, double edge_gap_mm);

  /// Outer end (mm from the spine) of a strip of `width_mm` centred at height `z`: the gap short of the first cut met
  /// on the way out, over the strip's whole width. Cuts that run just above or below the strip are kept away from too,
  /// cut-outs by the whole gap, the outline by half of it. Meaningless below the spine's foot and above its top.
  double at(double z, double width_mm) const;

private:
  struct Edge {
    Point a, b;
    double clear_mm;
  };
  std::vector<Edge> edges_;
  double edge_gap_mm_;
};

/// The rows, from foot to top. The lowest and highest lie the edge gap from foot and top of the spine, or further in
/// where the leaf is pointed: at the first height where a row of 3 mm fits. The others are spaced evenly between them.
std::variant<std::vector<GlueRow>, design::Refusal> even_rows(const design::EvenRows& wish, const Leaf& leaf);

} // namespace fanwright::leaf
