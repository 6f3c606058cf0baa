#include "leaf/leaf.h"

#include "leaf/auto_rows.h"
#include "leaf/contour.h"
#include "leaf/even_rows.h"
#include "leaf/listed_rows.h"
#include "leaf/silhouette.h"

namespace fanwright::leaf {
namespace {

using design::Refusal;

std::variant<std::vector<GlueRow>, Refusal> rows_of(const design::Design& design, const design::Size& size,
                                                    const Leaf& leaf, double scale) {
  if (const auto* wish = std::get_if<design::AutoRows>(&size.rows))
    return auto_rows(*wish, leaf, circumstances_of(design, size));
  if (const auto* wish = std::get_if<design::EvenRows>(&size.rows))
    return even_rows(*wish, leaf);
  return listed_rows(std::get<std::vector<design::ListedRow>>(size.rows), leaf, scale);
}

/// A family's sizes share silhouette and rows in the file, so the sentence says which size is at fault.
Refusal naming_size(Refusal refusal, const design::Design& design, const design::Size& size) {
  if (design.sizes.size() > 1)
    refusal.sentence = "In the size '" + size.name + "': " + refusal.sentence;
  return refusal;
}

} // namespace

std::variant<Leaf, Refusal> build(const design::Design& design, const design::Size& size) {
  auto cut = silhouette(design, size);
  if (const auto* refusal = std::get_if<Refusal>(&cut))
    return naming_size(*refusal, design, size);
  Silhouette& lines = std::get<Silhouette>(cut);
  Leaf leaf;
  leaf.outline = std::move(lines.outline);
  leaf.cut_outs = std::move(lines.cut_outs);
  leaf.spine_foot_z = leaf.outline.start.z;
  leaf.spine_top_z = end_of(leaf.outline.segments[leaf.outline.segments.size() - 2]).z;
  auto rows = rows_of(design, size, leaf, lines.scale);
  if (const auto* refusal = std::get_if<Refusal>(&rows))
    return naming_size(*refusal, design, size);
  leaf.rows = std::get<std::vector<GlueRow>>(std::move(rows));
  return leaf;
}

} // namespace fanwright::leaf
