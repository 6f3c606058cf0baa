// Paper as one elastic layer: grammage, caliper and orthotropic stiffness.
// Units at this edge: g/m2, mm, MPa (N/mm2), mN m (which equals N mm per mm of width).
#pragma once

#include <optional>
#include <string_view>

namespace fanwright::paper {

/// Direction of the grain (machine direction) in the leaf.
enum class Grain { along_spine, across_spine };

/// What lies between the coloured faces. white: coloured on its faces only, so that folds and cut edges show white.
enum class Core { unknown, dyed, white };

/// One sheet of paper. All moduli are Young's or shear moduli of an equivalent homogeneous layer, MPa.
struct Paper {
  double grammage_gsm = 160.0;        ///< mass per area, g/m2
  double caliper_mm = 0.20;           ///< thickness, mm (ISO 534)
  double modulus_along_mpa = 4500.0;  ///< along the grain
  double modulus_across_mpa = 1950.0; ///< across the grain
  double poisson = 0.293;             ///< sqrt(nu12 nu21), dimensionless
  Grain grain = Grain::along_spine;
  Core core = Core::unknown;

  /// In-plane shear modulus, MPa: sqrt(E1 E2) / (2 (1 + poisson)).
  double shear_mpa() const;
};

/// Young's modulus (MPa) from the bending stiffness Sb = E t^3 / 12 of ISO 5628 (mN m) and the caliper (mm).
double modulus_from_stiffness(double stiffness_mnm, double caliper_mm);

/// Inverse of modulus_from_stiffness, mN m.
double stiffness_from_modulus(double modulus_mpa, double caliper_mm);

/// Typical paper for a grammage (g/m2) where the maker gave nothing else; interpolates the table in paper.cpp.
Paper typical_paper(double grammage_gsm);

/// A sheet of paper by its trade name; width <= height, mm.
struct SheetSize {
  double width_mm = 210.0;
  double height_mm = 297.0;
};

/// Known names: A0..A6, B0..B6 (ISO 216), letter, legal, tabloid (ASME Y14.1), 12x12in. Empty when unknown.
std::optional<SheetSize> sheet_size(std::string_view name);

} // namespace fanwright::paper
