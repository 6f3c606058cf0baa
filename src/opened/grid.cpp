#include "opened/grid.h"

#include "opened/tolerances.h"

#include <algorithm>
#include <cmath>

namespace fanwright::opened {
namespace {

/// Adds the lines that cut a stretch into cells, and its end; the first and the last are `end_share` of the others.
void fill(std::vector<double>& lines, double from, double to, int cells, double end_share = 1) {
  if (cells < 3) {
    end_share = 1;
  }
  const double all = cells - 2 + 2 * end_share;
  for (int k = 1; k < cells; ++k) {
    lines.push_back(from + (to - from) * (k - 1 + end_share) / all);
  }
  lines.push_back(to);
}

/// Of each of the three splines across with each of the three up, a + 3 b.
std::array<double, 9> products(const std::array<double, 3>& a, const std::array<double, 3>& b) {
  std::array<double, 9> all{};
  for (std::size_t q = 0; q < 3; ++q) {
    for (std::size_t p = 0; p < 3; ++p) {
      all[p + 3 * q] = a[p] * b[q];
    }
  }
  return all;
}

} // namespace

int Fineness::cells_in(double gap, int least) const {
  return std::max(least, static_cast<int>(std::ceil(gap / cell_mm - 0.2)));
}

Grid::Grid(const Panel& panel, const Fineness& fineness, const Grid* before) {
  double width = 0;
  for (const leaf::Point& p : panel.outline) {
    width = std::max(width, p.x);
  }
  middle_ = 0.5 * width;
  place_bands(panel);
  place_across(panel, fineness, width, before);
  if (!sound_) {
    return;
  }
  double foot = zeta_of(panel.outline.front());
  double top = foot;
  for (const leaf::Point& p : panel.outline) {
    const double zeta = zeta_of(p);
    foot = std::min(foot, zeta);
    top = std::max(top, zeta);
  }
  place_up(fineness, foot, top, before);
}

void Grid::place_bands(const Panel& panel) {
  for (std::size_t r = 0; r < panel.rows.size(); ++r) {
    const leaf::GlueRow& row = panel.rows[r];
    Band band;
    band.row = static_cast<int>(r);
    band.from_x = std::min(row.from.x, row.to.x);
    band.to_x = std::max(row.from.x, row.to.x);
    band.slope = (row.to.z - row.from.z) / (row.to.x - row.from.x);
    const double centre = row.from.z + (middle_ - row.from.x) * band.slope;
    band.low = centre - 0.5 * row.width_mm;
    band.high = centre + 0.5 * row.width_mm;
    sloped_ = sloped_ || std::abs(band.slope) > 1e-9;
    bands_.push_back(band);
  }
  std::stable_sort(bands_.begin(), bands_.end(), [](const Band& a, const Band& b) { return a.low < b.low; });
  sound_ = !sloped_ || map_is_monotone();
}

bool Grid::map_is_monotone() const {
  for (std::size_t k = 0; k + 1 < bands_.size(); ++k) {
    const double gap = bands_[k + 1].low - bands_[k].high;
    // The blend's steepest place is twice its mean; a quarter of the gap is kept so that cells are not crushed.
    const double bend = 2.0 * std::abs(bands_[k + 1].slope - bands_[k].slope) * middle_;
    if (gap <= 0 || bend > 0.75 * gap) {
      return false;
    }
  }
  return true;
}

Grid::Slope Grid::slope_at(double zeta) const {
  if (!sloped_) {
    return {};
  }
  if (zeta <= bands_.front().high) {
    return {bands_.front().slope, 0, 0};
  }
  for (std::size_t k = 0; k + 1 < bands_.size(); ++k) {
    const Band& lower = bands_[k];
    const Band& upper = bands_[k + 1];
    if (zeta >= upper.low) {
      if (zeta <= upper.high) {
        return {upper.slope, 0, 0};
      }
      continue;
    }
    const double gap = upper.low - lower.high;
    const double t = (zeta - lower.high) / gap;
    const double rise = upper.slope - lower.slope;
    if (t < 0.5) {
      return {lower.slope + 2 * rise * t * t, 4 * rise * t / gap, 4 * rise / (gap * gap)};
    }
    const double u = 1 - t;
    return {upper.slope - 2 * rise * u * u, 4 * rise * u / gap, -4 * rise / (gap * gap)};
  }
  return {bands_.back().slope, 0, 0};
}

std::array<const Band*, 2> Grid::bands_round(double zeta) const {
  std::array<const Band*, 2> round{};
  for (const Band& band : bands_) {
    if (band.low <= zeta) {
      round[0] = &band;
    }
    if (band.high >= zeta && round[1] == nullptr) {
      round[1] = &band;
    }
  }
  return round;
}

bool Grid::slopes_alike(const Grid& other, double zeta) const {
  if (!sloped_ && !other.sloped_) {
    return true;
  }
  const auto same = [](const Band* a, const Band* b) { return a == b || (a != nullptr && b != nullptr && *a == *b); };
  const auto here = bands_round(zeta);
  const auto there = other.bands_round(zeta);
  return middle_ == other.middle_ && same(here[0], there[0]) && same(here[1], there[1]);
}

leaf::Point Grid::flat_of(double x, double zeta) const { return {x, zeta + (x - middle_) * slope_at(zeta).value}; }

double Grid::zeta_of(leaf::Point flat) const {
  if (!sloped_) {
    return flat.z;
  }
  // The map is monotone in zeta for a fixed x: bracket, then bisect to well below a micrometre.
  const double lean = flat.x - middle_;
  double reach = 1.0;
  for (const Band& band : bands_) {
    reach = std::max(reach, std::abs(lean * band.slope) + 1.0);
  }
  double low = flat.z - reach;
  double high = flat.z + reach;
  for (int k = 0; k < 60; ++k) {
    const double mid = 0.5 * (low + high);
    (mid + lean * slope_at(mid).value < flat.z ? low : high) = mid;
  }
  return 0.5 * (low + high);
}

void Grid::place_across(const Panel& panel, const Fineness& fineness, double width, const Grid* before) {
  std::vector<double> wanted{0.0, width};
  for (const leaf::GlueRow& row : panel.rows) {
    wanted.push_back(std::clamp(row.from.x, 0.0, width));
    wanted.push_back(std::clamp(row.to.x, 0.0, width));
  }
  Stretches stretches(wanted, fineness.line_mm, before != nullptr ? &before->divided_across_ : nullptr);
  std::vector<double> lines{0.0};
  for (std::size_t k = 0; k < stretches.count(); ++k) {
    const int cells = stretches.cells(k, [&](double gap) {
      const int least = stretches.is_end(k) && gap > 2 * fineness.line_mm ? 2 : 1;
      return fineness.cells_in(gap, least);
    });
    fill(lines, stretches.from(k), stretches.to(k), cells);
  }
  divided_across_ = stretches.division();
  across_ = Spline(std::move(lines));
}

void Grid::place_up(const Fineness& fineness, double foot, double top, const Grid* before) {
  std::vector<double> wanted{foot, top};
  for (const Band& band : bands_) {
    wanted.push_back(band.low);
    wanted.push_back(band.high);
  }
  Stretches stretches(wanted, tolerance::strip_line_mm, before != nullptr ? &before->divided_up_ : nullptr);
  std::vector<double> lines{foot};
  for (std::size_t k = 0; k < stretches.count(); ++k) {
    const double from = stretches.from(k), to = stretches.to(k);
    const double centre = 0.5 * (from + to);
    const bool in_strip = std::any_of(bands_.begin(), bands_.end(),
                                      [&](const Band& band) { return centre > band.low && centre < band.high; });
    const bool is_gap = !in_strip && !stretches.is_end(k);
    const int least = is_gap ? fineness.cells_per_gap : in_strip ? 1 : 2;
    const double crease = is_gap ? std::min(fineness.crease_mm, 0.25 * (to - from) / least) : 0.0;
    if (crease > 0) {
      lines.push_back(from + crease);
    }
    const int cells = stretches.cells(k, [&](double gap) { return fineness.cells_in(gap, least); });
    fill(lines, from, to, cells, is_gap ? tolerance::gap_end_share : 1.0);
    if (crease > 0) {
      lines.insert(lines.end() - 1, to - crease);
    }
  }
  divided_up_ = stretches.division();
  up_ = Spline(std::move(lines));
}

Basis Grid::basis(int i, int j, double x, double zeta) const {
  const SplineValues a = across_.at(i, x);
  const SplineValues b = up_.at(j, zeta);
  Basis n{products(a.value, b.value),  products(a.first, b.value), products(a.value, b.first),
          products(a.second, b.value), products(a.first, b.first), products(a.value, b.second)};
  if (sloped_) {
    slope(n, x, zeta);
  }
  return n;
}

std::array<double, 9> Grid::values(int i, int j, double x, double zeta) const {
  return products(across_.at(i, x).value, up_.at(j, zeta).value);
}

void Grid::slope(Basis& n, double x, double zeta) const {
  const Slope slope = slope_at(zeta);
  const double lean = x - middle_;
  const double stretch = 1.0 + lean * slope.first; // dz/dzeta at fixed x
  const double bend = lean * slope.second;         // d2z/dzeta2
  // zeta as a function of (x, z), differentiated implicitly from z = zeta + lean slope(zeta).
  const double zx = -slope.value / stretch;
  const double zz = 1.0 / stretch;
  const double along = slope.first + bend * zx; // d(stretch)/dx at fixed z
  const double zxx = -slope.first * zx / stretch + slope.value * along / (stretch * stretch);
  const double zxz = -along / (stretch * stretch);
  const double zzz = -bend / (stretch * stretch * stretch);
  n.stretch = stretch;
  for (std::size_t k = 0; k < 9; ++k) {
    const double up1 = n.dz[k];
    const double up2 = n.dzz[k];
    const double mixed = n.dxz[k];
    n.dx[k] += up1 * zx;
    n.dz[k] = up1 * zz;
    n.dxx[k] += 2 * mixed * zx + up2 * zx * zx + up1 * zxx;
    n.dxz[k] = mixed * zz + up2 * zx * zz + up1 * zxz;
    n.dzz[k] = up2 * zz * zz + up1 * zzz;
  }
}

} // namespace fanwright::opened
