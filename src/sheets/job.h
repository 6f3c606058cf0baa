// A job: pieces of several kinds on the sheets the maker has. Lengths mm, money in the maker's own.
//
// Plain values in and out; the same job, effort and seed give the same plan on every machine.
#pragma once

#include "sheets/effort.h"
#include "sheets/sheets.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::sheets {

/// Pieces of one outline. At most 20,000 points, 1..100,000 pieces.
struct Kind {
  std::string name; ///< as the maker calls it: "small leaf"
  leaf::Ring outline;
  std::vector<leaf::Ring> cut_outs; ///< smaller pieces may lie in them
  int count = 1;
  Turns turns = Turns::upright;
  bool both_faces = false; ///< both faces of the paper are alike: the piece may also be laid face down
  bool has_spine = false;  ///< a whole leaf, which may be split at its spine: refusals say so
};

/// Sheets of one size, or a roll.
struct Stock {
  Sheet sheet; ///< of a roll: height is the roll's width, width the longest stretch that can be cut in one go
  bool roll = false;
  double price = 0;        ///< a sheet; a metre of a roll
  std::optional<int> most; ///< sheets at hand; of a roll, stretches; empty: as many as needed
};

struct Job {
  std::vector<Kind> kinds;
  std::vector<Stock> stocks; ///< the widest gap among them holds everywhere
};

/// `mirrored`: laid face down, that is mirrored in its own z axis before it is turned.
struct JobPiece {
  std::size_t kind = 0;
  Placement placement;
  bool mirrored = false;
};

/// A rectangle of sheet left whole, sheet coordinates, mm.
struct Offcut {
  double left_mm = 0, bottom_mm = 0, width_mm = 0, height_mm = 0;
};

struct JobSheet {
  std::size_t stock = 0;
  int copies = 1;
  std::vector<JobPiece> pieces;
  double length_mm = 0; ///< of sheet used up: its width; of a roll, the stretch to cut off
  Offcut offcut;        ///< the larger of the free strips along the right and the top edge
  double density = 0;   ///< share of the sheet (of the stretch) that becomes pieces
};

/// How many of one kind alone one sheet of a stock holds.
struct Capacity {
  std::size_t kind = 0, stock = 0;
  int held = 0; ///< by the best layout found; the search ends at the job's count
  int most = 0; ///< no layout holds more
};

struct JobPlan {
  std::vector<JobSheet> sheets;
  int sheets_in_all = 0;
  int fewest_sheets = 0;            ///< no layout needs fewer, by area (0 with rolls)
  std::vector<Capacity> capacities; ///< of the kinds that were laid out on sheets of their own
  double cost = 0;
  double density = 0;    ///< of all paper used
  std::int64_t work = 0; ///< places looked at
};

/// Places to look at for a good plan in at most two seconds a kind and sheet, on one core of 2020: as many for each
/// kind, and half as many again where a few pieces of several kinds are mixed on three sheets or more.
std::int64_t usual_work(const Job& job);

/// Refuses a piece that fits no stock (naming a sheet that would take it), a demand beyond the sheets at hand, and
/// values out of range. Every sheet is checked exactly (gap, margin) and the pieces are counted before it is returned.
std::variant<JobPlan, Refusal> plan(const Job& job, const Effort& effort);

/// Exact check of a whole plan: empty when gap, margin, turns, demand and stocks are kept, else the first fault.
std::optional<std::string> fault(const JobPlan& plan, const Job& job);

/// The piece as it lies on the sheet: where the point of its outline comes to lie, mm.
leaf::Point placed(const JobPiece& piece, const leaf::Point& point);

} // namespace fanwright::sheets
