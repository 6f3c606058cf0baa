// Numbers: SplitMix64, Steele, Lea and Flood, Fast splittable pseudorandom number generators, 2014 (from memory).
#include "trade_shapes.h"

#include "paper/paper.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace fanwright::bench {
namespace {

/// An outline and the numbers that decide its rows, mm.
struct Outline {
  std::string path;
  double height = 0;
  double widest = 0; ///< distance of the farthest row end from the axis
};

/// A belly low down, drawn in to a neck: pears, apples, gourds.
Outline broad(Draws& draw) {
  const double height = draw.between(140, 280), belly = height * draw.between(0.28, 0.38);
  const double foot = belly * draw.between(0.35, 0.6), neck = belly * draw.between(0.3, 0.55);
  const double middle = height * draw.between(0.28, 0.4), shoulder = height * draw.between(0.68, 0.78);
  return {fmt::format("M 0 0 H {:.2f} C {:.2f} 0 {:.2f} {:.2f} {:.2f} {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} "
                      "{:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} 0 {:.2f}",
                      foot, foot + 0.6 * (belly - foot), belly, 0.4 * middle, belly, middle, belly, 1.5 * middle,
                      neck * 1.15, shoulder - 0.12 * height, neck, shoulder, 0.9 * neck, 0.9 * height, 0.5 * neck,
                      height, height),
          height, belly};
}

/// Three to five times as high as wide: cypresses, candles.
Outline slim(Draws& draw) {
  const double height = draw.between(150, 270), belly = height * draw.between(0.1, 0.16);
  const double foot = belly * draw.between(0.55, 0.9), waist = belly * draw.between(0.6, 0.9);
  const double crown = belly * draw.between(0.55, 0.85);
  return {fmt::format("M 0 0 H {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} "
                      "{:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} 0 {:.2f}",
                      foot, belly, 0.1 * height, belly, 0.2 * height, belly, 0.3 * height, belly, 0.42 * height, waist,
                      0.5 * height, waist, 0.58 * height, crown, 0.7 * height, crown, height, height),
          height, belly};
}

/// Tiers one above the other, each hanging over the neck of the one below.
Outline tiered(Draws& draw) {
  const double height = draw.between(160, 280), belly = height * draw.between(0.28, 0.36);
  const int tiers = draw.whole(3, 4);
  const double trunk = height * draw.between(0.08, 0.12), overhang = draw.between(0.12, 0.25);
  const double tier = (height - trunk) / tiers;
  std::string path = fmt::format("M 0 0 H {:.2f} V {:.2f}", 0.35 * belly, trunk);
  for (int k = 0; k < tiers; ++k) {
    const double bottom = trunk + k * tier, tip = belly * (1 - 0.72 * k / tiers);
    const double neck = k + 1 < tiers ? 0.52 * belly * (1 - 0.72 * (k + 1.0) / tiers) : 0;
    path +=
        fmt::format(" L {:.2f} {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f}", tip, bottom - overhang * tier * 0.5,
                    0.95 * tip, bottom + 0.4 * tier, neck + 0.3 * tip, bottom + 0.75 * tier, neck, bottom + tier);
  }
  return {path, height, belly};
}

/// A ball or an egg on a small foot.
Outline ball(Draws& draw) {
  const double height = draw.between(70, 150), belly = height * draw.between(0.42, 0.54);
  const double foot = belly * draw.between(0.15, 0.35), middle = height * draw.between(0.45, 0.53);
  return {
      fmt::format("M 0 0 H {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} 0 {:.2f}",
                  foot, foot + 0.5 * (belly - foot), 0.02 * height, belly, 0.45 * middle, belly, middle, belly,
                  middle + 0.55 * (height - middle), 0.55 * belly, height, height),
      height, belly};
}

/// A flaring rim at the foot, a waist, a rounded crown.
Outline bell(Draws& draw) {
  const double height = draw.between(90, 180), rim = height * draw.between(0.32, 0.42);
  const double waist = rim * draw.between(0.6, 0.8);
  return {
      fmt::format("M 0 0 H {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} 0 {:.2f}",
                  rim, 0.85 * rim, 0.1 * height, waist, 0.2 * height, waist, 0.42 * height, 0.97 * waist, 0.75 * height,
                  0.6 * waist, height, height),
      height, rim};
}

/// A foot, a stem, a bowl and a lip.
Outline urn(Draws& draw) {
  const double height = draw.between(150, 270), belly = height * draw.between(0.24, 0.34);
  const double foot = belly * draw.between(0.5, 0.75), stem = belly * draw.between(0.28, 0.4);
  const double lip = belly * draw.between(0.6, 0.85), neck = lip * draw.between(0.75, 0.9);
  return {
      fmt::format("M 0 0 H {:.2f} V {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} "
                  "{:.2f} {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} C {:.2f} {:.2f} {:.2f} {:.2f} {:.2f} "
                  "{:.2f} H 0",
                  foot, 0.04 * height, 0.8 * foot, 0.07 * height, stem, 0.09 * height, stem, 0.16 * height, 1.1 * stem,
                  0.26 * height, belly, 0.3 * height, belly, 0.5 * height, belly, 0.68 * height, neck, 0.74 * height,
                  neck, 0.86 * height, neck, 0.93 * height, 0.8 * lip, 0.97 * height, lip, height),
      height, belly};
}

/// Gaps stand lower at the rim than at the spine, by about 0.6 q^2 of them, so that the leaf curves and the ends of its
/// spine stand off the axis by L^2 / (8 r), r = x / (0.6 q^2): the ratio that keeps this below `most_mm`.
double lock_that_stays_slender(const Outline& outline, double most_mm) {
  return std::sqrt(8 * outline.widest * most_mm / 0.6) / outline.height;
}

/// Rows and leaves so that the broadest gap has the lock ratio asked for: q = beta x / s.
design::Size size_for(const Outline& outline, Draws& draw) {
  design::Size size;
  size.name = "one";
  const double most_lock = lock_that_stays_slender(outline, 5);
  const double lock = std::min(draw.between(0.3, 0.65), most_lock), width = outline.height > 140 ? 3.0 : 2.5;
  size.paper = paper::typical_paper(outline.height > 180 ? draw.between(140, 180) : draw.between(100, 140));
  // Rows 12 to 24 mm apart, from row to row (common practice, no source).
  const double pitch = std::min(draw.between(12, 24), outline.height / 7);
  const double leaves = std::numbers::pi * outline.widest / (lock * (pitch - width));
  size.leaves = std::clamp(static_cast<int>(std::lround(leaves)), 16, 60);
  if (draw.whole(0, 1) == 0) {
    const auto look = most_lock < 0.4   ? design::Look::open
                      : most_lock < 0.5 ? design::Look::usual
                                        : design::Look::dense;
    size.rows = design::AutoRows{look, design::Side::inside, width, {}, {}};
  } else {
    const double beta = std::numbers::pi / size.leaves;
    const double spacing = beta * outline.widest / lock + width;
    const int count = std::max(4, static_cast<int>(outline.height / spacing) + 1);
    size.rows = design::EvenRows{count, design::Side::inside, width, 3, 3};
  }
  return size;
}

} // namespace

double Draws::between(double low, double high) {
  state_ += 0x9e3779b97f4a7c15U;
  std::uint64_t mixed = state_;
  mixed = (mixed ^ (mixed >> 30U)) * 0xbf58476d1ce4e5b9U;
  mixed = (mixed ^ (mixed >> 27U)) * 0x94d049bb133111ebU;
  mixed ^= mixed >> 31U;
  return low + (high - low) * static_cast<double>(mixed >> 11U) * 0x1p-53;
}

int Draws::whole(int low, int high) {
  return std::min(high, low + static_cast<int>(between(0, static_cast<double>(high - low + 1))));
}

std::vector<TradeShape> trade_shapes(std::uint64_t seed, int count) {
  using Drawing = Outline (*)(Draws&);
  const std::array<std::pair<const char*, Drawing>, 6> families{
      {{"broad", broad}, {"slim", slim}, {"tiered", tiered}, {"ball", ball}, {"bell", bell}, {"urn", urn}}};
  Draws draw(seed);
  std::vector<TradeShape> shapes;
  for (int k = 0; k < count; ++k) {
    const auto& [family, drawing] = families[static_cast<std::size_t>(k) % families.size()];
    const Outline outline = drawing(draw);
    TradeShape shape{family, {}};
    shape.design.title = family;
    shape.design.silhouette_path = outline.path;
    shape.design.shows = design::Shows::opened;
    shape.design.making.bead_mm = 0.5;
    shape.design.sizes = {size_for(outline, draw)};
    shapes.push_back(std::move(shape));
  }
  return shapes;
}

} // namespace fanwright::bench
