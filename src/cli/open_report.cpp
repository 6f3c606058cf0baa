#include "cli/open_report.h"

#include "cli/fan_report.h"
#include "cli/rounding.h"
#include "fit/check_limits.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;

Json edge_json(const std::vector<opened::EdgePoint>& edge) {
  Json list = Json::array();
  for (const auto& point : edge) {
    list.push_back({{"x", rounded(point.x, length_decimals)},
                    {"z", rounded(point.z, length_decimals)},
                    {"radius", rounded(point.radius, length_decimals)},
                    {"height", rounded(point.height, length_decimals)}});
  }
  return list;
}

Json stages_json(const std::vector<opened::Stage>& stages) {
  Json list = Json::array();
  for (const auto& stage : stages) {
    list.push_back({{"opening_deg", rounded(stage.opening_deg, 4)},
                    {"height_mm", rounded(stage.height_mm, length_decimals)},
                    {"reach_mm", rounded(stage.reach_mm, length_decimals)},
                    {"holding_moment_Nmm", significant(stage.moment_nmm, 5)},
                    {"pull_N_per_mm", significant(stage.pull_n_per_mm, 4)},
                    {"peak_strain", significant(stage.peak_strain, 4)}});
  }
  return list;
}

Json spread_json(double millimetres, bool known) {
  return known ? Json(rounded(millimetres, length_decimals)) : Json();
}

Json form_json(const OpenedSize& opened) {
  const opened::Form& form = opened.form;
  const opened::Spread spread = opened.spread.value_or(opened::Spread{});
  return {{"height_mm", rounded(form.height_mm, length_decimals)},
          {"height_spread_mm", spread_json(spread.height_mm, opened.spread.has_value())},
          {"diameter_mm", rounded(form.diameter_mm, length_decimals)},
          {"diameter_spread_mm", spread_json(spread.diameter_mm, opened.spread.has_value())},
          {"spine_height_mm", rounded(form.spine_height_mm, length_decimals)},
          {"hub_radius_mm", rounded(form.hub_radius_mm, length_decimals)},
          {"foot_lift_mm", rounded(form.foot_lift_mm, length_decimals)},
          {"lock_ratio", rounded(form.lock_ratio, 4)},
          {"peak_strain", significant(form.peak_strain, 4)},
          {"holding_moment_Nmm", significant(form.holding_moment_nmm, 5)},
          {"pull_N_per_mm", significant(opened::row_pull(opened.panel, form.holding_moment_nmm), 4)},
          {"edge", edge_json(form.edge)},
          {"solve",
           {{"unknowns", form.unknowns}, {"iterations", form.iterations}, {"seconds", significant(form.seconds, 3)}}}};
}

} // namespace

std::string open_json(const std::string& title, const std::vector<OpenedSize>& sizes) {
  Json list = Json::array();
  for (const OpenedSize& opened : sizes) {
    Json entry = {{"name", opened.size.name},
                  {"leaves", opened.size.leaves},
                  {"opening_deg", opened.size.opening_deg},
                  {"opened", form_json(opened)}};
    if (!opened.remarks.empty()) {
      entry["remarks"] = opened.remarks;
    }
    if (!opened.stages.empty()) {
      entry["opening_sequence"] = stages_json(opened.stages);
    }
    if (!opened.fans.empty()) {
      entry["fans"] = fans_json(opened);
    }
    if (opened.figure) {
      entry["with_fans"] = figure_json(*opened.figure);
    }
    list.push_back(std::move(entry));
  }
  const Json report = {{"title", title}, {"sizes", std::move(list)}};
  return report.dump(1) + "\n";
}

namespace {

/// "151.2 +- 1": as the kit says it, a spread of less than a millimetre being said as one.
std::string with_spread(double length_mm, const std::optional<opened::Spread>& spread, double opened::Spread::*part) {
  return spread ? fmt::format("{:.1f} +- {:.0f}", length_mm, std::ceil((*spread).*part))
                : fmt::format("{:.1f}", length_mm);
}

std::string sequence_table(const OpenedSize& opened) {
  std::string table = fmt::format("\nSize {}, from the flat stack to the full opening\n\n", opened.size.name);
  table += "opening  height   reach  moment  pull, N/mm  strain\n";
  for (const auto& stage : opened.stages) {
    table +=
        fmt::format("{:7.5g}  {:6.1f}  {:6.1f}  {:6.0f}  {:10.2f}  {:4.1f} %\n", stage.opening_deg, stage.height_mm,
                    stage.reach_mm, stage.moment_nmm, stage.pull_n_per_mm, 100.0 * stage.peak_strain);
  }
  return table;
}

} // namespace

std::string open_table(const std::string& title, const std::vector<OpenedSize>& sizes) {
  std::size_t widest = 4;
  for (const auto& opened : sizes) {
    widest = std::max(widest, opened.size.name.size());
  }
  std::string table = fmt::format("{}, opened (lengths in mm)\n\n", title);
  table += fmt::format(
      "{:<{}}  leaves  opening       height     diameter   spine    hub  foot lift  lock  strain  moment  pull, N/mm\n",
      "size", widest);
  for (const OpenedSize& opened : sizes) {
    const opened::Form& form = opened.form;
    table += fmt::format(
        "{:<{}}  {:6}  {:7.5g}  {:>11}  {:>11}  {:6.1f}  {:5.1f}  {:9.1f}  {:4.2f}  {:4.1f} %  {:6.0f}  {:10.2f}\n",
        opened.size.name, widest, opened.size.leaves, opened.size.opening_deg,
        with_spread(form.height_mm, opened.spread, &opened::Spread::height_mm),
        with_spread(form.diameter_mm, opened.spread, &opened::Spread::diameter_mm), form.spine_height_mm,
        form.hub_radius_mm, form.foot_lift_mm, form.lock_ratio, 100.0 * form.peak_strain, form.holding_moment_nmm,
        opened::row_pull(opened.panel, form.holding_moment_nmm));
  }
  for (const OpenedSize& opened : sizes) {
    for (const std::string& remark : opened.remarks) {
      table += fmt::format("\n{}: {}\n", opened.size.name, remark);
    }
    if (!opened.stages.empty()) {
      table += sequence_table(opened);
    }
  }
  return table +
         fmt::format("\nopening in degrees; moment: what holds the ornament open, N mm; lock: below 0.7 opens well, "
                     "above 0.9 not at all;\npull: on each mm of glue row, of which a row 3 mm wide bears {:.1f} "
                     "to {:.1f} before the paper under the glue splits\n(0.3 to 0.7 MPa, from memory)\n",
                     3 * fit::limit::easy_pull_mpa, 3 * fit::limit::splitting_pull_mpa) +
         fan_tables(sizes);
}

namespace {

/// Names of the rows next to a flat place, counted from the foot.
std::string rows_round(const opened::Panel& panel, const leaf::Point& place) {
  int below = 0;
  for (const auto& row : panel.rows) {
    const double share = (place.x - row.from.x) / (row.to.x - row.from.x);
    below += row.from.z + share * (row.to.z - row.from.z) < place.z ? 1 : 0;
  }
  if (below == 0) {
    return "below row 1 from the foot";
  }
  if (below == static_cast<int>(panel.rows.size())) {
    return fmt::format("above row {} from the foot", below);
  }
  return fmt::format("between rows {} and {} from the foot", below, below + 1);
}

// The lock ratio q = beta x1 / s with beta = opening / (2 leaves) falls as 1 / leaves and as 1 / spacing.
std::string locked(const OpenedSize& opened) {
  const auto tightest = std::ranges::max_element(opened.form.row_locks, {}, &opened::RowLock::ratio);
  const double over = tightest->ratio / fit::limit::opens_lock;
  return fmt::format(
      "between rows {} and {} from the foot the lock ratio is {:.2f}, and above {:.2f} the paper there would "
      "have to stretch; use at least {:.0f} leaves, or set these rows {:.2f} times as far apart.",
      tightest->lower + 1, tightest->upper + 1, tightest->ratio, fit::limit::opens_lock,
      std::ceil(opened.size.leaves * over), std::ceil(100 * over) / 100);
}

// The stretch grows about as the square of the wedge, and so falls as 1 / leaves^2.
std::string torn(const OpenedSize& opened) {
  const double over = opened.form.peak_strain / fit::limit::torn_strain;
  return fmt::format(
      "{} the paper is stretched by {:.1f} %, and above {:.0f} % it tears; use at least about {:.0f} leaves, "
      "or set these rows further apart.",
      rows_round(opened.panel, opened::most_stretched(opened.form)), 100 * opened.form.peak_strain,
      100 * fit::limit::torn_strain, std::ceil(opened.size.leaves * std::sqrt(over)));
}

} // namespace

std::string why_not_real(const OpenedSize& opened) {
  const std::string size = "Size \"" + opened.size.name + "\" does not open as computed: ";
  if (opened.form.lock_ratio > fit::limit::opens_lock) {
    return size + locked(opened);
  }
  return opened.form.peak_strain > fit::limit::torn_strain ? size + torn(opened) : std::string();
}

} // namespace fanwright::cli
