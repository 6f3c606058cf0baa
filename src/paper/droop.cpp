// Heavy elastica: ASTM D1388 Option A and ISO 9073-7 describe the test; the form follows from beam statics alone.
#include "paper/droop.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <utility>

namespace fanwright::paper {
namespace {

constexpr double degree = std::numbers::pi / 180.0;
constexpr double gravity = 9.80665; // m/s2, standard acceleration of free fall (ISO 80000-3)

// Fourth-order steps of this length, in bending lengths, leave a relative error of 1e-9 in the droop number.
constexpr double step_length = 1.0 / 64.0;

// Forms steeper than this at the tip have a droop number above 1000.
constexpr double steepest_tip = std::numbers::pi / 2.0 - 1e-11;

/// The strip from its tip inward. Lengths in bending lengths, angles in radians.
struct Station {
  double slope; ///< below the horizontal
  double curvature;
  double reach, drop; ///< of the tip from here
};

// Moment balance of the part outside a station at distance v from the tip: Sb dm/ds = w v cos(slope). With lengths in
// c = (Sb / w)^(1/3) and v counted inward: slope'' = -v cos(slope), and slope'(0) = 0 as the tip is free.
Station rate(double from_tip, const Station& at) {
  const double level = std::cos(at.slope);
  return {at.curvature, -from_tip * level, level, std::sin(at.slope)};
}

Station moved(const Station& at, const Station& rate, double step) {
  return {at.slope + step * rate.slope, at.curvature + step * rate.curvature, at.reach + step * rate.reach,
          at.drop + step * rate.drop};
}

/// One Runge-Kutta step of fourth order.
Station stepped(double from_tip, const Station& at, double step) {
  const Station first = rate(from_tip, at);
  const Station second = rate(from_tip + step / 2, moved(at, first, step / 2));
  const Station third = rate(from_tip + step / 2, moved(at, second, step / 2));
  const Station fourth = rate(from_tip + step, moved(at, third, step));
  Station next = moved(at, first, step / 6);
  next = moved(next, second, step / 3);
  next = moved(next, third, step / 3);
  return moved(next, fourth, step / 6);
}

// The form of a given tip slope is an initial-value problem: it ends where the strip first is level, at the table's
// edge. Droop numbers beyond about 100 also have forms that are level more than once; ending at the first level place
// leaves only the one that hangs.
Droop hanging(double tip_slope) {
  Station at{tip_slope, 0, 0, 0};
  double from_tip = 0;
  Station next = stepped(from_tip, at, step_length);
  while (next.slope > 0) {
    from_tip += step_length;
    at = next;
    next = stepped(from_tip, at, step_length);
  }
  double last = step_length;
  for (int round = 0; round < 6; ++round) { // Newton's method for the step that ends level; it doubles the digits
    last -= next.slope / next.curvature;
    next = stepped(from_tip, at, last);
  }
  const double overhang = from_tip + last;
  return {.number = overhang * overhang * overhang,
          .chord_deg = std::atan2(next.drop, next.reach) / degree,
          .drop = next.drop / overhang,
          .reach = next.reach / overhang,
          .tip_slope_deg = tip_slope / degree};
}

/// The form whose `measure` is `wanted`; measures of a hanging strip grow with its tip slope.
Droop form_where(double Droop::*measure, double wanted) {
  double low = 0, high = steepest_tip;
  for (double middle = high / 2; low < middle && middle < high; middle = (low + high) / 2) {
    (hanging(middle).*measure < wanted ? low : high) = middle;
  }
  return hanging(high);
}

/// d ln(droop number) / d ln(drop share), or per relative change of the chord's angle.
double sensitivity(Droop (*inverse)(double), double value) {
  constexpr double change = 1e-4; // central difference: error 1e-8, far below what the eye can read
  return std::log(inverse(value * (1 + change)).number / inverse(value * (1 - change)).number) / (2 * change);
}

// Sb = w O^3 / number. A drop y gives number = f(y / O): d ln Sb = (3 + S) d ln O - S d ln y with S = d ln f / d ln(y /
// O). An angle gives d ln Sb = 3 d ln O - S d ln angle.
double uncertainty_of(const DroopReading& reading, const Droop& form, const ReadingErrors& errors) {
  const double of_overhang = errors.ruler_mm / reading.overhang_mm;
  if (reading.read == DroopReading::Read::drop) {
    const double steepness = sensitivity(droop_of_drop, form.drop);
    return std::hypot((3 + steepness) * of_overhang, steepness * errors.ruler_mm / reading.value);
  }
  const double steepness = sensitivity(droop_of_chord, form.chord_deg);
  return std::hypot(3 * of_overhang, steepness * errors.chord_deg / reading.value);
}

std::string written(double value) {
  std::array<char, 32> text{};
  static_cast<void>(std::snprintf(text.data(), text.size(), "%.4g", value));
  return text.data();
}

/// Sb in mN m: g/m2 * m/s2 is mN/m2, and mm^3 is 1e-9 m^3.
double stiffness_of(double bending_length_mm, double grammage_gsm) {
  return 1e-9 * gravity * grammage_gsm * std::pow(bending_length_mm, 3);
}

std::string fault_of(const DroopReading& reading) {
  if (!(reading.overhang_mm >= least_overhang_mm && reading.overhang_mm <= most_overhang_mm)) {
    return "An overhang of " + written(reading.overhang_mm) + " mm is not between " + written(least_overhang_mm) +
           " and " + written(most_overhang_mm) + " mm; measure along the strip from the edge to the tip.";
  }
  if (!(reading.value > 0) || !std::isfinite(reading.value)) {
    return "The tip does not hang below the table in this reading; turn the strip over, flatten it, or let more of it "
           "hang over.";
  }
  const bool is_drop = reading.read == DroopReading::Read::drop;
  const std::string what =
      (is_drop ? "A drop of " + written(reading.value) + " mm" : "An angle of " + written(reading.value) + " degrees") +
      " at an overhang of " + written(reading.overhang_mm) + " mm";
  const double found = is_drop ? reading.value / reading.overhang_mm : reading.value;
  static const Droop flattest = droop_of_chord(least_chord_deg), steepest = droop_of_chord(most_chord_deg);
  if (is_drop && found >= 1) {
    return what + " cannot be: a strip never drops by more than its overhang; the overhang comes first, then the drop.";
  }
  if (found < (is_drop ? flattest.drop : least_chord_deg)) {
    return what + " is too little to read; let more of the strip hang over.";
  }
  if (found > (is_drop ? steepest.drop : most_chord_deg)) {
    return what + " is so steep that the stiffness hardly shows any more; let less of the strip hang over.";
  }
  return {};
}

} // namespace

Droop droop_at(double number) {
  assert(number >= least_droop_number && number <= largest_droop_number);
  return form_where(&Droop::number, number);
}

Droop droop_of_chord(double chord_deg) {
  assert(chord_deg >= 0.001 && chord_deg <= 80);
  return form_where(&Droop::chord_deg, chord_deg);
}

Droop droop_of_drop(double drop) {
  assert(drop >= 1e-5 && drop <= 0.95);
  return form_where(&Droop::drop, drop);
}

std::variant<Bending, std::string> bending_of(const DroopReading& reading, double grammage_gsm,
                                              const ReadingErrors& errors) {
  assert(grammage_gsm > 0);
  if (std::string fault = fault_of(reading); !fault.empty()) {
    return fault;
  }
  const Droop form = reading.read == DroopReading::Read::drop ? droop_of_drop(reading.value / reading.overhang_mm)
                                                              : droop_of_chord(reading.value);
  const double length_mm = reading.overhang_mm / std::cbrt(form.number);
  return Bending{.reading = reading,
                 .drop_mm = form.drop * reading.overhang_mm,
                 .chord_deg = form.chord_deg,
                 .length_mm = length_mm,
                 .stiffness_mnm = stiffness_of(length_mm, grammage_gsm),
                 .uncertainty = uncertainty_of(reading, form, errors)};
}

MeasuredStiffness mean_of(std::vector<Bending> readings, double grammage_gsm, const ReadingErrors& errors) {
  assert(!readings.empty());
  const auto count = static_cast<double>(readings.size());
  double compliance = 0, squares = 0, reading_error = 0;
  for (const Bending& one : readings) {
    compliance += 1 / one.stiffness_mnm / count;
    reading_error += one.uncertainty * one.uncertainty / (count * count);
  }
  for (const Bending& one : readings) {
    squares += std::pow(1 / one.stiffness_mnm / compliance - 1, 2);
  }
  const double standard_error = readings.size() > 1 ? std::sqrt(squares / (count - 1) / count) : 0;
  const auto [softest, stiffest] = std::ranges::minmax_element(readings, {}, &Bending::stiffness_mnm);
  const double spread = (stiffest->stiffness_mnm - softest->stiffness_mnm) * compliance;
  return {.readings = std::move(readings),
          .length_mm = std::cbrt(1 / compliance / stiffness_of(1, grammage_gsm)),
          .stiffness_mnm = 1 / compliance,
          .uncertainty = std::hypot(std::max(std::sqrt(reading_error), standard_error), errors.grammage_share),
          .spread = spread};
}

} // namespace fanwright::paper
