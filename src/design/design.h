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

/// How the cells between rows that place themselves look: few and tall, as usual, or many and low.
enum class Look { open, usual, dense };

/// Rows that place themselves by silhouette, leaf count and look, alternating sides; what is empty follows the glue.
struct AutoRows {
  Look look = Look::usual;
  Side first = Side::inside;          ///< side of the lowest and of the highest row
  std::optional<double> width_mm;     ///< empty: what the pressed bead needs
  std::optional<double> spine_gap_mm; ///< as in EvenRows
  std::optional<double> edge_gap_mm;
};

/// One row given by its centre line, in leaf coordinates of the file (before scaling to a size).
struct ListedRow {
  Side side = Side::inside;
  double from_x_mm = 0, from_z_mm = 0;
  double to_x_mm = 0, to_z_mm = 0;
  double width_mm = 3.0;
};

using Rows = std::variant<EvenRows, std::vector<ListedRow>, AutoRows>;

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

/// How a machine makes the spine foldable: one creased line, or cuts with paper left between them.
enum class ScoreStyle { line, dashes };

/// How glue places are marked on the leaves themselves: printed, as tiny nicks in the spine's fold, or not at all (the
/// stencil shows them).
enum class MarkStyle { printed, nicks, none };

enum class Cutting { by_hand, by_machine };

/// What carries the finished piece.
enum class Display { stands, hangs };

/// How the piece is made and handed on; the file's "making". Nothing here changes the opened form.
struct Making {
  ScoreStyle score = ScoreStyle::line;
  double score_dash_mm = 2.0; ///< cut
  double score_gap_mm = 1.5;  ///< left whole
  MarkStyle marks = MarkStyle::printed;
  Cutting cutting = Cutting::by_hand;
  Display display = Display::stands;
  std::string glue = "white craft glue"; ///< as the maker calls it
  double bead_mm = 0.6;                  ///< diameter of the bead as it leaves the tip, mm; fills a row of 3 mm
  bool glitter = false;                  ///< along the open edges
  bool sealer = false;                   ///< clear spray at the end
  double drying_min = 15;                ///< in the press between rounds, minutes
  double last_drying_min = 60;           ///< of the whole block, and again of the seam, minutes
  int presses = 1;                       ///< packets stand in a press side by side; each takes `packets_per_press`
  int packets_per_press = 12;
  int hands = 1;  ///< people working
  int pieces = 1; ///< of each size, made as one batch
};

/// The maker's own rates, in her own money; the file's "prices". Everything is 0 until she gives it.
struct Prices {
  std::string currency;        ///< "EUR", "kr" ...; put before the amounts; may be empty
  double sheet = 0;            ///< one sheet of paper
  double glue_per_100g = 0;    ///< as it comes from the bottle
  double glitter_per_100g = 0; ///< dry
  double sealer_per_100g = 0;  ///< as sprayed
  double hour = 0;             ///< one hour of one pair of hands
  double overhead = 0;         ///< a piece
  double waste = 0.10;         ///< share of the materials spoilt, 0..1
  double fee_share = 0;        ///< share of the price that selling takes, 0..<1
  double fee_fixed = 0;        ///< and a fixed sum, a piece
  double margin = 0;           ///< share of the price to be kept, 0..<1
};

/// What the maker puts on what she hands out; the file's "publishing".
struct Publishing {
  std::string maker;                           ///< name under the title; may be empty
  std::string version;                         ///< of the template: "1", "2026-2"; may be empty
  std::string licence;                         ///< her own words, paragraphs separated by line feeds; may be empty
  std::vector<std::string> languages = {"en"}; ///< of the booklet, ISO 639-1, in this order
};

/// What holds a fan. along_edge: its first side pleat lies along the leaf edges below the gathered end. at_point: the
/// gathered end is glued on a leaf's edge. in_cell: the gathered end is pushed in between two leaves, or the halves of
/// one.
enum class Hold { along_edge, at_point, in_cell };

/// Where a fan sits on the opened ornament (src/fan/seat.h). Lengths as drawn, like the fan's.
struct FanSeat {
  Hold hold = Hold::along_edge;
  double below_neck_mm = 10; ///< of the gathered end; below the top where there is no neck
  double azimuth_deg = 90; ///< from the front to the figure's own right hand; the nearest leaf edge, or cell, is taken
  double rise_deg = 0;     ///< at_point, in_cell: of the fan's middle above the horizontal
  double turn_deg = 0;     ///< at_point, in_cell: of its plane about its middle; 0 upright, 90 level, front face up
  double depth_mm = 8;     ///< in_cell: of the gathered end behind the leaf's edge
  bool last_on_head = false; ///< along_edge: the last side pleat is glued to the head by its upper part
};

/// A pleated accessory: a wing, a tail, a collar. Lengths as drawn, before they are scaled to a size with the
/// silhouette. Exactly one of an outline and a length is given.
struct Fan {
  std::string name;                      ///< "wing"; no two fans share one
  bool pair = false;                     ///< and its mirror image
  double depth_mm = 10;                  ///< of the pleats: width of a panel
  int pleats = 12;                       ///< two panels each
  std::string outline_path;              ///< outer edge as it looks when spread; file units, centre at (0, 0), y up
  double length_mm = 0;                  ///< of a strip cut straight
  double spread_deg = 360;               ///< of a strip cut straight
  std::optional<double> inner_radius_mm; ///< empty: what the packed paper takes
  std::optional<double> flap_mm;         ///< empty: a share of the depth
  std::optional<double> lap_mm;          ///< empty: a share of the depth
  std::optional<paper::Paper> paper;     ///< empty: the size's
  std::optional<FanSeat> seat;           ///< empty: the maker finds its place by hand
  std::string where;                     ///< JSON pointer: "/fans/0"
};

struct Design {
  std::string title;
  std::string colour = "#c8563c"; ///< of the paper, sRGB #rrggbb, for pictures
  std::string silhouette_path;    ///< SVG path data; coordinates in file units
  double units_to_mm = 1.0;       ///< multiply coordinates of silhouette_path by this
  Shows shows = Shows::flat;
  std::vector<Size> sizes; ///< at least one
  std::vector<Fan> fans;   ///< of every size
  Making making;
  Prices prices;
  Publishing publishing;
};

/// Parses and validates the text of a design file (UTF-8 JSON, at most 1 MiB, nested at most 32 deep).
std::variant<Design, Refusal> parse(std::string_view text);

} // namespace fanwright::design
