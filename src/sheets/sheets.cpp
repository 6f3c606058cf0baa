#include "sheets/sheets.h"

#include "leaf/contour.h"
#include "sheets/exact.h"
#include "sheets/fullest.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace fanwright::sheets {

namespace {

constexpr double rounding_mm = 1e-6; // a sum of lengths written in mm carries less
constexpr double um_per_mm = 1000;

std::string mm(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", value);
  return text;
}

bool holds(const paper::SheetSize& size, const Sheet& like, const leaf::Box& box, Turns turns) {
  const double width = size.width_mm - 2 * like.margin_mm + rounding_mm;
  const double height = size.height_mm - 2 * like.margin_mm + rounding_mm;
  const bool upright = turns != Turns::sideways && box.width() <= width && box.height() <= height;
  const bool sideways = turns != Turns::upright && box.height() <= width && box.width() <= height;
  return upright || sideways;
}

std::string advice(const Sheet& sheet, const leaf::Box& box, Turns turns) {
  constexpr std::array<const char*, 9> common = {"A4", "letter", "legal", "12x12in", "A3", "tabloid", "A2", "A1", "A0"};
  for (const char* name : common)
    if (const auto size = paper::sheet_size(name); size && holds(*size, sheet, box, turns))
      return std::string("; ") + name +
             " would hold it; or make this size smaller, or split it at the spine with a lap.";
  return "; no common sheet would hold it: make this size smaller, or split it at the spine with a lap.";
}

Refusal too_large(const Piece& piece, const Sheet& sheet, const leaf::Box& box, Turns turns) {
  std::string sentence = "The unfolded " + piece.name + " is " + mm(box.width()) + " x " + mm(box.height()) +
                         " mm, but the sheet (" + sheet.name + ") with its margin of " + mm(sheet.margin_mm) +
                         " mm leaves " + mm(std::max(0.0, sheet.size.width_mm - 2 * sheet.margin_mm)) + " x " +
                         mm(std::max(0.0, sheet.size.height_mm - 2 * sheet.margin_mm)) + " mm";
  if (turns == Turns::sideways)
    sentence += ", and the grain asks for the spine to lie across the sheet";
  else if (turns == Turns::upright && holds(sheet.size, sheet, box, Turns::sideways))
    sentence += ", and the grain does not let it lie sideways";
  return {sentence + advice(sheet, box, turns)};
}

std::vector<Stance> stances_of(Turns turns) {
  switch (turns) {
  case Turns::upright:
    return {{0, false}, {180, false}};
  case Turns::sideways:
    return {{90, false}, {270, false}};
  default:
    return {{0, false}, {90, false}, {180, false}, {270, false}};
  }
}

std::vector<Placement> fullest(const Piece& piece, const Sheet& sheet, Turns turns, const Effort& effort) {
  Sheet roomier = sheet;
  roomier.gap_mm += curve_allowance_mm;
  const OneKind kind{profile_of(piece.outline), shape_of(piece.outline), stances_of(turns)};
  std::vector<Placement> placements;
  const Gaps gaps{gap_um(sheet), rounded_gap_um(roomier)};
  const Fullest full = fullest_sheet(kind, usable(roomier), gaps, static_cast<std::size_t>(piece.count), effort);
  for (const Laid& one : full.pieces)
    placements.push_back(
        {one.stance.turn_deg, static_cast<double>(one.at.x) / um_per_mm, static_cast<double>(one.at.z) / um_per_mm});
  return placements;
}

} // namespace

leaf::Point placed(const Placement& placement, const leaf::Point& p) {
  switch (((placement.turn_deg % 360) + 360) % 360) {
  case 90:
    return {placement.x_mm - p.z, placement.z_mm + p.x};
  case 180:
    return {placement.x_mm - p.x, placement.z_mm - p.z};
  case 270:
    return {placement.x_mm + p.z, placement.z_mm - p.x};
  default:
    return {placement.x_mm + p.x, placement.z_mm + p.z};
  }
}

std::variant<Plan, Refusal> lay_out(const Piece& piece, const Sheet& sheet, Turns turns, const Effort& effort) {
  if (piece.outline.size() < 3 || piece.count < 1)
    return Refusal{"There is no " + piece.name + " to lay on a sheet."};
  const leaf::Box box = leaf::bounds(piece.outline);
  if (!holds(sheet.size, sheet, box, turns))
    return too_large(piece, sheet, box, turns);
  const std::vector<Placement> full = fullest(piece, sheet, turns, effort);
  if (full.empty())
    return Refusal{"No layout of the " + piece.name + " passed the check; make the gap or the margin wider."};
  const int per_sheet = static_cast<int>(full.size());
  Plan plan;
  plan.pieces_per_sheet = per_sheet;
  plan.sheets = (piece.count + per_sheet - 1) / per_sheet;
  const int left_over = piece.count % per_sheet;
  if (piece.count >= per_sheet)
    plan.layouts.push_back({full, piece.count / per_sheet});
  if (left_over > 0)
    plan.layouts.push_back({{full.begin(), full.begin() + left_over}, 1});
  for (const Layout& layout : plan.layouts)
    if (const auto sentence = fault(layout, piece, sheet))
      return Refusal{"The layout failed its own check: " + *sentence};
  return plan;
}

std::optional<std::string> fault(const Layout& layout, const Piece& piece, const Sheet& sheet) {
  const Shape shape = shape_of(piece.outline);
  std::vector<Shape> shapes;
  for (const Placement& placement : layout.placements) {
    leaf::Ring ring;
    for (const leaf::Point& p : piece.outline)
      ring.push_back(placed(placement, p));
    const leaf::Box box = leaf::bounds(ring);
    const double edge =
        std::min({box.left, box.bottom, sheet.size.width_mm - box.right, sheet.size.height_mm - box.top});
    if (edge < sheet.margin_mm - rounding_mm)
      return "a " + piece.name + " comes within " + mm(edge) + " mm of the sheet's edge.";
    shapes.push_back(moved(laid(shape, {placement.turn_deg, false}),
                           {std::llround(placement.x_mm * um_per_mm), std::llround(placement.z_mm * um_per_mm)}));
  }
  if (first_conflict(shapes, gap_um(sheet)))
    return "two pieces of " + piece.name + " come nearer to each other than " + mm(sheet.gap_mm) + " mm.";
  return std::nullopt;
}

} // namespace fanwright::sheets
