// Layout of identical pieces on sheets. Sheet coordinates: mm, x right from the left edge, z up from the bottom edge.
// Plain values in and out; deterministic.
#pragma once

#include "leaf/outline.h"
#include "paper/paper.h"
#include "sheets/effort.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::sheets {

/// Room for the exact curve beside its chords (leaf::flatten_tolerance_mm on either piece), mm: kept on top of the gap.
inline constexpr double curve_allowance_mm = 0.05;

/// What is to be cut, and how often. `outline` is closed, in its own coordinates, mm, at most 20,000 points.
struct Piece {
  std::string name; ///< as the maker calls it: "leaf"
  leaf::Ring outline;
  int count = 1; ///< 1..100,000
};

/// The sheet; margin and gap in mm. `name` is its trade name, or "custom".
struct Sheet {
  std::string name = "A4";
  paper::SheetSize size;
  double margin_mm = 6.0;
  double gap_mm = 2.0; ///< least distance between neighbouring pieces
};

/// How the pieces may be turned, by the grain they need: upright 0 and 180, sideways 90 and 270 degrees.
enum class Turns { upright, sideways, either };

/// The piece turned by `turn_deg` (0, 90, 180, 270, anticlockwise) about its own origin, then moved by (x, z).
struct Placement {
  int turn_deg = 0;
  double x_mm = 0, z_mm = 0;
};

/// One arrangement, and how many sheets are cut with it.
struct Layout {
  std::vector<Placement> placements;
  int sheets = 1;
};

struct Plan {
  std::vector<Layout> layouts; ///< full sheets first; then, if leaves are left over, the last sheet
  int pieces_per_sheet = 0;    ///< on a full sheet
  int sheets = 0;              ///< in all
};

/// Why no layout could be made; `sentence` is for the maker and gives sizes in mm.
struct Refusal {
  std::string sentence;
};

/// Work that takes a tenth of a second for a leaf.
inline constexpr std::int64_t quick_work = 400'000;

/// Pieces in an endless pattern, turned by 180 degrees where that packs closer, as tight as gap and margin allow;
/// then a search for more pieces on the sheet. Every
/// layout is checked with fault() before it is returned. Refuses a piece that does not fit the sheet.
std::variant<Plan, Refusal> lay_out(const Piece& piece, const Sheet& sheet, Turns turns,
                                    const Effort& effort = {quick_work, 1, {}, {}});

/// Where the placement puts a point of the piece.
leaf::Point placed(const Placement& placement, const leaf::Point& point);

/// Exact check of one layout in whole micrometres: empty when every piece keeps the margin and every pair keeps the
/// gap, otherwise a sentence that names the first fault.
std::optional<std::string> fault(const Layout& layout, const Piece& piece, const Sheet& sheet);

} // namespace fanwright::sheets
