#include "cli/open_report.h"

#include "fit/leaf_of.h"
#include "fit/tolerances.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;

/// Rounded to `decimals`; tiny negative values become 0, not -0.
double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

/// Rounded to `digits` significant digits, for quantities whose order of magnitude varies.
double significant(double value, int digits) {
  if (value == 0.0 || !std::isfinite(value)) {
    return value;
  }
  const int decimals = digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(value))));
  return rounded(value, std::clamp(decimals, 0, 12));
}

constexpr int length_decimals = 4;

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

Json form_json(const opened::Form& form) {
  return {{"height_mm", rounded(form.height_mm, length_decimals)},
          {"diameter_mm", rounded(form.diameter_mm, length_decimals)},
          {"spine_height_mm", rounded(form.spine_height_mm, length_decimals)},
          {"hub_radius_mm", rounded(form.hub_radius_mm, length_decimals)},
          {"foot_lift_mm", rounded(form.foot_lift_mm, length_decimals)},
          {"lock_ratio", rounded(form.lock_ratio, 4)},
          {"peak_strain", significant(form.peak_strain, 4)},
          {"holding_moment_Nmm", significant(form.holding_moment_nmm, 5)},
          {"edge", edge_json(form.edge)},
          {"solve",
           {{"unknowns", form.unknowns}, {"iterations", form.iterations}, {"seconds", significant(form.seconds, 3)}}}};
}

} // namespace

std::string open_json(const std::string& title, const std::vector<OpenedSize>& sizes) {
  Json list = Json::array();
  for (const auto& [size, form] : sizes) {
    list.push_back(
        {{"name", size.name}, {"leaves", size.leaves}, {"opening_deg", size.opening_deg}, {"opened", form_json(form)}});
  }
  const Json report = {{"title", title}, {"sizes", std::move(list)}};
  return report.dump(1) + "\n";
}

std::string open_table(const std::string& title, const std::vector<OpenedSize>& sizes) {
  std::size_t widest = 4;
  for (const auto& opened : sizes) {
    widest = std::max(widest, opened.size.name.size());
  }
  std::string table = fmt::format("{}, opened (lengths in mm)\n\n", title);
  table += fmt::format("{:<{}}  leaves  opening  height  diameter   spine    hub  foot lift  lock  strain  moment\n",
                       "size", widest);
  for (const auto& [size, form] : sizes) {
    table += fmt::format(
        "{:<{}}  {:6}  {:7.5g}  {:6.1f}  {:8.1f}  {:6.1f}  {:5.1f}  {:9.1f}  {:4.2f}  {:4.1f} %  {:6.0f}\n", size.name,
        widest, size.leaves, size.opening_deg, form.height_mm, form.diameter_mm, form.spine_height_mm,
        form.hub_radius_mm, form.foot_lift_mm, form.lock_ratio, 100.0 * form.peak_strain, form.holding_moment_nmm);
  }
  table +=
      "\nopening in degrees; moment: what holds the ornament open, N mm; lock: below 0.7 opens well, above 0.9 not "
      "at all\n";
  return table;
}

// The lock ratio q = beta x1 / s with beta = opening / (2 leaves) falls as 1 / leaves and as 1 / spacing.
std::string lock_warning(const OpenedSize& opened) {
  const double ratio = opened.form.lock_ratio;
  if (ratio <= fit::tolerance::most_lock) {
    return {};
  }
  return "Size \"" + opened.size.name + "\": " + fit::lock_sentence(ratio, opened.size.leaves);
}

} // namespace fanwright::cli
