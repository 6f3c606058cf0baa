#include "sheets/fullest.h"

#include "sheets/bound.h"
#include "sheets/exact.h"
#include "sheets/pattern.h"
#include "sheets/separation.h"

#include <algorithm>
#include <cmath>

namespace fanwright::sheets {

namespace {

constexpr std::size_t most_pieces = 20'000; // a square millimetre a piece on the largest sheets: beyond any use
constexpr std::size_t most_searched = 150;  // pieces on a sheet; with more, the edges cost little and patterns serve

/// Box beside box: sound for every outline, so it stands in where a closer pattern fails the check.
std::vector<Laid> boxed(const Extent& box, Stance stance, const Extent& room, std::int64_t gap) {
  const Extent places = places_in(room, box);
  std::vector<Laid> pieces;
  for (std::int64_t z = places.bottom; z <= places.top; z += box.height() + gap)
    for (std::int64_t x = places.left; x <= places.right && pieces.size() < most_pieces; x += box.width() + gap)
      pieces.push_back({stance, {x, z}});
  return pieces;
}

std::vector<Laid> pattern(const Profile& profile, Stance stance, const OneKind& kind, const Extent& room,
                          std::int64_t gap) {
  std::vector<Laid> pieces = filled_by_pattern(profile, room, static_cast<double>(gap));
  for (Laid& one : pieces)
    one.stance = {(stance.turn_deg + one.stance.turn_deg) % 360, stance.mirrored};
  if (pieces.empty() || !all_apart(kind.outline, pieces, gap))
    pieces = boxed(profile.box, stance, room, gap);
  return pieces;
}

std::vector<Laid> best_pattern(const OneKind& kind, const Extent& room, std::int64_t gap, Known& known) {
  std::vector<Laid> best;
  for (const Stance stance : kind.stances) {
    if (stance.turn_deg >= 180)
      continue; // patterns turn every second piece anyway
    const Profile profile = laid(kind.profile, stance);
    std::vector<Laid> pieces = known.pattern({profile, kind.outline, stance, room, gap},
                                             [&] { return pattern(profile, stance, kind, room, gap); });
    if (pieces.size() > best.size())
      best = std::move(pieces);
  }
  return best;
}

/// The search for one more piece on one sheet.
class OneMore {
public:
  OneMore(const OneKind& kind, const Extent& room, Gaps gaps, const Effort& effort, std::shared_ptr<Known> known)
      : kind_(kind), room_(room), gaps_(gaps), effort_(effort),
        figures_({{kind.profile, fitting(kind, room)}}, static_cast<double>(gaps.kept), std::move(known)),
        separation_(figures_, effort.seed, [this] { return ended(); }) {}

  /// No layout holds more; what area and discs allow is known.
  std::size_t most(std::size_t known) const {
    constexpr std::size_t few = 12; // with more pieces than that, cells prove nothing
    // The figures keep more apart than was asked for.
    const double spare = static_cast<double>(gaps_.kept - gaps_.asked);
    return known > few ? known : most_by_cells(figures_, 0, room_, kind_.profile.off_um, spare, known);
  }

  std::vector<Laid> improved(std::vector<Laid> best, std::size_t most) {
    while (best.size() < most && !ended()) {
      separation_.start({room_}, with_one_more(best));
      for (int tries = 0; tries < most_tries && !separation_.separate({80, 2}) && !ended(); ++tries)
        shake();
      std::vector<Laid> found = rounded();
      if (separation_.overlap() > 0 || !all_apart(kind_.outline, found, gaps_.kept))
        return best;
      best = std::move(found);
    }
    return best;
  }

private:
  static constexpr int most_tries = 50;

  static std::vector<Stance> fitting(const OneKind& kind, const Extent& room) {
    std::vector<Stance> stances;
    for (const Stance stance : kind.stances)
      if (fits(places_in(room, laid(kind.profile, stance).box)))
        stances.push_back(stance);
    return stances;
  }

  bool ended() const {
    if (effort_.progress)
      effort_.progress(std::min(1.0, static_cast<double>(separation_.work()) / static_cast<double>(effort_.work)));
    return separation_.work() >= effort_.work || (effort_.cancelled && effort_.cancelled());
  }

  std::vector<Item> with_one_more(const std::vector<Laid>& pieces) {
    std::vector<Item> items;
    items.reserve(pieces.size() + 1);
    for (const Laid& one : pieces)
      items.push_back({figure_of(one.stance), 0, static_cast<double>(one.at.x), static_cast<double>(one.at.z)});
    items.push_back(items[separation_.chance().below(items.size())]);
    return items;
  }

  std::size_t figure_of(Stance stance) const {
    std::size_t figure = 0;
    while (!(figures_[figure].stance == stance))
      ++figure;
    return figure;
  }

  /// A third of the pieces goes anywhere.
  void shake() {
    for (std::size_t i = 0; i < separation_.items().size(); ++i)
      if (separation_.chance().below(3) == 0)
        separation_.settle(i, true);
    separation_.forget_weights();
  }

  std::vector<Laid> rounded() const {
    std::vector<Laid> pieces;
    for (const Item& item : separation_.items())
      pieces.push_back({figures_[item.figure].stance, {std::llround(item.x), std::llround(item.z)}});
    return pieces;
  }

  const OneKind& kind_;
  const Extent& room_;
  Gaps gaps_;
  const Effort& effort_;
  Figures figures_;
  Separation separation_;
};

} // namespace

bool all_apart(const Shape& outline, const std::vector<Laid>& pieces, std::int64_t gap) {
  std::vector<Shape> shapes;
  shapes.reserve(pieces.size());
  for (const Laid& one : pieces)
    shapes.push_back(moved(laid(outline, one.stance), one.at));
  return !first_conflict(shapes, gap);
}

Fullest fullest_sheet(const OneKind& kind, const Extent& room, Gaps gaps, std::size_t wanted, const Effort& effort,
                      const std::shared_ptr<Known>& known) {
  Fullest result{best_pattern(kind, room, gaps.kept, *known),
                 std::min(most_by_area(kind.profile, room, gaps.asked), most_by_discs(kind.profile, room, gaps.asked))};
  std::vector<Laid>& best = result.pieces;
  result.most = std::max(result.most, best.size());
  if (best.empty() || best.size() >= std::min(wanted, result.most) || best.size() > most_searched || effort.work <= 0)
    return result;
  OneMore search(kind, room, gaps, effort, known);
  result.most = std::max(best.size(), search.most(result.most));
  best = search.improved(std::move(best), std::min(wanted, result.most));
  return result;
}

} // namespace fanwright::sheets
