#include "sheets/job_check.h"

#include "leaf/contour.h"
#include "sheets/bound.h"
#include "sheets/exact.h"
#include "sheets/room.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace fanwright::sheets {

namespace {

constexpr double um_per_mm = 1000;
constexpr double rounding_mm = 1e-6; // a sum of lengths written in mm carries less
constexpr double mm_per_m = 1000;
constexpr std::size_t most_kinds = 60, most_stocks = 30;
constexpr int most_pieces = 100'000;
constexpr std::size_t most_points = 20'000;
constexpr double largest_mm = 20'000;

bool sound(const leaf::Ring& ring) {
  return ring.size() >= 3 && ring.size() <= most_points &&
         std::all_of(ring.begin(), ring.end(),
                     [](const leaf::Point& p) { return std::abs(p.x) <= largest_mm && std::abs(p.z) <= largest_mm; }) &&
         doubled_area(loop_of(ring)) > 0;
}

std::optional<std::string> fault_of(const Kind& kind) {
  if (kind.count < 1 || kind.count > most_pieces)
    return "The number of " + kind.name + " must be 1 to 100000.";
  if (!sound(kind.outline) || !std::all_of(kind.cut_outs.begin(), kind.cut_outs.end(), sound))
    return "The outline of " + kind.name + " is empty, too large or has too many points (20000 at most, within 20 m).";
  return std::nullopt;
}

std::optional<std::string> fault_of(const Stock& stock) {
  const Sheet& sheet = stock.sheet;
  const auto within = [](double value, double least) { return value >= least && value <= largest_mm; };
  if (!within(sheet.size.width_mm, 1) || !within(sheet.size.height_mm, 1) || !within(sheet.margin_mm, 0) ||
      !within(sheet.gap_mm, 0))
    return "The stock " + sheet.name + " must be 1 mm to 20 m wide and high, its margin and gap not negative.";
  if (!(stock.price >= 0 && stock.price <= highest_price) || (stock.most && *stock.most < 0))
    return "The price of the stock " + sheet.name + " must be 0 to 1e9, its number at hand not negative.";
  return std::nullopt;
}

bool fits(const Kind& kind, const Sheet& sheet) {
  const leaf::Box box = leaf::bounds(kind.outline);
  const double width = sheet.size.width_mm - 2 * sheet.margin_mm + rounding_mm;
  const double height = sheet.size.height_mm - 2 * sheet.margin_mm + rounding_mm;
  return (kind.turns != Turns::sideways && box.width() <= width && box.height() <= height) ||
         (kind.turns != Turns::upright && box.height() <= width && box.width() <= height);
}

int sheets_of(const JobPlan& plan, std::size_t stock) {
  int used = 0;
  for (const JobSheet& sheet : plan.sheets)
    used += sheet.stock == stock ? sheet.copies : 0;
  return used;
}

Shape shape_on(const JobPiece& piece, const Kind& kind) {
  const Spot at{std::llround(piece.placement.x_mm * um_per_mm), std::llround(piece.placement.z_mm * um_per_mm)};
  return moved(laid(shape_of(kind.outline, kind.cut_outs), {piece.placement.turn_deg, piece.mirrored}), at);
}

leaf::Box bounds_on(const JobPiece& piece, const Kind& kind) {
  leaf::Ring ring;
  for (const leaf::Point& p : kind.outline)
    ring.push_back(placed(piece, p));
  return leaf::bounds(ring);
}

bool turn_allowed(const JobPiece& piece, const Kind& kind) {
  const int turn = piece.placement.turn_deg;
  if (turn % 90 != 0 || (piece.mirrored && !kind.both_faces))
    return false;
  return kind.turns == Turns::either || (turn % 180 == 0) == (kind.turns == Turns::upright);
}

std::optional<std::string> fault_of(const JobSheet& sheet, const Job& job) {
  const Sheet& stock = job.stocks[sheet.stock].sheet;
  std::vector<Shape> shapes;
  for (const JobPiece& piece : sheet.pieces) {
    const Kind& kind = job.kinds[piece.kind];
    if (!turn_allowed(piece, kind))
      return "a " + kind.name + " is turned as its grain does not allow.";
    const leaf::Box box = bounds_on(piece, kind);
    if (std::min({box.left, box.bottom, stock.size.width_mm - box.right, stock.size.height_mm - box.top}) <
        stock.margin_mm - rounding_mm)
      return "a " + kind.name + " lies in the margin of " + stock.name + ".";
    shapes.push_back(shape_on(piece, kind));
  }
  Sheet widest = stock;
  widest.gap_mm = widest_gap(job);
  if (const auto pair = first_conflict(shapes, gap_um(widest)))
    return "a " + job.kinds[sheet.pieces[pair->first].kind].name + " and a " +
           job.kinds[sheet.pieces[pair->second].kind].name + " come nearer to each other than the gap.";
  return std::nullopt;
}

/// The larger of the strips that stay free along the right and the top edge.
Offcut offcut_of(const leaf::Box& used, const Sheet& sheet, double length_mm, double gap_mm) {
  const double right = std::max(0.0, length_mm - used.right - gap_mm);
  const double top = std::max(0.0, sheet.size.height_mm - used.top - gap_mm);
  if (right * sheet.size.height_mm >= top * length_mm)
    return {length_mm - right, 0, right, sheet.size.height_mm};
  return {0, sheet.size.height_mm - top, length_mm, top};
}

/// Fills in one sheet; gives the paper in its pieces, mm2.
double add_figures(JobSheet& sheet, const Job& job) {
  const Stock& stock = job.stocks[sheet.stock];
  leaf::Box used;
  double paper = 0;
  for (const JobPiece& piece : sheet.pieces) {
    const leaf::Box box = bounds_on(piece, job.kinds[piece.kind]);
    used = {0, std::max(used.right, box.right), 0, std::max(used.top, box.top)};
    paper += area_mm2(shape_of(job.kinds[piece.kind].outline, job.kinds[piece.kind].cut_outs));
  }
  sheet.length_mm = stock.roll ? used.right + stock.sheet.margin_mm : stock.sheet.size.width_mm;
  sheet.offcut = offcut_of(used, stock.sheet, sheet.length_mm, widest_gap(job));
  sheet.density = paper / (sheet.length_mm * stock.sheet.size.height_mm);
  return paper;
}

std::string sheet_that_takes(const Kind& kind, const Sheet& like) {
  const std::string split = "or split it at the spine into two halves with a lap";
  for (const char* name :
       {"A4", "letter", "legal", "12x12in", "A3", "tabloid", "B3", "A2", "B2", "A1", "B1", "A0", "B0"}) {
    Sheet sheet = like;
    sheet.size = *paper::sheet_size(name);
    if (fits(kind, sheet))
      return std::string("; ") + name + " would take it" + (kind.has_spine ? ", " + split : "") + ".";
  }
  return "; no common sheet would take it: make it smaller" + (kind.has_spine ? " " + split : "") + ".";
}

} // namespace

leaf::Point placed(const JobPiece& piece, const leaf::Point& point) {
  return placed(piece.placement, {piece.mirrored ? -point.x : point.x, point.z});
}

double widest_gap(const Job& job) {
  double gap = 0;
  for (const Stock& stock : job.stocks)
    gap = std::max(gap, stock.sheet.gap_mm);
  return gap;
}

std::optional<Refusal> refused(const Job& job) {
  if (job.kinds.empty() || job.kinds.size() > most_kinds || job.stocks.empty() || job.stocks.size() > most_stocks)
    return Refusal{"A job needs 1 to 60 kinds of pieces and 1 to 30 stocks."};
  for (const Kind& kind : job.kinds)
    if (auto sentence = fault_of(kind))
      return Refusal{*sentence};
  for (const Stock& stock : job.stocks)
    if (auto sentence = fault_of(stock))
      return Refusal{*sentence};
  for (const Kind& kind : job.kinds)
    if (std::none_of(job.stocks.begin(), job.stocks.end(),
                     [&](const Stock& stock) { return fits(kind, stock.sheet); })) {
      const leaf::Box box = leaf::bounds(kind.outline);
      char size[64];
      std::snprintf(size, sizeof size, "%.1f x %.1f mm", box.width(), box.height());
      return Refusal{"A " + kind.name + " is " + size +
                     " and fits none of the sheets within their margins as its grain allows" +
                     sheet_that_takes(kind, job.stocks[0].sheet)};
    }
  return std::nullopt;
}

Refusal too_few_sheets(const Job& job, const std::vector<int>& left) {
  std::string sentence = "The sheets at hand do not take all: ";
  bool first = true;
  for (std::size_t kind = 0; kind < left.size(); ++kind)
    if (left[kind] > 0) {
      sentence += (first ? "" : ", ") + std::to_string(left[kind]) + " of " + job.kinds[kind].name;
      first = false;
    }
  return {sentence + " are left over; add sheets or lay out fewer pieces."};
}

// Sheets taken from the largest down until their room is as large as all pieces, each grown by half the gap.
int fewest_sheets(const Job& job) {
  const Sheet gap{"", {}, 0, widest_gap(job)};
  double wanted = 0;
  for (const Kind& kind : job.kinds)
    wanted += kind.count * grown_area_mm2(profile_of(kind.outline, kind.cut_outs), gap_um(gap));
  std::vector<std::pair<double, int>> rooms;
  for (const Stock& stock : job.stocks) {
    if (stock.roll)
      return 0;
    const Extent room = usable(stock.sheet);
    if (room.width() > 0 && room.height() > 0)
      rooms.emplace_back(grown_room_mm2(room, gap_um(gap)), stock.most.value_or(2 * most_pieces));
  }
  std::stable_sort(rooms.begin(), rooms.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  double sheets = 0;
  for (const auto& [room, most] : rooms) {
    const double taken = std::min<double>(most, std::ceil(wanted / room - 1e-9));
    sheets += taken;
    wanted -= taken * room;
    if (wanted <= 0)
      break;
  }
  return static_cast<int>(std::max(1.0, sheets));
}

void add_figures(JobPlan& plan, const Job& job) {
  double paper = 0, offered = 0;
  plan.sheets_in_all = 0, plan.cost = 0;
  for (JobSheet& sheet : plan.sheets) {
    const Stock& stock = job.stocks[sheet.stock];
    paper += sheet.copies * add_figures(sheet, job);
    offered += sheet.copies * sheet.length_mm * stock.sheet.size.height_mm;
    plan.sheets_in_all += sheet.copies;
    plan.cost += sheet.copies * stock.price * (stock.roll ? sheet.length_mm / mm_per_m : 1);
  }
  plan.density = paper / offered;
  plan.fewest_sheets = fewest_sheets(job);
  // On a single stock each kind alone needs as many sheets as its own bound says.
  if (job.stocks.size() == 1 && !job.stocks[0].roll)
    for (const Capacity& capacity : plan.capacities)
      plan.fewest_sheets =
          std::max(plan.fewest_sheets, (job.kinds[capacity.kind].count + capacity.most - 1) / capacity.most);
}

std::optional<std::string> fault(const JobPlan& plan, const Job& job) {
  std::vector<long> laid(job.kinds.size(), 0);
  for (const JobSheet& sheet : plan.sheets) {
    if (auto sentence = fault_of(sheet, job))
      return sentence;
    for (const JobPiece& piece : sheet.pieces)
      laid[piece.kind] += sheet.copies;
  }
  for (std::size_t kind = 0; kind < laid.size(); ++kind)
    if (laid[kind] != job.kinds[kind].count)
      return std::to_string(laid[kind]) + " of " + job.kinds[kind].name + " are laid out, not " +
             std::to_string(job.kinds[kind].count) + ".";
  for (std::size_t stock = 0; stock < job.stocks.size(); ++stock)
    if (const auto& most = job.stocks[stock].most; most && sheets_of(plan, stock) > *most)
      return "more sheets of " + job.stocks[stock].sheet.name + " are used than are at hand.";
  return std::nullopt;
}

} // namespace fanwright::sheets
