#include "sheets/pattern.h"

#include "sheets/double_lattice.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace fanwright::sheets {

namespace {

constexpr int directions = 60;              // of rows; every second one falls within 3 degrees of any wish
constexpr int densest = 12;                 // patterns laid on the sheet
constexpr int shifts = 16;                  // of a pattern along each of its two moves
constexpr int level_shifts = 8;             // of one level row against the next
constexpr int most_a_row = 64;              // pieces whose row is spread to end at both edges
constexpr double widest_row = 2;            // spacing, in touching spacings
constexpr std::size_t most_pieces = 20'000; // a square millimetre a piece on the largest sheets: beyond any use

constexpr Stance upright{0, false}, turned{180, false};

/// Places for the pieces and for the turned ones.
struct Places {
  Extent upright, turned;
};

/// Calls `take(x, z)` for every point of `from` + lattice within the places.
template <class Take> void each_within(const Lattice& lattice, Move from, const Extent& places, const Take& take) {
  const double det = lattice.along.x * lattice.up.z - lattice.along.z * lattice.up.x;
  const double left = static_cast<double>(places.left), right = static_cast<double>(places.right);
  const double bottom = static_cast<double>(places.bottom), top = static_cast<double>(places.top);
  double first = 1e300, last = -1e300;
  for (const auto& [x, z] : {std::array{left, bottom}, {left, top}, {right, bottom}, {right, top}}) {
    const double row = (lattice.along.x * (z - from.z) - lattice.along.z * (x - from.x)) / det;
    first = std::min(first, row), last = std::max(last, row);
  }
  // Rounding to whole micrometres must not push a piece out of the room.
  const auto range = [](double lo, double hi, double start, double step, double& begin, double& end) {
    constexpr double hair = 1e-6;
    if (std::abs(step) < hair) {
      if (start < lo - hair || start > hi + hair)
        end = begin - 1;
      return;
    }
    const double a = (lo - hair - start) / step, b = (hi + hair - start) / step;
    begin = std::max(begin, std::min(a, b)), end = std::min(end, std::max(a, b));
  };
  for (double row = std::ceil(first - 1e-9); row <= last + 1e-9; ++row) {
    const double x = from.x + row * lattice.up.x, z = from.z + row * lattice.up.z;
    double begin = -1e6, end = 1e6;
    range(left, right, x, lattice.along.x, begin, end);
    range(bottom, top, z, lattice.along.z, begin, end);
    for (double i = std::ceil(begin); i <= end; ++i)
      take(x + i * lattice.along.x, z + i * lattice.along.z);
  }
}

std::size_t count(const Lattice& lattice, Move from, const Places& places) {
  std::size_t sum = 0;
  const auto one = [&sum](double, double) { ++sum; };
  each_within(lattice, from, places.upright, one);
  if (lattice.turned)
    each_within(lattice, {from.x + lattice.offset.x, from.z + lattice.offset.z}, places.turned, one);
  return sum;
}

/// The shift of the pattern that brings most pieces on the sheet.
struct Shifted {
  const Lattice* lattice = nullptr;
  Move from;
  std::size_t pieces = 0;
};

void try_shift(const Lattice& lattice, Move from, const Places& places, Shifted& best) {
  if (const std::size_t pieces = count(lattice, from, places); pieces > best.pieces)
    best = {&lattice, from, pieces};
}

void try_shifts(const Lattice& lattice, const Places& places, Shifted& best) {
  // A piece, or a turned one, against the left edge, and one against the bottom edge.
  const double left = static_cast<double>(places.upright.left), bottom = static_cast<double>(places.upright.bottom);
  const double turned_left = static_cast<double>(places.turned.left) - lattice.offset.x;
  const double turned_bottom = static_cast<double>(places.turned.bottom) - lattice.offset.z;
  for (const double x : {left, turned_left})
    for (const double z : {bottom, turned_bottom}) {
      try_shift(lattice, {x, z}, places, best);
      for (int i = 0; i < shifts; ++i) {
        const double share = static_cast<double>(i) / shifts;
        try_shift(lattice, {x + share * lattice.up.x, z}, places, best);
        try_shift(lattice, {x, z + share * lattice.along.z}, places, best);
      }
    }
  for (int i = 0; i < shifts; ++i)
    for (int k = 0; k < shifts; ++k) {
      const double a = static_cast<double>(i) / shifts, b = static_cast<double>(k) / shifts;
      try_shift(lattice,
                {left + a * lattice.along.x + b * lattice.up.x, bottom + a * lattice.along.z + b * lattice.up.z},
                places, best);
    }
}

/// Rows along the sheet's edges, spread so that a whole number of pieces reaches from edge to edge.
std::vector<Lattice> spread_rows(const LatticeRegions& regions, const Places& places) {
  std::vector<Lattice> result;
  const auto add = [&](double angle, double length) {
    const double touching = touching_spacing(regions, angle);
    result.push_back(row_lattice(regions, angle, touching));
    for (int i = 0; i < level_shifts; ++i)
      result.push_back(level_rows(regions, angle, static_cast<double>(i) / level_shifts));
    for (int pieces = 2; pieces <= most_a_row && length / (pieces - 1) >= touching; ++pieces)
      if (const double spacing = length / (pieces - 1); spacing <= widest_row * touching)
        result.push_back(row_lattice(regions, angle, spacing));
  };
  add(0, static_cast<double>(places.upright.right - places.upright.left));
  add(std::numbers::pi / 2, static_cast<double>(places.upright.top - places.upright.bottom));
  return result;
}

std::int64_t rounded_within(double value, std::int64_t least, std::int64_t most) {
  return std::clamp<std::int64_t>(std::llround(value), least, most);
}

std::vector<Laid> laid_out(const Shifted& best, const Places& places) {
  std::vector<Laid> pieces;
  const auto add = [&](Stance stance, const Extent& within) {
    return [&pieces, stance, within](double x, double z) {
      if (pieces.size() < most_pieces)
        pieces.push_back(
            {stance, {rounded_within(x, within.left, within.right), rounded_within(z, within.bottom, within.top)}});
    };
  };
  each_within(*best.lattice, best.from, places.upright, add(upright, places.upright));
  if (best.lattice->turned)
    each_within(*best.lattice, {best.from.x + best.lattice->offset.x, best.from.z + best.lattice->offset.z},
                places.turned, add(turned, places.turned));
  return pieces;
}

} // namespace

std::vector<Laid> filled_by_pattern(const Profile& piece, const Extent& room, double gap_um) {
  const Spot middle{(piece.box.left + piece.box.right) / 2, (piece.box.bottom + piece.box.top) / 2};
  const Shape centred = moved(piece.shape, Spot{} - middle);
  const Extent& box = piece.box;
  const Extent centred_box{box.left - middle.x, box.bottom - middle.z, box.right - middle.x, box.top - middle.z};
  const Extent turned_box{-centred_box.right, -centred_box.top, -centred_box.left, -centred_box.bottom};
  const Places places{places_in(room, centred_box), places_in(room, turned_box)};
  if (!fits(places.upright))
    return {};
  const LatticeRegions regions = lattice_regions(centred, gap_um + search_slack_um + 2 * piece.off_um);
  if (regions.alike.empty() || regions.turned.empty())
    return {};
  std::vector<Lattice> patterns = spread_rows(regions, places);
  const std::vector<Lattice> dense = lattices(regions, directions, densest);
  patterns.insert(patterns.end(), dense.begin(), dense.end());
  Shifted best;
  for (const Lattice& lattice : patterns)
    if (std::isfinite(lattice.area_um2))
      try_shifts(lattice, places, best);
  if (best.lattice == nullptr)
    return {{upright, Spot{places.upright.left, places.upright.bottom} - middle}};
  std::vector<Laid> pieces = laid_out(best, places);
  for (Laid& one : pieces)
    one.at = one.stance == upright ? one.at - middle : one.at + middle;
  return pieces;
}

} // namespace fanwright::sheets
