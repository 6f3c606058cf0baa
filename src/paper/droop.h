// Bending stiffness from a strip of paper that hangs over the edge of a table (ASTM D1388 Option A, ISO 9073-7, read at
// any angle). The strip is an inextensible heavy elastica; no small-angle or chord-angle formula is used.
// Units at this edge: mm, degrees, g/m2, mN m (which equals N mm per mm of width).
#pragma once

#include <string>
#include <variant>
#include <vector>

namespace fanwright::paper {

/// Shape of a strip clamped level at a table's edge. The droop number is w O^3 / Sb = (O / c)^3 with w the weight per
/// area, O the overhang measured along the strip, Sb the bending stiffness and c = (Sb / w)^(1/3) the bending length.
struct Droop {
  double number = 0;
  double chord_deg = 0;     ///< from the edge straight to the tip, below the horizontal
  double drop = 0;          ///< of the tip below the table, share of the overhang
  double reach = 0;         ///< of the tip from the edge, level, share of the overhang
  double tip_slope_deg = 0; ///< below the horizontal
};

/// Chords of less than a thousandth of a degree and of 84 degrees.
inline constexpr double least_droop_number = 1e-4, largest_droop_number = 200;

/// The form of the given droop number, least_droop_number to largest_droop_number; relative error below 1e-6.
Droop droop_at(double number);

/// The inverse, from the chord angle (0.001 to 80 degrees) or the drop as a share of the overhang (1e-5 to 0.95);
/// relative error of the droop number below 1e-6.
Droop droop_of_chord(double chord_deg);
Droop droop_of_drop(double drop);

/// What was read at the table.
struct DroopReading {
  enum class Read { drop, chord };
  double overhang_mm = 0; ///< along the strip, from the edge to the tip
  Read read = Read::drop;
  double value = 0; ///< drop of the tip in mm, or angle of the chord in degrees
};

/// How far a reading may be off.
struct ReadingErrors {
  double ruler_mm = 1;          ///< overhang and drop each
  double chord_deg = 1;         ///< the angle
  double grammage_share = 0.05; ///< trade tolerance of nominal grammage (United States Government Paper Specification
                                ///< Standards A91, L20, O-65)
};

inline constexpr double least_overhang_mm = 20, most_overhang_mm = 2000;
inline constexpr double least_chord_deg = 1, most_chord_deg = 75; ///< less cannot be read, more hardly depends on Sb

/// What one reading says.
struct Bending {
  DroopReading reading;
  double drop_mm = 0, chord_deg = 0;
  double length_mm = 0;     ///< bending length c
  double stiffness_mnm = 0; ///< Sb
  double uncertainty = 0;   ///< of Sb from ruler or angle alone, a share
};

/// Stiffness from one reading; grammage in g/m2, above 0. A reading that cannot be is refused with a sentence.
std::variant<Bending, std::string> bending_of(const DroopReading& reading, double grammage_gsm,
                                              const ReadingErrors& errors = {});

/// Stiffness in one direction of the grain.
struct MeasuredStiffness {
  std::vector<Bending> readings;
  double length_mm = 0;
  double stiffness_mnm = 0;
  double uncertainty = 0; ///< share: reading and grammage together, not below what the readings differ by
  double spread = 0; ///< largest less smallest, share of the mean; 0 for one reading. Large when the strip is curled
};

/// Mean of readings (at least one) of both faces and ends. It is the harmonic mean of Sb: the drop goes with 1 / Sb,
/// and the curl adds to it on one face what it takes away on the other.
MeasuredStiffness mean_of(std::vector<Bending> readings, double grammage_gsm, const ReadingErrors& errors = {});

} // namespace fanwright::paper
