#include "kit/halves.h"

#include "kit/size_sheet.h"
#include "leaf/contour.h"
#include "sheets/split.h"

#include <cmath>

namespace fanwright::kit {

namespace {

constexpr double outline_tolerance_mm = 0.001;

HalfPiece piece_of(const leaf::Marks& whole, leaf::Half half, const leaf::Contour& outline,
                   const std::vector<leaf::Contour>& holes) {
  HalfPiece piece{{outline, holes, whole.score_foot, whole.score_top, {}},
                  leaf::flatten(outline, outline_tolerance_mm)};
  for (const leaf::GlueMark& mark : whole.glue)
    if (mark.half == half)
      piece.marks.glue.push_back(mark);
  return piece;
}

sheets::Kind kind_of(const std::string& name, const leaf::Marks& marks, int count, sheets::Turns turns) {
  sheets::Kind kind{name, leaf::flatten(marks.cut, leaf::flatten_tolerance_mm), {}, count, turns, false};
  for (const leaf::Contour& hole : marks.cut_outs)
    kind.cut_outs.push_back(leaf::flatten(hole, leaf::flatten_tolerance_mm));
  return kind;
}

} // namespace

std::variant<Halves, sheets::Refusal> halves_of(const leaf::Leaf& leaf, const leaf::Marks& marks,
                                                const design::Size& size, double lap_mm, bool margin_serves) {
  auto split = sheets::split_at_spine(leaf, lap_mm);
  if (auto* refusal = std::get_if<sheets::Refusal>(&split))
    return std::move(*refusal);
  const auto& found = std::get<sheets::SplitLeaf>(split);
  Halves halves{piece_of(marks, leaf::Half::right, found.right, found.right_holes),
                piece_of(marks, leaf::Half::left, found.left, found.left_holes),
                lap_mm,
                found.glue,
                {}};
  const sheets::Turns turns = turns_for(size);
  sheets::Job job{{kind_of("right half with lap", halves.right.marks, size.leaves, turns),
                   kind_of("left half", halves.left.marks, size.leaves, turns)},
                  {{sheet_of(size.sheet), false, 0, {}}}};
  const sheets::Effort quick{4 * sheets::quick_work, 1, {}, {}};
  auto without = sheets::plan(job, quick);
  if (auto* refusal = std::get_if<sheets::Refusal>(&without))
    return std::move(*refusal);
  job.stocks[0].sheet = less_notes(job.stocks[0].sheet);
  auto with_band = sheets::plan(job, quick);
  const auto* roomy = std::get_if<sheets::JobPlan>(&with_band);
  const auto& tight = std::get<sheets::JobPlan>(without);
  if (roomy == nullptr && !margin_serves)
    return sheets::Refusal{
        "A half of the leaf fills the sheet, and the ruler has no place beside it; use a larger sheet, "
        "a margin of at least 5 mm, or make this size smaller."};
  const bool banded = roomy != nullptr && (!margin_serves || roomy->sheets_in_all <= tight.sheets_in_all);
  halves.plan = banded ? *roomy : tight;
  return halves;
}

making::Laps laps_of(const Halves& halves) {
  const auto area = [](const HalfPiece& half) { return std::abs(leaf::signed_area(half.marks.cut)); };
  const leaf::Ring glued{halves.glue.begin(), halves.glue.end()};
  return {std::abs(leaf::signed_area(glued)), area(halves.right) - area(halves.left)};
}

} // namespace fanwright::kit
