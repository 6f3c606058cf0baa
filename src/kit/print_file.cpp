#include "drawing/decimal.h"
#include "kit/check_page.h"
#include "kit/leaf_lines.h"
#include "kit/page_measures.h"
#include "kit/print_files.h"
#include "kit/template_parts.h"

#include <array>
#include <optional>

namespace fanwright::kit {

namespace {

using drawing::decimal;
using drawing::Page;
using drawing::Point;

/// Backs are printed this much smaller all round, so that no mark shows beside the glue when the printer is off by as
/// much (front to back within 0.5 to 1 mm: common practice, no source).
constexpr double back_inset_mm = 0.5;

struct PrintPlan {
  sheets::Plan plan;
  bool across = false; ///< the leaf fits only with its grain across the page's
};

/// Strips to keep free along the top, the best first: for everything, for heading and scale, for neither.
constexpr std::array<double, 3> bands_mm = {53, 29, 0};

std::optional<sheets::Plan> plan_of(const Part& part, const PrintPaper& paper, sheets::Turns turns) {
  const sheets::Piece piece{"leaf", leaf::flatten(part.marks.cut, leaf::flatten_tolerance_mm), part.size->leaves};
  std::optional<sheets::Plan> best;
  for (auto band = bands_mm.rbegin(); band != bands_mm.rend(); ++band) {
    sheets::Sheet sheet{paper.name, paper.size, printed_margin_mm, part.size->sheet.gap_mm};
    sheet.size.height_mm -= *band;
    auto plan = sheets::lay_out(piece, sheet, turns);
    const auto* found = std::get_if<sheets::Plan>(&plan);
    if (found == nullptr || (best && found->pieces_per_sheet < best->pieces_per_sheet))
      break;
    best = *found;
  }
  return best;
}

std::optional<PrintPlan> plan_of(const Part& part, const PrintPaper& paper) {
  const bool along = part.size->paper.grain == paper::Grain::along_spine;
  if (auto plan = plan_of(part, paper, along ? sheets::Turns::upright : sheets::Turns::sideways))
    return PrintPlan{*plan, false};
  if (auto plan = plan_of(part, paper, along ? sheets::Turns::sideways : sheets::Turns::upright))
    return PrintPlan{*plan, true};
  return std::nullopt;
}

/// One file being made: what all its pages need.
struct Printing {
  const design::Design& design;
  const Part& part;
  const PrintPaper& paper;
  LeafCuts cuts;
  std::string title;
  bool marked = false; ///< rows are printed, on fronts and backs

  std::size_t sides() const { return marked ? 2 : 1; }
};

FreeRoom room_beside(const Printing& printing, const std::vector<Place>& leaves) {
  FreeRoom room(printing.paper.size.width_mm, printing.paper.size.height_mm, printed_margin_mm);
  for (const Place& place : leaves) {
    std::vector<Point> ring;
    for (const leaf::Point& point : printing.part.outline)
      ring.push_back(place(point));
    room.take(ring);
  }
  return room;
}

void add_fronts_marks(const Printing& printing, MeasuredPage& front) {
  if (!printing.marked)
    return;
  for (const Place& place : front.leaves) {
    add_inside_rows_with_name(front.page, printing.part.marks, place, printing.part.size->name + " leaf");
    add_rows(front.page, printing.part.marks, leaf::Face::outer, place, GlueLook::corners);
  }
}

std::string copies(const MeasuredPage& page) {
  return "print " + counted(static_cast<std::size_t>(page.copies), "copy", "copies") + " at 100 %";
}

/// Adds the front of one layout and, with printed marks, its back. `number` is the front's page number.
void add_sheet(const Printing& printing, const sheets::Layout& layout, std::size_t number, std::size_t all,
               std::vector<MeasuredPage>& pages) {
  const paper::SheetSize& size = printing.paper.size;
  const Point right{size.width_mm, 0};
  MeasuredPage front, back;
  front.shows = "front", back.shows = "back";
  front.copies = back.copies = layout.sheets;
  front.page = back.page = {size.width_mm, size.height_mm, {}};
  for (const sheets::Placement& placement : layout.placements) {
    front.leaves.push_back(on_sheet(placement, size.height_mm));
    back.leaves.push_back(from_behind(front.leaves.back(), size.width_mm));
  }
  add_cuts(front.page, printing.cuts, front.leaves);
  add_fronts_marks(printing, front);
  FreeRoom front_room = room_beside(printing, front.leaves), back_room = room_beside(printing, back.leaves);
  const std::string of = " of " + std::to_string(all);
  add_heading(front.page, front_room, printed_margin_mm, printing.title,
              "page " + std::to_string(number) + of + (printing.marked ? ", front: " : ": ") + copies(front) + ", " +
                  counted(front.leaves.size(), "leaf", "leaves") + " each, " +
                  decimal(printing.part.size->paper.grammage_gsm, 0) + " g/m2");
  add_measures(front, front_room, printed_margin_mm, {0, 0}, right);
  if (printing.marked) {
    add_heading(back.page, back_room, printed_margin_mm, printing.title,
                "page " + std::to_string(number + 1) + of + ", back of page " + std::to_string(number) +
                    ": turn the sheet over on its long edge");
    add_measures(back, back_room, printed_margin_mm, {0, 0}, right);
    add_meeting_crosses(front.page, back.page, front_room, back_room);
    for (const Place& place : back.leaves)
      add_rows(back.page, printing.part.marks, leaf::Face::outer, place, GlueLook::hatched, back_inset_mm);
  }
  const bool upright =
      (layout.placements.front().turn_deg % 180 == 0) == (printing.part.size->paper.grain == paper::Grain::along_spine);
  add_grain(front.page, front_room, right, upright);
  pages.push_back(std::move(front));
  if (printing.marked)
    pages.push_back(std::move(back));
}

std::vector<KeyLine> key_of(const Printing& printing) {
  std::vector<KeyLine> lines = {{Sample::cut, "cut, holes first"},
                                {Sample::score, "score, then fold this face inward"}};
  if (printing.marked) {
    lines.push_back({Sample::inside_hatched, "glue inside: half to half, on this face"});
    lines.push_back({Sample::between_corners, "glue between: lies on the back, here"});
    lines.push_back({Sample::between_hatched, "glue between: leaf to leaf, on backs"});
  }
  return lines;
}

std::vector<std::string> paragraphs_of(const Printing& printing, const PrintPlan& plan) {
  std::vector<std::string> list;
  std::string pages = "Pages to print: ";
  for (std::size_t i = 0; i < plan.plan.layouts.size(); ++i) {
    const sheets::Layout& layout = plan.plan.layouts[i];
    const std::size_t number = (i + 1) * printing.sides() + 1;
    pages += (i > 0 ? "; " : "") + std::string(printing.marked ? "pages " : "page ") + std::to_string(number) +
             (printing.marked ? " and " + std::to_string(number + 1) : "") + ", " +
             counted(static_cast<std::size_t>(layout.sheets), "sheet", "sheets") + " with " +
             counted(layout.placements.size(), "leaf", "leaves") + " each";
  }
  list.push_back(pages + ". " + std::to_string(printing.part.size->leaves) + " leaves in all, " +
                 decimal(printing.part.size->paper.grammage_gsm, 0) + " g/m2.");
  if (printing.marked) {
    list.push_back("On both sides: print fronts and backs, the sheets turned over on their long edge. The front is the "
                   "face that is folded inward. Each glue place is then printed on the face where glue goes.");
    list.push_back("On one side: print the odd pages alone. Small corners on the front show where the glue between the "
                   "leaves goes on the back: prick them through, hold the leaf against a window, or use the stencil.");
  } else {
    list.push_back("No glue places are printed: the stencil shows them" +
                   std::string(printing.cuts.nicks.empty()
                                   ? "."
                                   : ", and so do nicks across the fold: one, glue inside; two, glue between."));
  }
  if (plan.across)
    list.push_back("The leaves lie across this page: take paper with its grain along the page's short side.");
  return list;
}

std::vector<MeasuredPage> laid_out(const Printing& printing, const PrintPlan& plan) {
  std::vector<MeasuredPage> pages;
  const std::size_t all = (plan.plan.layouts.size() + 1) * printing.sides();
  CheckWords words{printing.title, "page 1 of " + std::to_string(all), paragraphs_of(printing, plan), key_of(printing)};
  pages.push_back(check_page(printing.paper.size, words, printing.marked).measured);
  if (printing.marked) {
    words.number = "page 2 of " + std::to_string(all);
    pages.push_back(check_back(printing.paper.size, words));
  }
  for (const sheets::Layout& layout : plan.plan.layouts)
    add_sheet(printing, layout, pages.size() + 1, all, pages);
  return pages;
}

} // namespace

std::vector<PrintPaper> print_papers() {
  // ISO 216; ANSI/ASME Y14.1 (8.5 x 11 in).
  return {{"A4", {210, 297}}, {"letter", {215.9, 279.4}}};
}

PrintFile print_file(const design::Design& design, const Part& part, const PrintPaper& paper) {
  design::Making by_hand = design.making; // dashed scores are for machines
  by_hand.score = design::ScoreStyle::line;
  const Printing printing{design,
                          part,
                          paper,
                          leaf_cuts(part.leaf, part.marks, by_hand),
                          design.title + ", " + part.size->name,
                          design.making.marks == design::MarkStyle::printed};
  PrintFile file{"print-" + std::string(paper.name) + ".pdf", paper.name, {}, {}};
  if (const auto plan = plan_of(part, paper)) {
    file.about = "all leaves to print on " + file.sheet + " and cut by hand; its first page says how";
    file.pages = laid_out(printing, *plan);
  } else {
    file.about = "the leaf is larger than " + file.sheet + ": one template of it in parts, to join and trace";
    file.pages = template_pages(design, part, paper, TemplateShape::whole);
  }
  return file;
}

} // namespace fanwright::kit
