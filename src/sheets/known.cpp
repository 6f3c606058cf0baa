#include "sheets/known.h"

#include "sheets/no_fit.h"

#include <bit>
#include <utility>

namespace fanwright::sheets {

namespace {

using Key = std::vector<std::int64_t>;

constexpr std::size_t most_pieces = 1'000'000; // of all patterns kept: some 30 megabytes

void append(Key& key, const Loop& loop) {
  key.push_back(static_cast<std::int64_t>(loop.size()));
  for (const Spot spot : loop) {
    key.push_back(spot.x);
    key.push_back(spot.z);
  }
}

void append(Key& key, const Shape& shape) {
  append(key, shape.outline);
  key.push_back(static_cast<std::int64_t>(shape.holes.size()));
  for (const Loop& hole : shape.holes)
    append(key, hole);
}

void append(Key& key, const Extent& extent) {
  key.insert(key.end(), {extent.left, extent.bottom, extent.right, extent.top});
}

} // namespace

const KeepOut& Known::region(const Shape& fixed, const Shape& moving, double reach_um) {
  Key key{std::bit_cast<std::int64_t>(reach_um)};
  append(key, fixed);
  append(key, moving);
  auto known = regions_.find(key);
  if (known == regions_.end())
    known = regions_.try_emplace(std::move(key), no_fit_region(fixed, moving), reach_um).first;
  return known->second;
}

std::vector<Laid> Known::pattern(const Filled& filled, const std::function<std::vector<Laid>()>& fill) {
  Key key{filled.gap_um, std::bit_cast<std::int64_t>(filled.piece.off_um), filled.stance.turn_deg,
          filled.stance.mirrored ? 1 : 0};
  append(key, filled.room);
  append(key, filled.piece.box);
  append(key, filled.piece.shape);
  append(key, filled.outline);
  if (const auto known = patterns_.find(key); known != patterns_.end())
    return known->second;
  std::vector<Laid> pieces = fill();
  if (pieces_ + pieces.size() <= most_pieces) {
    pieces_ += pieces.size();
    patterns_.emplace(std::move(key), pieces);
  }
  return pieces;
}

} // namespace fanwright::sheets
