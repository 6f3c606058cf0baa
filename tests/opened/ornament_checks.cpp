#include "opened/ornament_checks.h"

#include "opened/panels.h"
#include "opened/reference_edge.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <variant>

namespace fanwright::opened {
namespace {

constexpr const char* independent = "quadratic solid elements with contact (tests/opened/cases)";

Form form_of(const Panel& panel, const Options& options = {}) { return std::get<Form>(open(panel, options)); }

/// Height of the outer edge at a flat height, mm.
double rim_height(const Form& form, double x, double z) {
  const auto away = [&](const EdgePoint& p) { return std::hypot(p.x - x, p.z - z); };
  return std::ranges::min_element(form.edge, {}, away)->height;
}

/// A straight leaf 60 mm wide, rows 20 mm apart and 3 mm wide.
Panel tall_panel(int leaves) {
  Panel panel;
  panel.outline = {{0, 0}, {60, 0}, {60, 92}, {0, 92}};
  for (int k = 0; k < 5; ++k)
    panel.rows.push_back(row(k % 2 == 0 ? design::Side::inside : design::Side::between, 3, 58, 6 + 20.0 * k));
  panel.sheet = {0.16, 3000, 3000, 0.293, 1160};
  panel.leaves = leaves;
  return panel;
}

/// Height that the rim loses in each gap, mm.
double lost_per_gap(const Form& form) { return (80 - (rim_height(form, 60, 86) - rim_height(form, 60, 6))) / 4; }

} // namespace

Checks reference_checks() {
  Checks checks;
  Options quick;
  quick.detail = Detail::quick;
  for (const std::string name : {"rect46", "cone46"}) {
    const auto add = [&](const std::string& subject, const Form& form, double bar) {
      checks.push_back({subject, "largest distance, mm", 0, independent, distance_from_reference(name, form), bar,
                        form.unknowns / 3, form.height_mm});
    };
    add("outer edge, " + name, form_of(case_panel(name)), 0.004);
    add("outer edge, " + name + ", quickly", form_of(case_panel(name), quick), 0.005);
  }
  return checks;
}

Checks rim_checks() {
  const Form many = form_of(tall_panel(80));
  const Form few = form_of(tall_panel(40));
  const double swing = few.wedge_rad * 60;
  const double clear = 17;
  return {{"rim, 40 leaves", "c in c (beta R)^2 / s", 0.625, "taut 0.5, free swing 0.75 (clamped elastica: 0.6)",
           lost_per_gap(few) * clear / (swing * swing), 0.2, few.unknowns / 3, 0},
          {"rim, 40 against 80 leaves", "shrink for a wedge twice as wide", 4, "law of the square",
           lost_per_gap(few) / lost_per_gap(many), 0.1, few.unknowns / 3, 0},
          {"lock, 40 leaves", "q = beta x1 / s", std::numbers::pi / 40 * 58 / 17, "definition", few.lock_ratio, 1e-9,
           few.unknowns / 3, 0}};
}

Checks invariance_checks() {
  Checks checks;
  const Form one = form_of(small_panel());
  const int points = one.unknowns / 3;
  const auto compare = [&](const std::string& subject, const Form& other, double scale, double bar) {
    checks.push_back(
        {subject, "height, mm", scale * one.height_mm, "the panel as it was", other.height_mm, bar, points, 0});
    checks.push_back(
        {subject, "diameter, mm", scale * one.diameter_mm, "the panel as it was", other.diameter_mm, bar, points, 0});
  };
  const auto changed = [&](const auto& moved, bool swap) {
    Panel panel = small_panel();
    for (leaf::Point& p : panel.outline)
      p = moved(p);
    for (leaf::GlueRow& glue : panel.rows) {
      glue.from = moved(glue.from);
      glue.to = moved(glue.to);
      if (swap)
        glue.side = glue.side == design::Side::inside ? design::Side::between : design::Side::inside;
    }
    return panel;
  };
  compare("panel raised by 1000 mm",
          form_of(changed(
              [](leaf::Point p) {
                return leaf::Point{p.x, p.z + 1000};
              },
              false)),
          1, 1e-6);
  Panel over = changed([](leaf::Point p) { return leaf::Point{p.x, 60 - p.z}; }, false);
  std::ranges::reverse(over.outline);
  std::ranges::reverse(over.rows);
  compare("panel turned upside down", form_of(over), 1, 2e-5);
  compare("inside and between rows swapped", form_of(changed([](leaf::Point p) { return p; }, true)), 1, 0.01);
  Panel big = changed([](leaf::Point p) { return leaf::Point{2 * p.x, 2 * p.z}; }, false);
  for (leaf::GlueRow& glue : big.rows)
    glue.width_mm *= 2;
  big.sheet.thickness_mm *= 2;
  Options doubled;
  doubled.cell_mm = 4; // twice that of the panel as it was
  compare("every length doubled", form_of(big, doubled), 2, 2e-4);
  return checks;
}

Checks moment_checks() {
  Checks checks;
  for (const double opening : {90.0, 180.0, 340.0}) {
    const auto at = [&](double degrees) {
      Panel panel = small_panel();
      panel.opening_deg = degrees;
      return form_of(panel);
    };
    const double step = 2;
    const Form form = at(opening);
    const double wedge_step = 2 * step * std::numbers::pi / 180 / (2 * 24);
    // The energy of contact is left out of the difference; it and the quotient's own error stay below 1 %.
    checks.push_back({"opened " + std::to_string(static_cast<int>(opening)) + " degrees", "holding moment, N mm",
                      (at(opening + step).energy_nmm() - at(opening - step).energy_nmm()) / wedge_step,
                      "slope of the energy, by differences", form.holding_moment_nmm, 0.01, form.unknowns / 3, 0});
  }
  return checks;
}

std::vector<Refinement> refinement_path(const char* name) {
  std::vector<Refinement> path;
  for (const int cells : {3, 5, 7, 10, 14}) {
    Options options;
    options.cells_per_gap = cells;
    options.cell_mm = 28.0 / cells;
    const Form form = form_of(case_panel(name), options);
    path.push_back({cells, form.unknowns, distance_from_reference(name, form) / form.height_mm});
  }
  return path;
}

} // namespace fanwright::opened
