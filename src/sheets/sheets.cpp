#include "sheets/sheets.h"

#include "sheets/polygon.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace fanwright::sheets {

namespace {

constexpr double tight_mm = 0.01;      // pieces are pushed together to within this: far below what a knife can tell
constexpr double rounding_mm = 1e-6;   // distances of places a page's length from the origin carry this much rounding
constexpr double slide_step_mm = 0.5;  // first, coarse search for how far a piece can slide to its neighbour
constexpr int most_per_sheet = 20'000; // a square millimetre a piece on the largest sheets: beyond any use

leaf::Ring turned(const leaf::Ring& ring, int turn_deg) {
  leaf::Ring result;
  for (const leaf::Point& p : ring)
    result.push_back(placed({turn_deg, 0, 0}, p));
  return result;
}

leaf::Ring moved(leaf::Ring ring, double x, double z) {
  for (leaf::Point& p : ring)
    p = {p.x + x, p.z + z};
  return ring;
}

/// The piece in one turn, its box beginning at (0, 0).
struct Standing {
  int turn_deg = 0;
  double x = 0, z = 0; ///< the move that brings the turned piece's box to the origin
  leaf::Ring ring;
  double width = 0, height = 0;
};

Standing standing(const leaf::Ring& outline, int turn_deg) {
  const leaf::Ring ring = turned(outline, turn_deg);
  const Box box = box_of(ring);
  return {turn_deg, -box.left, -box.bottom, moved(ring, -box.left, -box.bottom), box.width(), box.height()};
}

/// How near `next` comes to `fixed` when it moves from `start` along (along_x, along_z) towards 0 and stops at `gap`.
/// A distance d allows a move of d - gap at once; smaller moves than slide_step_mm are searched by halving.
double slide(const Polygon& fixed, const leaf::Ring& next, double along_x, double along_z, double start, double gap) {
  const auto spare = [&](double move) {
    return fixed.distance(Polygon(moved(next, along_x * move, along_z * move))) - gap;
  };
  double good = start, room = spare(start);
  while (good > 0) {
    double nearer = std::max(0.0, good - std::max(room, slide_step_mm));
    room = spare(nearer);
    if (room >= 0) {
      good = nearer;
      continue;
    }
    while (good - nearer > tight_mm) {
      const double middle = (good + nearer) / 2;
      (spare(middle) >= 0 ? good : nearer) = middle;
    }
    break;
  }
  return good;
}

/// A pattern of two alternating turns: first, second, first ... along a row, rows one above the other.
struct Pattern {
  Standing first, second;
  double first_to_second = 0, second_to_first = 0; ///< moves of the box's left edge along the row, mm
  double row_step = 0;                             ///< from row to row, mm
};

std::vector<double> row_places(const Pattern& pattern, double usable_width) {
  std::vector<double> places;
  double at = 0;
  while (places.size() < most_per_sheet) {
    const bool even = places.size() % 2 == 0;
    if (at + (even ? pattern.first : pattern.second).width > usable_width + rounding_mm)
      break;
    places.push_back(at);
    at += even ? pattern.first_to_second : pattern.second_to_first;
  }
  return places;
}

/// Rows are alike, so a row's distance to the next is that of any piece to the pieces around its place one row up.
double row_step(const Pattern& pattern, double gap) {
  const double apart = std::max(pattern.first.height, pattern.second.height) + gap;
  const Polygon first(pattern.first.ring), second(pattern.second.ring);
  const double cycle = pattern.first_to_second + pattern.second_to_first;
  double step = 0;
  for (int k = -2; k <= 2; ++k) {
    const double even = k * cycle, odd = k * cycle + pattern.first_to_second;
    step = std::max(step, slide(first, moved(pattern.first.ring, even, 0), 0, 1, apart, gap));
    step = std::max(step, slide(first, moved(pattern.second.ring, odd, 0), 0, 1, apart, gap));
    step = std::max(step, slide(second, moved(pattern.second.ring, even, 0), 0, 1, apart, gap));
    step =
        std::max(step, slide(second, moved(pattern.first.ring, even - pattern.first_to_second, 0), 0, 1, apart, gap));
  }
  return step;
}

Pattern pattern_of(const leaf::Ring& outline, int first_turn, int second_turn, double gap) {
  Pattern pattern{standing(outline, first_turn), standing(outline, second_turn), 0, 0, 0};
  const Polygon first(pattern.first.ring), second(pattern.second.ring);
  const double half_cycle = pattern.first.width + gap;
  pattern.first_to_second = slide(first, pattern.second.ring, 1, 0, half_cycle, gap);
  pattern.second_to_first = slide(second, pattern.first.ring, 1, 0, half_cycle, gap);
  // Deep hollows could let the piece after next come too near: open the row until it does not.
  const double cycle = slide(first, pattern.first.ring, 1, 0, half_cycle, gap);
  const double short_by = cycle - pattern.first_to_second - pattern.second_to_first;
  if (short_by > 0)
    pattern.second_to_first += short_by;
  pattern.row_step = row_step(pattern, gap);
  return pattern;
}

std::vector<Placement> filled(const Pattern& pattern, const Sheet& sheet) {
  const double width = sheet.size.width_mm - 2 * sheet.margin_mm, height = sheet.size.height_mm - 2 * sheet.margin_mm;
  const std::vector<double> row = row_places(pattern, width);
  std::vector<Placement> placements;
  for (double level = 0; level + pattern.first.height <= height + rounding_mm && !row.empty();
       level += pattern.row_step) {
    for (std::size_t i = 0; i < row.size() && placements.size() < most_per_sheet; ++i) {
      const Standing& piece = i % 2 == 0 ? pattern.first : pattern.second;
      placements.push_back({piece.turn_deg, sheet.margin_mm + row[i] + piece.x, sheet.margin_mm + level + piece.z});
    }
    if (pattern.row_step <= tight_mm || placements.size() >= most_per_sheet)
      break;
  }
  return placements;
}

std::string mm(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", value);
  return text;
}

bool holds(const paper::SheetSize& size, const Sheet& like, const Box& box, Turns turns) {
  const double width = size.width_mm - 2 * like.margin_mm + rounding_mm;
  const double height = size.height_mm - 2 * like.margin_mm + rounding_mm;
  const bool upright = turns != Turns::sideways && box.width() <= width && box.height() <= height;
  const bool sideways = turns != Turns::upright && box.height() <= width && box.width() <= height;
  return upright || sideways;
}

std::string advice(const Sheet& sheet, const Box& box, Turns turns) {
  constexpr std::array<const char*, 9> common = {"A4", "letter", "legal", "12x12in", "A3", "tabloid", "A2", "A1", "A0"};
  for (const char* name : common)
    if (const auto size = paper::sheet_size(name); size && holds(*size, sheet, box, turns))
      return std::string("; ") + name + " would hold it, or make this size smaller.";
  return "; no common sheet would hold it: make this size smaller.";
}

Refusal too_large(const Piece& piece, const Sheet& sheet, const Box& box, Turns turns) {
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

/// Box beside box: sound for every outline, so it stands in where a closer pattern fails the check.
Pattern boxed(const leaf::Ring& outline, int turn, double gap) {
  const Standing piece = standing(outline, turn);
  return {piece, piece, piece.width + gap, piece.width + gap, piece.height + gap};
}

std::vector<Placement> fullest(const Piece& piece, const Sheet& sheet, Turns turns) {
  std::vector<std::array<int, 2>> choices;
  if (turns != Turns::sideways)
    choices.insert(choices.end(), {{0, 0}, {0, 180}});
  if (turns != Turns::upright)
    choices.insert(choices.end(), {{90, 90}, {90, 270}});
  std::vector<Placement> best;
  for (const auto& [first, second] : choices) {
    const double gap = sheet.gap_mm + curve_allowance_mm;
    std::vector<Placement> placements = filled(pattern_of(piece.outline, first, second, gap), sheet);
    if (fault({placements, 1}, piece, sheet))
      placements = filled(boxed(piece.outline, first, gap), sheet);
    if (placements.size() > best.size())
      best = placements;
  }
  return best;
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

std::variant<Plan, Refusal> lay_out(const Piece& piece, const Sheet& sheet, Turns turns) {
  if (piece.outline.size() < 3 || piece.count < 1)
    return Refusal{"There is no " + piece.name + " to lay on a sheet."};
  const Box box = box_of(piece.outline);
  if (!holds(sheet.size, sheet, box, turns))
    return too_large(piece, sheet, box, turns);
  const std::vector<Placement> full = fullest(piece, sheet, turns);
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
  std::vector<Polygon> areas;
  std::vector<Box> boxes;
  for (const Placement& placement : layout.placements) {
    leaf::Ring ring;
    for (const leaf::Point& p : piece.outline)
      ring.push_back(placed(placement, p));
    const Box box = box_of(ring);
    const double edge =
        std::min({box.left, box.bottom, sheet.size.width_mm - box.right, sheet.size.height_mm - box.top});
    if (edge < sheet.margin_mm - rounding_mm)
      return "a " + piece.name + " comes within " + mm(edge) + " mm of the sheet's edge.";
    for (std::size_t i = 0; i < areas.size(); ++i) {
      const Box& other = boxes[i];
      const double apart =
          std::max({other.left - box.right, box.left - other.right, other.bottom - box.top, box.bottom - other.top});
      if (apart >= sheet.gap_mm)
        continue;
      if (const double distance = areas[i].distance(Polygon(ring)); distance < sheet.gap_mm - rounding_mm)
        return "two pieces of " + piece.name + " come within " + mm(distance) + " mm of each other.";
    }
    areas.emplace_back(ring);
    boxes.push_back(box);
  }
  return std::nullopt;
}

} // namespace fanwright::sheets
