// What opening costs, from the start and beside a form before:
//   bench_opened [--reference] examples/orchard/*.ornament.json
//   bench_opened --designs COUNT [SEED]       leaves drawn at random, see random_designs.h
// Each quickly and in full (opened::Detail), and what is shown meanwhile (opened::Preview). Median CPU ms of one
// thread, also as a multiple of one numeric factorisation of the same matrix. With --reference also the largest
// distance of the outer edge from that of cells half as large, as a share of the size (slow).
#include "changes.h"
#include "random_designs.h"

#include "../processor_time.h"
#include "design/design.h"
#include "fit/leaf_of.h"
#include "opened/equilibrium.h"
#include "opened/factor.h"
#include "opened/memory.h"
#include "opened/preview.h"
#include "opened/solver.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright {
namespace {

using bench::edge_distance;
using bench::measured_only;
using bench::with_point_moved;
using bench::with_row_moved;
using opened::Form;
using opened::Panel;

double cpu_ms() { return 1e3 * bench::processor_seconds(); }

template <typename Work> double median_ms(int runs, const Work& work) {
  std::vector<double> times;
  for (int k = 0; k < runs; ++k) {
    const double start = cpu_ms();
    work();
    times.push_back(cpu_ms() - start);
  }
  std::ranges::sort(times);
  return times[times.size() / 2];
}

/// One numeric factorisation of the Hessian at a form, its symbolic part done.
double factor_ms(const Form& form) {
  const opened::OneThread one_thread;
  const opened::Equilibrium& sheet = *form.equilibrium;
  opened::Matrix hessian = sheet.mechanics.pattern();
  opened::Vector gradient;
  sheet.mechanics.derivatives(sheet.unknowns, sheet.mechanics.forces(sheet.unknowns), opened::Bends::as_arcs, gradient,
                              hessian);
  Eigen::CholmodSupernodalLLT<opened::Matrix, Eigen::Lower> factor;
  factor.cholmod().print = 0;
  factor.analyzePattern(hessian);
  return median_ms(7, [&] { factor.factorize(hessian); });
}

std::optional<Form> reference(const Panel& panel) {
  const opened::Fineness usual = opened::fineness_of(panel, {});
  opened::Options options = measured_only();
  options.cell_mm = usual.cell_mm / 2;
  options.cells_per_gap = 2 * usual.cells_per_gap;
  auto form = opened::open(panel, options);
  return std::holds_alternative<Form>(form) ? std::optional(std::get<Form>(std::move(form))) : std::nullopt;
}

Panel with_leaves(Panel panel, int more) {
  panel.leaves += more;
  return panel;
}

struct Line {
  std::string name;
  double ms = 0;
  int factors = 0;
  double error = -1;
  /// From the form that is opened from the start: shares of the size, of the moment and of the energy.
  double apart = -1, moment_apart = 0, energy_more = 0;
};

/// A panel, the one whose form it is opened beside, and its converged form when that is asked for.
struct Change {
  std::string name;
  Panel panel;
  std::optional<Form> converged;
};

double error_of(const Form& form, const Change& change) {
  return change.converged ? edge_distance(form, *change.converged) : -1;
}

/// Opens the changed panel again and again, each time beside the form of `before`.
Line beside(const Panel& before, const Change& change, opened::Detail detail) {
  Line line{change.name};
  std::vector<double> times;
  Form last;
  for (int k = 0; k < 5; ++k) {
    opened::Solver solver;
    (void)solver.open(before, measured_only(detail));
    const double start = cpu_ms();
    const auto form = solver.open(change.panel, measured_only(detail));
    times.push_back(cpu_ms() - start);
    if (!std::holds_alternative<Form>(form))
      return {change.name + ": " + std::get<opened::Failure>(form).sentence};
    line.factors = std::get<Form>(form).factorisations;
    line.error = error_of(std::get<Form>(form), change);
    last = std::get<Form>(form);
  }
  std::ranges::sort(times);
  line.ms = times[times.size() / 2];
  const auto from_start = opened::open(change.panel, measured_only(detail));
  if (const auto* cold = std::get_if<Form>(&from_start)) {
    line.apart = edge_distance(last, *cold);
    line.moment_apart = std::abs(last.holding_moment_nmm / cold->holding_moment_nmm - 1);
    line.energy_more = last.energy_nmm() / cold->energy_nmm() - 1;
  }
  return line;
}

/// Shows the changed panel beside a form of `before`.
Line shown_beside(const Panel& before, const Form& form, const Change& change) {
  Line line{change.name};
  const auto preview = opened::Preview::from(before, form);
  std::optional<Form> shown;
  if (preview)
    line.ms = median_ms(5, [&] { shown = preview->open(change.panel, measured_only()); });
  if (!shown)
    return {change.name + ": no preview"};
  line.factors = shown->factorisations;
  line.error = error_of(*shown, change);
  return line;
}

void print(const Line& line, double factor) {
  fmt::print("  {:<22} {:8.1f} ms  {:6.1f} x one factor  {:3d} factors", line.name, line.ms, line.ms / factor,
             line.factors);
  if (line.apart >= 0)
    fmt::print("  {:.3f} % of the size from that from the start, moment {:.2f} %, energy more by {:.1e}",
               100 * line.apart, 100 * line.moment_apart, line.energy_more);
  fmt::print("{}\n", line.error >= 0 ? fmt::format("  edge off by {:.3f} %", 100 * line.error) : "");
}

void measure(const Change& start, const std::vector<Change>& changes, opened::Detail detail) {
  const auto first = opened::open(start.panel, measured_only(detail));
  if (const auto* failure = std::get_if<opened::Failure>(&first)) {
    fmt::print("  {}\n", failure->sentence);
    return;
  }
  const Form& form = std::get<Form>(first);
  const double factor = factor_ms(form);
  fmt::print("  {}: {} unknowns, one factor {:.2f} ms\n", detail == opened::Detail::quick ? "quickly" : "in full",
             form.unknowns, factor);
  print({start.name, median_ms(3, [&] { (void)opened::open(start.panel, measured_only(detail)); }), form.factorisations,
         error_of(form, start)},
        factor);
  for (const Change& change : changes)
    print(beside(start.panel, change, detail), factor);
  fmt::print("  previews beside that\n");
  print({"made ready", median_ms(3, [&] { (void)opened::Preview::from(start.panel, form); })}, factor);
  for (const Change& change : changes)
    print(shown_beside(start.panel, form, change), factor);
}

void measure(const std::string& title, const Panel& panel, bool with_reference) {
  const auto change = [&](const std::string& name, const Panel& changed) -> Change {
    return {name, changed, with_reference ? reference(changed) : std::nullopt};
  };
  fmt::print("{}: {} leaves\n", title, panel.leaves);
  const Change start = change("from the start", panel);
  const std::vector<Change> changes{
      change("two leaves more", with_leaves(panel, 2)), change("two leaves fewer", with_leaves(panel, -2)),
      change("outline out by 2 mm", with_point_moved(panel)), change("one row up by 1 mm", with_row_moved(panel))};
  measure(start, changes, opened::Detail::quick);
  measure(start, changes, opened::Detail::full);
}

int run(const std::vector<std::string>& files, bool with_reference) {
  for (const std::string& file : files) {
    std::ifstream stream(file, std::ios::binary);
    const auto design = design::parse(std::string{std::istreambuf_iterator<char>(stream), {}});
    if (!std::holds_alternative<design::Design>(design)) {
      fmt::print("{}: not a design file\n", file);
      return 2;
    }
    for (const auto& size : std::get<design::Design>(design).sizes) {
      const auto leaf = fit::leaf_of(std::get<design::Design>(design), size);
      if (std::holds_alternative<leaf::Leaf>(leaf))
        measure(std::get<design::Design>(design).title + ", " + size.name,
                opened::panel_of(std::get<leaf::Leaf>(leaf), size), with_reference);
    }
  }
  return 0;
}

} // namespace
} // namespace fanwright

int main(int argc, char** argv) try {
  fanwright::opened::keep_memory();
  std::vector<std::string> files(argv + 1, argv + argc);
  if (files.size() >= 2 && files.front() == "--designs")
    return fanwright::bench::bench_random_designs(files.size() > 2 ? std::strtoull(files[2].c_str(), nullptr, 10) : 1,
                                                  std::clamp(std::atoi(files[1].c_str()), 1, 100000));
  const bool with_reference = !files.empty() && files.front() == "--reference";
  if (with_reference)
    files.erase(files.begin());
  if (files.empty()) {
    fmt::print("bench_opened [--reference] FILE... | --designs COUNT [SEED]\n");
    return 2;
  }
  return fanwright::run(files, with_reference);
} catch (const std::exception& error) {
  std::fputs(error.what(), stderr);
  return 1;
}
