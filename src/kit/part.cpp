#include "kit/part.h"

#include "fan/check_fans.h"
#include "fit/leaf_of.h"
#include "fit/remedy.h"
#include "fit/tolerances.h"
#include "kit/size_sheet.h"

#include <algorithm>

namespace fanwright::kit {

namespace {

constexpr double box_tolerance_mm = 0.001; // the box is printed to 0.01 mm
constexpr double formed_share = 0.5;       // of the work on a part: its form; the rest is the spread
constexpr double least_margin_mm = 5;      // printers leave out 3 to 4 mm at the edge (common practice, no source)

void measure(Part& part) {
  part.outline = leaf::flatten(part.marks.cut, box_tolerance_mm);
  const auto [left, right] = std::minmax_element(part.outline.begin(), part.outline.end(),
                                                 [](const auto& a, const auto& b) { return a.x < b.x; });
  const auto [bottom, top] = std::minmax_element(part.outline.begin(), part.outline.end(),
                                                 [](const auto& a, const auto& b) { return a.z < b.z; });
  part.left_mm = left->x;
  part.bottom_mm = bottom->z;
  part.width_mm = right->x - left->x;
  part.height_mm = top->z - bottom->z;
}

/// Two halves with a lap, where the sheet does not take the leaf whole.
std::optional<Problem> lay_out_halves(Part& part, double lap_mm, bool margin_serves) {
  auto halves = halves_of(part.leaf, part.marks, *part.size, lap_mm, margin_serves);
  if (const auto* refusal = std::get_if<sheets::Refusal>(&halves))
    return Problem{Cause::form, part.size->where + "/sheet", refusal->sentence};
  part.halves = std::get<Halves>(std::move(halves));
  part.plan.sheets = part.halves->plan.sheets_in_all;
  return std::nullopt;
}

/// Notes get a strip of their own where that costs no leaf; else they lie in the margin, if it is wide enough.
std::optional<Problem> lay_out(Part& part, double lap_mm) {
  const design::Sheet& wanted = part.size->sheet;
  const sheets::Piece piece{"leaf", leaf::flatten(part.marks.cut, leaf::flatten_tolerance_mm), part.size->leaves};
  const sheets::Sheet whole = sheet_of(wanted);
  const auto with_band = sheets::lay_out(piece, less_notes(whole), turns_for(*part.size));
  const auto without = sheets::lay_out(piece, whole, turns_for(*part.size));
  const auto* roomy = std::get_if<sheets::Plan>(&with_band);
  const auto* tight = std::get_if<sheets::Plan>(&without);
  const bool margin_serves = wanted.margin_mm >= least_margin_mm;
  if (roomy != nullptr && (!margin_serves || roomy->pieces_per_sheet == tight->pieces_per_sheet)) {
    part.plan = *roomy;
    return std::nullopt;
  }
  if (tight != nullptr && margin_serves) {
    part.plan = *tight;
    return std::nullopt;
  }
  if (tight == nullptr && lap_mm > 0)
    return lay_out_halves(part, lap_mm, margin_serves);
  const std::string where = part.size->where + "/sheet";
  if (tight != nullptr)
    return Problem{Cause::form, where,
                   "The leaf fills the sheet, and the ruler has no place beside it; use a larger sheet, a margin of at "
                   "least 5 mm, or make this size smaller."};
  return Problem{Cause::form, where, std::get<sheets::Refusal>(without).sentence};
}

/// Fans that cannot spread are sound in the file; everything else that make() refuses is a mistake in it.
std::optional<Problem> add_fans(const design::Design& design, Part& part) {
  auto fans = fan::fans_of(design, *part.size);
  if (const auto* refusal = std::get_if<design::Refusal>(&fans))
    return Problem{fan::fails_check(*refusal) ? Cause::form : Cause::design, refusal->where, refusal->sentence};
  part.fans = std::get<std::vector<fan::SizedFan>>(std::move(fans));
  auto layouts = fan_layouts(part.fans, part.size->sheet);
  if (const auto* refusal = std::get_if<design::Refusal>(&layouts))
    return Problem{Cause::form, part.size->where + "/sheet", refusal->sentence};
  part.fan_layouts = std::get<std::vector<FanLayout>>(std::move(layouts));
  return std::nullopt;
}

/// With its form where that is found on the way to the leaf; flat leaves are opened later, by open().
std::variant<fit::OpenedLeaf, fit::Failure> leaf_for(const design::Design& design, const design::Size& size,
                                                     const fit::Options& options) {
  if (design.shows == design::Shows::opened)
    return fit::opened_leaf(design, size, options);
  auto drawn = fit::leaf_of(design, size, options);
  if (auto* failure = std::get_if<fit::Failure>(&drawn))
    return std::move(*failure);
  return fit::OpenedLeaf{std::get<leaf::Leaf>(std::move(drawn)), {}, 1, {}};
}

/// Opens the part's leaf, if that was not done on the way to it.
std::optional<Problem> open_leaf(Part& part, const opened::Panel& panel, const opened::Options& options) {
  if (!part.form.mesh.points.empty())
    return std::nullopt;
  auto opened = opened::open(panel, options);
  if (options.cancelled && options.cancelled())
    return stopped();
  if (const auto* failure = std::get_if<opened::Failure>(&opened))
    return Problem{Cause::form, part.size->where, failure->sentence};
  part.form = std::get<opened::Form>(std::move(opened));
  return std::nullopt;
}

} // namespace

std::variant<Part, Problem> planned(const design::Design& design, const design::Size& size,
                                    const std::function<void(double)>& progress, const std::function<bool()>& cancelled,
                                    double lap_mm) {
  auto built = leaf_for(design, size, {progress, cancelled});
  if (const auto* failure = std::get_if<fit::Failure>(&built); failure != nullptr && cancelled && cancelled())
    return stopped();
  if (const auto* failure = std::get_if<fit::Failure>(&built))
    return Problem{failure->fails_check ? Cause::form : Cause::design, failure->where,
                   fit::refusal_of(*failure, fit::remedies(design, size, *failure, {{}, cancelled}))};
  auto& found = std::get<fit::OpenedLeaf>(built);
  auto part = laid_out(size, std::move(found.leaf), lap_mm);
  if (auto* planned = std::get_if<Part>(&part)) {
    planned->form = std::move(found.form);
    planned->remarks = std::move(found.remarks);
    if (auto problem = add_fans(design, *planned))
      return *problem;
  }
  return part;
}

std::variant<Part, Problem> laid_out(const design::Size& size, leaf::Leaf leaf, double lap_mm) {
  Part part;
  part.size = &size;
  part.leaf = std::move(leaf);
  part.marks = leaf::marks(part.leaf);
  measure(part);
  if (auto problem = lay_out(part, lap_mm))
    return *problem;
  return part;
}

std::optional<Problem> open(Part& part, const std::function<void(double)>& progress,
                            const std::function<bool()>& cancelled) {
  opened::Options options;
  options.progress = [&](double done) { progress(formed_share * done); };
  options.cancelled = cancelled;
  const opened::Panel panel = opened::panel_of(part.leaf, *part.size);
  if (auto problem = open_leaf(part, panel, options))
    return problem;
  if (part.form.lock_ratio > fit::tolerance::most_lock)
    return Problem{Cause::form, part.size->where, fit::lock_sentence(part.form.lock_ratio, part.size->leaves)};
  options.progress = [&](double done) { progress(formed_share + (1 - formed_share) * done); };
  auto spread = opened::spread(panel, part.form, options);
  if (cancelled && cancelled())
    return stopped();
  if (const auto* found = std::get_if<opened::Spread>(&spread))
    part.spread = *found;
  return std::nullopt;
}

std::optional<Problem> take_seats(const design::Design& design, Part& part) {
  const bool stands = design.making.display == design::Display::stands;
  const design::Size& size = *part.size;
  auto seats = fan::seated_fans(part.fans, part.form, size.leaves, size.paper, stands);
  if (const auto* refused = std::get_if<fan::Unseated>(&seats))
    return Problem{Cause::form, refused->why.where, refused->why.sentence};
  part.seats = std::get<std::vector<fan::SeatedFan>>(std::move(seats));
  if (!part.seats.empty())
    part.figure = fan::figure_with(part.fans, part.seats, part.form, size.leaves, size.paper, stands);
  return std::nullopt;
}

Problem stopped() { return {Cause::cancelled, "", "Stopped before the kit was complete; nothing was changed."}; }

} // namespace fanwright::kit
