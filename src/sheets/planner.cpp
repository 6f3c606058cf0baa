#include "sheets/planner.h"

#include "sheets/bound.h"
#include "sheets/exact.h"
#include "sheets/fullest.h"
#include "sheets/job_check.h"
#include "sheets/mixed.h"
#include "sheets/strip.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fanwright::sheets {

namespace {

constexpr double um_per_mm = 1000;
constexpr std::size_t most_mixed = 240; // pieces searched together; a kind's whole sheets are set aside before

std::vector<Stance> stances_of(const Kind& kind) {
  std::vector<Stance> stances;
  for (const int turn : {0, 90, 180, 270})
    if (kind.turns == Turns::either || (turn % 180 == 0) == (kind.turns == Turns::upright))
      for (const bool mirrored : {false, true})
        if (!mirrored || kind.both_faces)
          stances.push_back({turn, mirrored});
  return stances;
}

Stock with_gap(Stock stock, double gap_mm) {
  stock.sheet.gap_mm = gap_mm;
  return stock;
}

class Planner {
public:
  Planner(const Job& job, const Effort& effort, bool whole_sheets_first, std::shared_ptr<Known> known)
      : effort_(effort), whole_sheets_first_(whole_sheets_first), known_(std::move(known)),
        gap_(rounded_gap_um(with_gap(job.stocks[0], widest_gap(job) + curve_allowance_mm).sheet)),
        asked_gap_(gap_um(with_gap(job.stocks[0], widest_gap(job)).sheet)) {
    for (const Stock& stock : job.stocks)
      stocks_.push_back(with_gap(stock, widest_gap(job) + curve_allowance_mm));
    for (const Kind& kind : job.kinds) {
      kinds_.push_back(
          {profile_of(kind.outline, kind.cut_outs), shape_of(kind.outline, kind.cut_outs), stances_of(kind)});
      left_.push_back(kind.count);
    }
  }

  JobPlan run(const std::vector<std::size_t>& order) {
    for (const std::size_t stock : order) {
      if (stocks_[stock].roll)
        lay_on_roll(stock);
      else
        lay_on_sheets(stock);
    }
    plan_.work = work_;
    return std::move(plan_);
  }

  const std::vector<int>& left() const { return left_; }

private:
  bool complete() const {
    return std::all_of(left_.begin(), left_.end(), [](int left) { return left == 0; });
  }

  int at_hand(std::size_t stock) const {
    constexpr int plenty = 1'000'000;
    int used = 0;
    for (const JobSheet& sheet : plan_.sheets)
      used += sheet.stock == stock ? sheet.copies : 0;
    return stocks_[stock].most.value_or(plenty) - used;
  }

  bool fits_on(std::size_t kind, const Extent& room) const {
    return std::any_of(kinds_[kind].stances.begin(), kinds_[kind].stances.end(),
                       [&](Stance stance) { return fits(places_in(room, laid(kinds_[kind].profile, stance).box)); });
  }

  std::int64_t work_left(double share) const {
    return static_cast<std::int64_t>(share * static_cast<double>(std::max<std::int64_t>(0, effort_.work - work_)));
  }

  void show_progress(double within, double from, double to) const {
    if (effort_.progress)
      effort_.progress(from + (to - from) * within);
  }

  /// Whole sheets of one kind, then the rest mixed.
  void lay_on_sheets(std::size_t stock) {
    const Extent room = usable(stocks_[stock].sheet);
    if (!whole_sheets_first_)
      return lay_mixed(stock, room);
    // A single kind's whole sheets are the whole job; of several, what is left over is mixed.
    const double share = kinds_.size() == 1 ? 1 : 0.4;
    const std::int64_t work_a_kind = work_left(share / static_cast<double>(kinds_.size()));
    for (std::size_t kind = 0; kind < kinds_.size(); ++kind) {
      if (left_[kind] == 0 || at_hand(stock) <= 0 || !fits_on(kind, room))
        continue;
      const double part = share / static_cast<double>(kinds_.size()), from = part * static_cast<double>(kind);
      Effort effort{work_a_kind, effort_.seed, [&](double done) { show_progress(done, from, from + part); },
                    effort_.cancelled};
      const Fullest fullest =
          fullest_sheet(kinds_[kind], room, {asked_gap_, gap_}, static_cast<std::size_t>(left_[kind]), effort, known_);
      const std::vector<Laid>& full = fullest.pieces;
      work_ +=
          full.size() < std::min<std::size_t>(fullest.most, static_cast<std::size_t>(left_[kind])) ? work_a_kind : 0;
      if (full.empty())
        continue;
      plan_.capacities.push_back({kind, stock, static_cast<int>(full.size()), static_cast<int>(fullest.most)});
      const int copies = std::min(left_[kind] / static_cast<int>(full.size()), at_hand(stock));
      if (copies > 0)
        add_sheet(stock, copies, kind, full);
      if (kinds_.size() == 1 && left_[kind] > 0 && at_hand(stock) > 0)
        add_sheet(stock, 1, kind,
                  {full.begin(),
                   full.begin() + std::min<std::ptrdiff_t>(left_[kind], static_cast<std::ptrdiff_t>(full.size()))});
    }
    if (!complete() && at_hand(stock) > 0)
      lay_mixed(stock, room);
  }

  void add_sheet(std::size_t stock, int copies, std::size_t kind, const std::vector<Laid>& pieces) {
    JobSheet sheet{stock, copies, {}, 0, {}, 0};
    for (const Laid& one : pieces)
      sheet.pieces.push_back(piece_of(kind, one.stance, one.at));
    left_[kind] -= copies * static_cast<int>(pieces.size());
    plan_.sheets.push_back(std::move(sheet));
  }

  static JobPiece piece_of(std::size_t kind, Stance stance, Spot at) {
    return {kind,
            {stance.turn_deg, static_cast<double>(at.x) / um_per_mm, static_cast<double>(at.z) / um_per_mm},
            stance.mirrored};
  }

  /// What the search needs of the kinds that are left and fit; `kinds` tells which.
  std::vector<SearchedKind> searched(const Extent& room, std::vector<std::size_t>& kinds) const {
    std::vector<SearchedKind> result;
    for (std::size_t kind = 0; kind < kinds_.size(); ++kind)
      if (left_[kind] > 0 && fits_on(kind, room)) {
        kinds.push_back(kind);
        std::vector<Stance> stances;
        for (const Stance stance : kinds_[kind].stances)
          if (fits(places_in(room, laid(kinds_[kind].profile, stance).box)))
            stances.push_back(stance);
        result.push_back({kinds_[kind].profile, std::move(stances)});
      }
    return result;
  }

  void lay_mixed(std::size_t stock, const Extent& room) {
    std::vector<std::size_t> kinds;
    const std::vector<SearchedKind> search = searched(room, kinds);
    if (kinds.empty())
      return;
    const Figures figures(search, static_cast<double>(gap_), known_);
    while (!kinds.empty() && at_hand(stock) > 0) {
      MixedWish wish;
      double area = 0;
      for (std::size_t i = 0; i < kinds.size(); ++i)
        for (int k = 0; k < left_[kinds[i]] && wish.kinds.size() < most_mixed; ++k) {
          wish.kinds.push_back(i);
          area += grown_area_mm2(kinds_[kinds[i]].profile, gap_);
        }
      if (wish.kinds.empty())
        return;
      wish.fewest =
          std::max<std::size_t>(1, static_cast<std::size_t>(std::ceil(area / grown_room_mm2(room, gap_) - 1e-9)));
      wish.rooms.assign(std::min<std::size_t>(static_cast<std::size_t>(at_hand(stock)), wish.kinds.size()), room);
      wish.seed = effort_.seed;
      wish.work = work_left(0.9);
      wish.stop = effort_.cancelled;
      wish.progress = [this](double share) { show_progress(share, 0.4, 0.95); };
      Mixed mixed = fewest_rooms(figures, wish);
      work_ += mixed.work;
      if (mixed.items.empty() || !add_mixed(stock, room, figures, kinds, mixed))
        return lay_one_by_one(stock, room, kinds);
    }
  }

  /// False when the exact check does not pass.
  bool add_mixed(std::size_t stock, const Extent& room, const Figures& figures, const std::vector<std::size_t>& kinds,
                 const Mixed& mixed) {
    std::vector<std::vector<Item>> rooms(mixed.rooms);
    for (const Item& item : mixed.items) {
      rooms[item.room].push_back(item);
      rooms[item.room].back().room = 0;
    }
    std::stable_sort(rooms.begin(), rooms.end(),
                     [&](const auto& a, const auto& b) { return paper(figures, a) > paper(figures, b); });
    if (!rooms.empty())
      rooms.back() = drawn_left(figures, room, rooms.back(), work_left(1), effort_.seed, effort_.cancelled);
    std::vector<JobSheet> sheets;
    for (const std::vector<Item>& items : rooms) {
      JobSheet sheet{stock, 1, {}, 0, {}, 0};
      std::vector<Shape> shapes;
      for (const Item& item : items) {
        const Figure& figure = figures[item.figure];
        const Spot at{std::llround(item.x), std::llround(item.z)};
        sheet.pieces.push_back(piece_of(kinds[figure.kind], figure.stance, at));
        shapes.push_back(moved(laid(kinds_[kinds[figure.kind]].outline, figure.stance), at));
      }
      if (first_conflict(shapes, gap_))
        return false;
      if (!sheet.pieces.empty())
        sheets.push_back(std::move(sheet));
    }
    for (JobSheet& sheet : sheets) {
      for (const JobPiece& piece : sheet.pieces)
        --left_[piece.kind];
      plan_.sheets.push_back(std::move(sheet));
    }
    return true;
  }

  static double paper(const Figures& figures, const std::vector<Item>& items) {
    double sum = 0;
    for (const Item& item : items)
      sum += figures.area_um2(figures[item.figure].kind);
    return sum;
  }

  /// Where the sheets at hand do not take all: kind by kind from patterns, as far as they reach.
  void lay_one_by_one(std::size_t stock, const Extent& room, const std::vector<std::size_t>& kinds) {
    for (const std::size_t kind : kinds)
      while (left_[kind] > 0 && at_hand(stock) > 0) {
        const std::vector<Laid> full = fullest_sheet(kinds_[kind], room, {asked_gap_, gap_},
                                                     static_cast<std::size_t>(left_[kind]), {0, 1, {}, {}}, known_)
                                           .pieces;
        if (full.empty())
          break;
        const auto pieces = std::min<std::ptrdiff_t>(left_[kind], static_cast<std::ptrdiff_t>(full.size()));
        add_sheet(stock, std::clamp(left_[kind] / static_cast<int>(full.size()), 1, at_hand(stock)), kind,
                  {full.begin(), full.begin() + pieces});
      }
  }

  void lay_on_roll(std::size_t stock) {
    const Extent room = usable(stocks_[stock].sheet);
    std::vector<std::size_t> kinds;
    const std::vector<SearchedKind> search = searched(room, kinds);
    if (kinds.empty() || at_hand(stock) <= 0)
      return;
    const Figures figures(search, static_cast<double>(gap_), known_);
    StripWish wish;
    for (std::size_t i = 0; i < kinds.size(); ++i)
      for (int k = 0; k < left_[kinds[i]] && wish.kinds.size() < most_mixed; ++k)
        wish.kinds.push_back(i);
    wish.height_um = room.height();
    wish.seed = effort_.seed;
    wish.work = work_left(1);
    wish.stop = effort_.cancelled;
    wish.progress = [this](double share) { show_progress(share, 0, 1); };
    const Strip strip = shortest_strip(figures, wish);
    work_ += strip.work;
    if (strip.items.empty() || strip.length_um > room.width())
      return lay_mixed(stock, room);
    std::vector<Item> items = strip.items;
    for (Item& item : items)
      item.x += static_cast<double>(room.left), item.z += static_cast<double>(room.bottom);
    add_mixed(stock, room, figures, kinds, {std::move(items), 1, 0});
  }

  const Effort& effort_;
  bool whole_sheets_first_;
  std::shared_ptr<Known> known_;
  std::int64_t gap_;       ///< between rounded outlines, with room for curves
  std::int64_t asked_gap_; ///< by the maker; what no layout can do better than is judged by it
  std::vector<Stock> stocks_;
  std::vector<OneKind> kinds_;
  std::vector<int> left_;
  std::int64_t work_ = 0;
  JobPlan plan_;
};

} // namespace

Planned planned(const Job& job, const std::vector<std::size_t>& order, bool whole_sheets_first, const Effort& effort,
                const std::shared_ptr<Known>& known) {
  Planner planner(job, effort, whole_sheets_first, known);
  JobPlan plan = planner.run(order);
  return {std::move(plan), planner.left()};
}

} // namespace fanwright::sheets
