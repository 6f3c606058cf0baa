#include "fit/compare.h"
#include "opened/equilibrium.h"
#include "opened/opened.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

namespace fanwright::fit {
namespace {

design::Design of(const std::string& path, double height, int leaves, int rows, double width) {
  design::Design design;
  design.silhouette_path = path;
  design.shows = design::Shows::flat;
  design::Size size;
  size.name = "one";
  size.height_mm = height;
  size.leaves = leaves;
  size.rows = design::EvenRows{rows, design::Side::inside, width, width, width};
  size.paper = paper::typical_paper(120);
  design.sizes = {size};
  return design;
}

/// Broad, with open cells: leaf count and rows show in its height, paper in its diameter.
design::Design pear() {
  return of("M 0 7 C 12 7 18 0 34 0 C 66 0 86 34 86 74 C 86 126 46 138 42 188 C 40.5 208 36 222 24 228 C 17 231.5 16 "
            "238 16 244 C 16 250 17.5 255 20 260 C 13 258 7 257 0 257",
            180, 42, 15, 3);
}

/// Slim and firm: its diameter shows the paper's thickness through the hub.
design::Design spindle() { return of("M 0 0 L 8 0 C 30 30 30 100 8 130 L 0 130", 130, 36, 12, 2.5); }

opened::Panel panel_of(const design::Design& design) {
  return opened::panel_of(std::get<leaf::Leaf>(leaf::build(design, design.sizes[0])), design.sizes[0]);
}

/// Readings of a piece made otherwise than designed, to a tenth of a millimetre as a good ruler gives them.
Readings made(const design::Design& design, const std::function<void(opened::Panel&)>& change) {
  opened::Panel panel = panel_of(design);
  change(panel);
  const auto form = std::get<opened::Form>(opened::open(panel));
  return {std::round(10 * form.height_mm) / 10, std::round(10 * form.diameter_mm) / 10, 0.3};
}

void scale(opened::Panel& panel, double factor) {
  for (leaf::Point& p : panel.outline) {
    p = {factor * p.x, factor * p.z};
  }
  for (leaf::GlueRow& row : panel.rows) {
    row.from = {factor * row.from.x, factor * row.from.z};
    row.to = {factor * row.to.x, factor * row.to.z};
    row.width_mm *= factor;
  }
}

Comparison compared(const design::Design& design, const Readings& readings) {
  auto result = compare(design, design.sizes[0], readings);
  if (const auto* failure = std::get_if<Failure>(&result)) {
    throw std::runtime_error(failure->sentence);
  }
  return std::get<Comparison>(std::move(result));
}

std::string told(const Comparison& comparison) {
  std::string text = std::to_string(comparison.alike) + " alike\n";
  char line[64];
  std::snprintf(line, sizeof line, "%.1f %.1f  %.1f %.1f +- %.2f %.2f\n", comparison.height_mm, comparison.diameter_mm,
                comparison.readings.height_mm, comparison.readings.diameter_mm, comparison.spread.height_mm,
                comparison.spread.diameter_mm);
  text += line;
  for (const Explanation& e : comparison.explanations) {
    char numbers[160];
    std::snprintf(numbers, sizeof numbers, "misfit %6.2f doubt %5.2f  %.1f %.1f  ", e.misfit, e.doubt, e.height_mm,
                  e.diameter_mm);
    text += numbers + e.sentence + "\n";
  }
  return text;
}

TEST(fit, trial_print) {
  const design::Design design = pear();
  const design::Design slim = spindle();
  std::puts(told(compared(design, made(design, [](auto& p) { scale(p, 0.959683); }))).c_str());
  std::puts(told(compared(design, made(design, [](auto& p) { p.leaves -= 8; }))).c_str());
  std::puts(told(compared(design, made(design, [](auto& p) { p.opening_deg = 270; }))).c_str());
  std::puts(told(compared(design, made(design,
                                       [](auto& p) {
                                         for (auto& r : p.rows)
                                           r.width_mm += 3;
                                       })))
                .c_str());
  std::puts(told(compared(slim, made(slim, [](auto& p) { p.sheet.thickness_mm *= 1.5; }))).c_str());
  std::puts(told(compared(slim, made(slim, [](auto& p) { p.leaves += 8; }))).c_str());
  std::puts(told(compared(design, made(design, [](auto& p) { p.sheet.thickness_mm *= 0.6; }))).c_str());
  std::puts(told(compared(design, made(design,
                                       [](auto& p) {
                                         for (auto& r : p.rows) {
                                           r.from.z *= .94;
                                           r.to.z *= .94;
                                           r.from.x *= .94;
                                           r.to.x *= .94;
                                         }
                                       })))
                .c_str());
}

} // namespace
} // namespace fanwright::fit
