#include "sheets/double_lattice.h"

#include "sheets/no_fit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>

namespace fanwright::sheets {

namespace {

constexpr std::size_t samples_a_row = 96; // of a row's upper edge, before the lowest places are searched exactly
constexpr std::size_t lowest_places = 3;  // of them looked at
constexpr int spacings = 10;              // tried for one direction: touching, then up to twice as wide
constexpr double tight_um = 0.05;         // far below the micrometre that layouts are rounded to
constexpr double golden = 0.6180339887498949;

struct Place {
  double s = 0, h = 0;
};

/// One edge of a region's upper side, in a frame whose s axis runs along the row.
struct Ramp {
  double s0, h0, s1, h1; ///< s0 < s1
};

struct Skyline {
  std::vector<Ramp> ramps;
  double farthest = 0; ///< where the region's outline last meets the s axis
};

Skyline skyline(const std::vector<Loop>& region, double cosine, double sine) {
  Skyline result;
  const auto turned = [&](Spot p) {
    const double x = static_cast<double>(p.x), z = static_cast<double>(p.z);
    return Place{x * cosine + z * sine, z * cosine - x * sine};
  };
  for (const Loop& loop : region)
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Place from = turned(loop[i]), to = turned(loop[(i + 1) % loop.size()]);
      // Counter-clockwise: the upper side runs towards smaller s.
      if (to.s < from.s)
        result.ramps.push_back({to.s, to.h, from.s, from.h});
      if (from.h * to.h <= 0)
        result.farthest =
            std::max(result.farthest,
                     from.h == to.h ? std::max(from.s, to.s) : from.s + (to.s - from.s) * from.h / (from.h - to.h));
    }
  return result;
}

/// Height a piece must have at s to lie above all pieces of a row with spacing `step`.
double height_above(const Skyline& row, double step, double s) {
  double height = -std::numeric_limits<double>::infinity();
  for (const Ramp& ramp : row.ramps) {
    const double first = s + step * std::ceil((ramp.s0 - s) / step);
    for (double at = first; at <= ramp.s1; at += step)
      height = std::max(height, ramp.h0 + (ramp.h1 - ramp.h0) * (at - ramp.s0) / (ramp.s1 - ramp.s0));
  }
  return height;
}

template <class Function> Place lowest_between(const Function& height, double from, double to) {
  double left = to - golden * (to - from), right = from + golden * (to - from);
  double left_h = height(left), right_h = height(right);
  while (to - from > tight_um) {
    if (left_h <= right_h) {
      to = right, right = left, right_h = left_h;
      left_h = height(left = to - golden * (to - from));
    } else {
      from = left, left = right, left_h = right_h;
      right_h = height(right = from + golden * (to - from));
    }
  }
  return left_h <= right_h ? Place{left, left_h} : Place{right, right_h};
}

/// Sampled heights over one spacing.
std::vector<double> sampled(const Skyline& row, double step) {
  std::vector<double> heights(samples_a_row, -std::numeric_limits<double>::infinity());
  const double pitch = step / samples_a_row;
  constexpr auto period = static_cast<long>(samples_a_row);
  for (const Ramp& ramp : row.ramps) {
    const double rise = (ramp.h1 - ramp.h0) / (ramp.s1 - ramp.s0);
    for (auto i = static_cast<long>(std::ceil(ramp.s0 / pitch)); static_cast<double>(i) * pitch <= ramp.s1; ++i) {
      const auto at = static_cast<std::size_t>(((i % period) + period) % period);
      heights[at] = std::max(heights[at], ramp.h0 + rise * (static_cast<double>(i) * pitch - ramp.s0));
    }
  }
  return heights;
}

/// The lowest of the places lower than their neighbours, lowest first.
std::vector<std::size_t> dips(const std::vector<double>& heights) {
  std::vector<std::size_t> result;
  for (std::size_t i = 0; i < samples_a_row; ++i)
    if (heights[i] <= heights[(i + 1) % samples_a_row] &&
        heights[i] <= heights[(i + samples_a_row - 1) % samples_a_row])
      result.push_back(i);
  std::stable_sort(result.begin(), result.end(), [&](std::size_t a, std::size_t b) { return heights[a] < heights[b]; });
  result.resize(std::min(result.size(), lowest_places));
  return result;
}

std::vector<Place> lowest(const Skyline& row, double step) {
  std::vector<Place> places;
  const double pitch = step / samples_a_row;
  for (const std::size_t dip : dips(sampled(row, step))) {
    const double middle = static_cast<double>(dip) * pitch;
    places.push_back(
        lowest_between([&](double s) { return height_above(row, step, s); }, middle - pitch, middle + pitch));
  }
  return places;
}

/// Rows in one direction.
class Rows {
public:
  Rows(const LatticeRegions& regions, const std::vector<Loop>& turned_back, double angle)
      : cosine_(std::cos(angle)), sine_(std::sin(angle)), alike_(skyline(regions.alike, cosine_, sine_)),
        turned_(skyline(regions.turned, cosine_, sine_)), back_(skyline(turned_back, cosine_, sine_)) {}

  /// Least spacing of pieces in a row.
  double touching() const { return alike_.farthest; }

  /// The lowest stack of rows with this spacing.
  Lattice stacked(double step) const {
    Lattice best = single(step);
    const std::vector<Place> first = lowest(turned_, step), second = lowest(back_, step);
    for (const Place& a : first)
      for (const Place& b : second) {
        // Where a turned piece falls through a wide row, it stops level with it.
        const Place offset{a.s, std::max(a.h, 0.0)};
        const Place up{a.s + b.s, std::max(offset.h + std::max(b.h, 0.0), height_above(alike_, step, a.s + b.s))};
        const double area = step * up.h / 2;
        if (up.h > 0 && area < best.area_um2 && far_rows_clear(step, up, offset))
          best = {move(step, 0), move(up.s, up.h), move(offset.s, offset.h), true, area};
      }
    return best;
  }

  /// Rows of pieces and turned ones by turns, level with each other, each row as low as it goes when shifted by `s`.
  Lattice level(double s_share) const {
    const Place offset{turned_.farthest, 0};
    const double step = std::max(alike_.farthest, turned_.farthest + back_.farthest), s = s_share * step;
    const double h = std::max({height_above(alike_, step, s), height_above(turned_, step, s + offset.s),
                               height_above(back_, step, s - offset.s)});
    Lattice lattice{move(step, 0), move(s, h), move(offset.s, 0), true, step * h / 2};
    if (h <= 0)
      lattice.area_um2 = std::numeric_limits<double>::infinity();
    return lattice;
  }

  /// About the area that stacked() finds, from samples alone.
  double estimated_area(double step) const {
    const std::vector<double> alike = sampled(alike_, step), first = sampled(turned_, step),
                              second = sampled(back_, step);
    double best = std::numeric_limits<double>::infinity();
    for (const std::size_t a : dips(first))
      for (const std::size_t b : dips(second))
        best = std::min(
            best, std::max(std::max(0.0, first[a]) + std::max(0.0, second[b]), alike[(a + b) % samples_a_row]) / 2);
    // In wide rows a piece alone would fall through to the row after next.
    for (const std::size_t a : dips(alike))
      if (alike[a] > 0 && alike[2 * a % samples_a_row] <= 2 * alike[a])
        best = std::min(best, alike[a]);
    return step * best;
  }

private:
  /// Pieces with deep hollows could reach past the next row: rows two apart are looked at too.
  bool far_rows_clear(double step, Place up, Place offset) const {
    const Place back{2 * up.s - offset.s, 2 * up.h - offset.h};
    return height_above(alike_, step, 2 * up.s) <= 2 * up.h &&
           height_above(turned_, step, offset.s + up.s) <= offset.h + up.h &&
           height_above(back_, step, back.s) <= back.h;
  }

  Lattice single(double step) const {
    Lattice best;
    best.area_um2 = std::numeric_limits<double>::infinity();
    for (const Place& place : lowest(alike_, step))
      if (const double area = step * place.h;
          place.h > 0 && area < best.area_um2 && height_above(alike_, step, 2 * place.s) <= 2 * place.h)
        best = {move(step, 0), move(place.s, place.h), {}, false, area};
    return best;
  }

  Move move(double s, double h) const { return {s * cosine_ - h * sine_, s * sine_ + h * cosine_}; }

  double cosine_, sine_;
  Skyline alike_, turned_, back_;
};

/// A direction and a spacing worth an exact look.
struct Lead {
  double angle, spacing, area;
};

std::vector<Lead> leads(const LatticeRegions& regions, const std::vector<Loop>& back, int directions) {
  std::vector<Lead> result;
  for (int i = 0; i < directions; ++i) {
    const double angle = std::numbers::pi * i / directions;
    const Rows rows(regions, back, angle);
    Lead best{angle, 0, std::numeric_limits<double>::infinity()};
    for (int k = 0; k < spacings; ++k) {
      const double spacing = rows.touching() * (1 + static_cast<double>(k) / spacings);
      if (const double area = rows.estimated_area(spacing); area > 0 && area < best.area)
        best = {angle, spacing, area};
    }
    result.push_back(best);
  }
  std::stable_sort(result.begin(), result.end(), [](const Lead& a, const Lead& b) { return a.area < b.area; });
  return result;
}

} // namespace

LatticeRegions lattice_regions(const Shape& piece, double gap_um) {
  const std::vector<Loop> alike = no_fit_region(piece, piece), turned = no_fit_region(piece, laid(piece, {180, false}));
  return gap_um > 0 ? LatticeRegions{grown(alike, gap_um), grown(turned, gap_um)} : LatticeRegions{alike, turned};
}

std::vector<Lattice> lattices(const LatticeRegions& regions, int directions, int wanted) {
  const std::vector<Loop> back = opposite(regions.turned);
  std::vector<Lead> best = leads(regions, back, directions);
  best.resize(std::min<std::size_t>(best.size(), wanted));
  std::vector<Lattice> result;
  for (const Lead& lead : best)
    if (lead.spacing > 0)
      result.push_back(Rows(regions, back, lead.angle).stacked(lead.spacing));
  std::stable_sort(result.begin(), result.end(),
                   [](const Lattice& a, const Lattice& b) { return a.area_um2 < b.area_um2; });
  return result;
}

double touching_spacing(const LatticeRegions& regions, double angle) {
  return Rows(regions, opposite(regions.turned), angle).touching();
}

Lattice row_lattice(const LatticeRegions& regions, double angle, double spacing_um) {
  return Rows(regions, opposite(regions.turned), angle).stacked(spacing_um);
}

Lattice level_rows(const LatticeRegions& regions, double angle, double shift) {
  return Rows(regions, opposite(regions.turned), angle).level(shift);
}

Lattice densest_lattice(const LatticeRegions& regions) {
  constexpr int directions = 180, searched = 12, narrowings = 24;
  const std::vector<Loop> back = opposite(regions.turned);
  const std::vector<Lattice> starts = lattices(regions, directions, searched);
  Lattice best;
  best.area_um2 = std::numeric_limits<double>::infinity();
  for (const Lattice& start : starts) {
    if (start.area_um2 < best.area_um2)
      best = start;
    double angle = std::atan2(start.along.z, start.along.x);
    double spacing = std::hypot(start.along.x, start.along.z) / Rows(regions, back, angle).touching();
    double turn = std::numbers::pi / directions, widen = 0.5 / spacings, area = start.area_um2;
    for (int narrowing = 0; narrowing < narrowings;) {
      bool better = false;
      for (const auto& [by_turn, by_width] : {std::array{turn, 0.0}, {-turn, 0.0}, {0.0, widen}, {0.0, -widen}}) {
        const Rows rows(regions, back, angle + by_turn);
        const double wide = std::max(1.0, spacing + by_width);
        if (const Lattice next = rows.stacked(rows.touching() * wide); next.area_um2 < area) {
          area = next.area_um2, angle += by_turn, spacing = wide, better = true;
          if (area < best.area_um2)
            best = next;
          break;
        }
      }
      if (!better)
        turn /= 2, widen /= 2, ++narrowing;
    }
  }
  return best;
}

} // namespace fanwright::sheets
