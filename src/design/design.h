// The design file as plain values, already validated for shape, type and range (geometry is validated in src/leaf).
// Lengths are mm whatever unit the file used; y of the file's path is up from the foot and called z inside.
#pragma once

#include "paper/paper.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::design {

/// Why a file is refused. `where` is a JSON pointer ("/rows/2/from") or "line 3, column 14".
struct Refusal {
  std::string where;
  std::string sentence; ///< one sentence for the maker: what was found, what is allowed, what to do
};

/// inside: the two halves of one leaf to each other (wall A). between: to the neighbouring leaf (wall B).
enum class Side { inside, between };

/// Whose outline the silhouette is.
enum class Shows { opened, flat };

/// Rows spaced evenly up the leaf, alternating sides.
struct EvenRows {
  int count = 11;
  Side first = Side::inside; ///< side of the lowest row
  double width_mm = 3.0;
  double spine_gap_mm = 3.0; ///< from the spine to the row's inner end
  double edge_gap_mm = 3.0;  ///< from the row's outer end to the outline, and from foot and top
};

/// One row given by its centre line, in leaf coordinates of the file (before scaling to a size).
struct ListedRow {
  Side side = Side::inside;
  double from_x_mm = 0, from_z_mm = 0;
  double to_x_mm = 0, to_z_mm = 0;
  double width_mm = 3.0;
};

using Rows = std::variant<EvenRows, std::vector<ListedRow>>;

/// The sheet that pieces are laid out on.
struct Sheet {
  std::string name = "A4"; ///< trade name, or "custom"
  paper::SheetSize size;
  double margin_mm = 6.0;
  double gap_mm = 2.0;
};

/// One member of the family, fully resolved: nothing to inherit any more.
struct Size {
  std::string name;
  std::optional<double> height_mm; ///< scale the silhouette to this height; empty: as drawn
  int leaves = 46;
  double opening_deg = 360.0;
  Rows rows;
  paper::Paper paper;
  Sheet sheet;
  std::string where; ///< JSON pointer of this size ("/sizes/0", or "" when the file lists none)
};

struct Design {
  std::string title;
  std::string colour = "#c8563c"; ///< of the paper, sRGB #rrggbb, for pictures
  std::string silhouette_path;    ///< SVG path data; coordinates in file units
  double units_to_mm = 1.0;       ///< multiply coordinates of silhouette_path by this
  Shows shows = Shows::flat;
  std::vector<Size> sizes; ///< at least one
};

/// Parses and validates the text of a design file (UTF-8 JSON, at most 1 MiB, nested at most 32 deep).
std::variant<Design, Refusal> parse(std::string_view text);

} // namespace fanwright::design
