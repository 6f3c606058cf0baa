// Paper sizes: ISO 216 and ASME Y14.1. Stiffness: ISO 5628.
#include "paper/paper.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

namespace fanwright::paper {
namespace {

/// sqrt(nu12 nu21) of machine-made paper; with it the shear rule below is the usual G = 0.387 sqrt(E1 E2).
constexpr double usual_poisson = 0.293;

/// Typical paper of one grammage. Calipers are those of government paper specifications (index, tag, text, copier
/// grades); moduli follow from their least bending stiffness. Papers of one grammage differ by 30 %.
struct Typical {
  double grammage_gsm, caliper_mm, modulus_along_mpa, modulus_across_mpa;
};

constexpr std::array<Typical, 10> typical_papers{{{80, 0.100, 5000, 2200},
                                                  {105, 0.140, 4500, 2000},
                                                  {120, 0.160, 4500, 2000},
                                                  {150, 0.200, 4500, 2000},
                                                  {161, 0.178, 6000, 2800},
                                                  {176, 0.229, 5000, 2300},
                                                  {200, 0.230, 6000, 2600},
                                                  {216, 0.270, 5000, 2300},
                                                  {255, 0.290, 5500, 2400},
                                                  {305, 0.350, 5000, 2200}}};

Paper paper_like(const Typical& typical) {
  return {.grammage_gsm = typical.grammage_gsm,
          .caliper_mm = typical.caliper_mm,
          .modulus_along_mpa = typical.modulus_along_mpa,
          .modulus_across_mpa = typical.modulus_across_mpa,
          .poisson = usual_poisson,
          .grain = Grain::along_spine};
}

/// The same kind of paper in another weight: same bulk, so the caliper follows the grammage.
Paper same_bulk(const Typical& typical, double grammage_gsm) {
  Paper paper = paper_like(typical);
  paper.grammage_gsm = grammage_gsm;
  paper.caliper_mm = typical.caliper_mm * grammage_gsm / typical.grammage_gsm;
  return paper;
}

struct NamedSize {
  std::string_view name;
  SheetSize size;
};

constexpr double inch_mm = 25.4;

constexpr std::array<NamedSize, 18> named_sizes{{{"A0", {841, 1189}},
                                                 {"A1", {594, 841}},
                                                 {"A2", {420, 594}},
                                                 {"A3", {297, 420}},
                                                 {"A4", {210, 297}},
                                                 {"A5", {148, 210}},
                                                 {"A6", {105, 148}},
                                                 {"B0", {1000, 1414}},
                                                 {"B1", {707, 1000}},
                                                 {"B2", {500, 707}},
                                                 {"B3", {353, 500}},
                                                 {"B4", {250, 353}},
                                                 {"B5", {176, 250}},
                                                 {"B6", {125, 176}},
                                                 {"letter", {8.5 * inch_mm, 11 * inch_mm}},
                                                 {"legal", {8.5 * inch_mm, 14 * inch_mm}},
                                                 {"tabloid", {11 * inch_mm, 17 * inch_mm}},
                                                 {"12x12in", {12 * inch_mm, 12 * inch_mm}}}};

} // namespace

// For an isotropic sheet E1 = E2 this is E / (2 (1 + nu)).
double Paper::shear_mpa() const { return std::sqrt(modulus_along_mpa * modulus_across_mpa) / (2.0 * (1.0 + poisson)); }

// Sb = E t^3 / 12; mN m per m of width equals N mm per mm of width, so MPa and mm need no factor.
double modulus_from_stiffness(double stiffness_mnm, double caliper_mm) {
  return 12.0 * stiffness_mnm / (caliper_mm * caliper_mm * caliper_mm);
}

double stiffness_from_modulus(double modulus_mpa, double caliper_mm) {
  return modulus_mpa * caliper_mm * caliper_mm * caliper_mm / 12.0;
}

Paper typical_paper(double grammage_gsm) {
  const auto* above =
      std::ranges::lower_bound(typical_papers, grammage_gsm, std::ranges::less{}, &Typical::grammage_gsm);
  if (above == typical_papers.begin()) {
    return same_bulk(typical_papers.front(), grammage_gsm);
  }
  if (above == typical_papers.end()) {
    return same_bulk(typical_papers.back(), grammage_gsm);
  }
  const auto& upper = *above;
  const auto& lower = *std::prev(above);
  const double share = (grammage_gsm - lower.grammage_gsm) / (upper.grammage_gsm - lower.grammage_gsm);
  Paper paper = paper_like(lower);
  paper.grammage_gsm = grammage_gsm;
  paper.caliper_mm = std::lerp(lower.caliper_mm, upper.caliper_mm, share);
  paper.modulus_along_mpa = std::lerp(lower.modulus_along_mpa, upper.modulus_along_mpa, share);
  paper.modulus_across_mpa = std::lerp(lower.modulus_across_mpa, upper.modulus_across_mpa, share);
  return paper;
}

std::optional<SheetSize> sheet_size(std::string_view name) {
  const auto* found = std::ranges::find(named_sizes, name, &NamedSize::name);
  if (found == named_sizes.end()) {
    return std::nullopt;
  }
  return found->size;
}

} // namespace fanwright::paper
