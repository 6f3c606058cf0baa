// How an ornament is put together, and what it takes: gluing rounds, materials, hours, cost and price.
//
// Everything here is for one size of a design. Amounts and prices are for one piece, the schedule is for a batch.
// Lengths mm, areas m2, masses g, times minutes from the start of work, money in the maker's own currency.
#pragma once

#include "design/design.h"
#include "leaf/leaf.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::making {

// ---- Gluing rounds -------------------------------------------------------------------------------------------------

/// Leaves glued together so far: `leaves` of them, counted on from leaf `first`. Leaves are numbered from 0.
struct Packet {
  int first = 0;
  int leaves = 1;
  friend bool operator==(const Packet&, const Packet&) = default;
};

/// One joint: all between rows of leaf `leaf` to leaf `leaf + 1`, that is the outer face of the right half of `leaf`
/// against the outer face of the left half of `leaf + 1`. Glue goes on one of the two faces.
struct Joint {
  int leaf = 0;
  Packet left, right; ///< the two packets it joins, as they were before the round; `left` ends with `leaf`
};

/// One level of gluing packets in pairs; then all new packets are pressed.
struct Round {
  std::vector<Packet> packets; ///< all packets once the round is done, in the order of their leaves
  std::vector<Joint> joints;   ///< glued in this round, in the order of their leaves
};

/// The rounds in which `leaves` leaves (1 to 400), their inside rows glued already, become one block: singles, pairs,
/// fours and so on. Each round joins neighbours two by two; of an odd number one packet waits, chosen so that the
/// packets stay as equal as can be: the largest has at most twice the leaves of the smallest. ceil(log2 leaves) rounds,
/// none for one leaf; leaves - 1 joints in all. The seam, which closes the circle, is not among them.
std::vector<Round> rounds(int leaves);

// ---- Fans ----------------------------------------------------------------------------------------------------------

/// What the fans of one piece are to be made of; all 0 where it has none.
struct FanWork {
  int strips = 0;     ///< pleated, gathered, glued on and spread
  int parts = 0;      ///< cut out, and joined to strips
  int creases = 0;    ///< scored and folded
  double bead_mm = 0; ///< of glue: one bead along each flap and lap, and between the pleats of each gathered end
  double paper_g = 0;
};

// ---- Leaves in two halves ------------------------------------------------------------------------------------------

/// The laps by which the halves of one leaf are joined at the spine; all 0 where leaves are cut whole.
struct Laps {
  double glued_mm2 = 0; ///< of one lap, covered with glue
  double area_mm2 = 0;  ///< of one lap: paper that lies double
};

// ---- Materials -----------------------------------------------------------------------------------------------------

/// What one piece takes, nothing added for waste.
struct Materials {
  int sheets = 0;             ///< of paper
  double leaf_area_mm2 = 0;   ///< of one leaf, both halves, cut-outs taken away
  double paper_g = 0;         ///< of all leaves, laps and fans, that is of the finished piece without glue
  int joints = 0;             ///< between leaves; the seam counts when the circle is closed
  double inside_bead_mm = 0;  ///< length of all beads on inside rows: each row once a leaf
  double between_bead_mm = 0; ///< and on between rows: each row once a joint
  double fan_bead_mm = 0;     ///< and on fans
  double lap_bead_mm = 0;     ///< and on the laps of leaves in two halves, as much as covers them
  double glue_g = 0;          ///< wet
  double glue_g_per_m = 0;    ///< of the bead
  double spread_mm = 0;       ///< width to which the bead is pressed out, see pressed_width_mm()
  double narrowest_row_mm = 0;
  double widest_bead_mm = 0; ///< the bead that just fills the narrowest row; a thicker one is pressed out of it
  double edge_area_m2 = 0;   ///< open edges: the cut outline of every half (without spine and cut-outs) times caliper
  double glitter_g = 0;      ///< one layer of grains on the open edges; 0 unless wanted
  double sealer_g = 0;       ///< two light coats as sprayed, what flies past included; 0 unless wanted
  int clips = 0;             ///< along the seam; 0 when the circle stays open
};

/// What one piece of `size` takes. `leaf` is the flat leaf of that size, `sheets` the sheets it is cut from.
Materials materials(const leaf::Leaf& leaf, const design::Size& size, const design::Making& making, int sheets,
                    const FanWork& fans = {}, const Laps& laps = {});

/// Mass of a round bead of white glue `bead_mm` across, g per metre: pi d^2 / 4 at 1.1 g/cm3.
double bead_g_per_m(double bead_mm);

/// Width (mm) of a round bead `bead_mm` across once pressed to a film `film_mm` thick, w = pi d^2 / (4 h).
double pressed_width_mm(double bead_mm, double film_mm);

// ---- Schedule ------------------------------------------------------------------------------------------------------

enum class Stage {
  cutting,      ///< printing and cutting by hand, or setting sheets up for the machine and clearing them away
  machine,      ///< the machine cuts, unattended
  folding,      ///< scoring and folding, and before it joining the halves of leaves that are cut in two
  inside_rows,  ///< gluing the inside rows
  gluing,       ///< gluing packets together, see Task::round
  pressing,     ///< in a press after inside rows (round 0) or after a round
  block_drying, ///< in a press after the last round
  opening_test, ///< opening it once, freeing stuck cells
  seam,         ///< gluing and clipping the seam, or fixing first and last leaf where the circle stays open
  seam_drying,
  fans,        ///< cut, pleated, gathered, glued on and spread
  finishing,   ///< hanger or foot, glitter, first coat of sealer
  airing,      ///< between coats and after the last
  second_coat, ///< of sealer
};

/// Who is busy with a task. Drying in the air keeps nobody busy.
enum class Worker { hand, press, machine, nobody };

/// One task, not to be interrupted.
struct Task {
  Stage stage = Stage::cutting;
  Worker worker = Worker::hand;
  int number = 0;      ///< which hand or press, from 0; 0 for the machine and for nobody
  int round = 0;       ///< gluing and pressing: 1 for the first round; else 0
  int leaves = 0;      ///< leaves worked on: cutting to inside rows
  int packets = 0;     ///< packets made by gluing (1), piles or packets lying in the press
  int first_piece = 0; ///< pieces of the batch the task belongs to, from 0
  int pieces = 1;
  double start_min = 0;
  double end_min = 0;
  std::vector<std::size_t> needs; ///< indices of the tasks that must have ended before this one starts
};

/// Tasks of one stage and round that one worker does without a pause in between; a bar in a picture of the schedule.
struct Bar {
  Stage stage = Stage::cutting;
  Worker worker = Worker::hand;
  int number = 0, round = 0; ///< as in Task
  double start_min = 0;
  double end_min = 0;
};

struct Schedule {
  int pieces = 1, hands = 1, presses = 1; ///< as asked for
  std::vector<Task> tasks;                ///< in the order they are taken up in the plan; a task stands after its needs
  std::vector<Bar> bars;                  ///< by worker, number, start; drying in the air joined where it overlaps
  double hands_on_min = 0;                ///< of all hands together, for the whole batch
  double waiting_min = 0;                 ///< of the time up to finish_min in which every hand is idle
  double finish_min = 0;                  ///< the batch is done; pauses and nights are the maker's own
};

/// A schedule for `making.pieces` pieces made as one batch by `making.hands` people with `making.presses` presses.
/// Times for each task are common practice (times.h); pressing and drying come from `making`. A press takes one load at
/// a time, of as many packets as it has places; after the inside rows leaves lie in piles, one pile a place.
/// Deterministic. Not always the shortest there is, but one more hand or press never makes it finish later.
Schedule schedule(const design::Size& size, const design::Making& making, const FanWork& fans = {},
                  const Laps& laps = {});

// ---- Cost and price ------------------------------------------------------------------------------------------------

/// What one piece costs and must fetch, in the maker's currency.
struct Cost {
  double paper = 0, glue = 0, glitter = 0, sealer = 0; ///< before waste
  double materials = 0;                                ///< their sum with waste added
  double hours = 0;                                    ///< hands-on
  double labour = 0;
  double overhead = 0;
  double cost = 0;      ///< C = materials + labour + overhead
  double price = 0;     ///< see price()
  double fees = 0;      ///< of that price, what selling takes
  double kept = 0;      ///< of that price, what is left after cost and fees
  double wholesale = 0; ///< usual rule: twice the cost
  double retail = 0;    ///< usual rule: twice wholesale
};

/// Cost and price of one piece that keeps hands busy for `hands_on_min`. Refuses what price() refuses.
std::variant<Cost, design::Refusal> cost(const Materials& materials, double hands_on_min, const design::Prices& prices);

/// The price that covers `cost`, the fees and the margin: P = (C + f) / (1 - r - m), with the fixed fee f, the share r
/// of the price that selling takes and the share m to be kept. Refuses when r + m leaves nothing of the price.
std::variant<double, design::Refusal> price(double cost, const design::Prices& prices);

} // namespace fanwright::making
