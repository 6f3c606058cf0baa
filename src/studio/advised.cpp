#include "studio/advised.h"

#include "making/making.h"
#include "studio/json.h"

#include <cmath>
#include <optional>
#include <utility>

namespace fanwright::studio {
namespace {

double rounded_to(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

Json number_or_null(const std::optional<double>& value, int decimals) {
  return value ? Json(rounded_to(*value, decimals)) : Json(nullptr);
}

Json look_json(const fit::Opened& look, const Hours& hours) {
  const fit::Cells& cells = look.cells;
  return {{"leaves", cells.leaves},
          {"present", look.present},
          {"cell_width_mm", rounded_to(cells.width_mm, 2)},
          {"cell_height_mm", rounded_to(cells.height_mm, 2)},
          {"lock_ratio", rounded_to(cells.lock_ratio, 3)},
          {"most_lock_ratio", rounded_to(cells.most_lock_ratio, 3)},
          {"cells", fit::words_for(fit::openness_of(cells.lock_ratio))},
          {"cells_per_dm2", rounded_to(cells.per_dm2, 1)},
          {"hub_radius_mm", rounded_to(cells.hub_radius_mm, 2)},
          {"stack_mm", rounded_to(cells.stack_mm, 1)},
          {"height_mm", number_or_null(look.height_mm, 2)},
          {"diameter_mm", number_or_null(look.diameter_mm, 2)},
          {"holding_moment_Nmm", number_or_null(look.moment_nmm, 1)},
          {"seam_N_per_mm", number_or_null(look.seam_n_per_mm, 4)},
          {"hands_on_h", rounded_to(hours.hands_on, 2)},
          {"finished_after_h", rounded_to(hours.finished, 2)}};
}

Json object_of(const Advised& advised) {
  const fit::Advice& advice = advised.advice;
  Json looks = Json::array();
  for (std::size_t k = 0; k < advice.looks.size(); ++k) {
    looks.push_back(look_json(advice.looks[k], advised.hours[k]));
  }
  return {{"name", advised.size.name},
          {"flat_height_mm", rounded_to(advice.body.height_mm, 2)},
          {"flat_radius_mm", rounded_to(advice.body.radius_mm, 2)},
          {"leaves",
           {{"low", advice.leaves.low},
            {"usual", advice.leaves.usual},
            {"high", advice.leaves.high},
            {"present", advised.size.leaves},
            {"low_reason", advice.leaves.low_reason},
            {"high_reason", advice.leaves.high_reason}}},
          {"rows",
           {{"low", advice.rows.low},
            {"usual", advice.rows.usual},
            {"high", advice.rows.high},
            {"present", advice.leaf.rows.size()},
            {"spacing_mm", rounded_to(advice.rows.spacing_mm, 2)},
            {"reason", advice.rows.reason}}},
          {"grammage",
           {{"low", advice.paper.low_gsm},
            {"usual", advice.paper.usual_gsm},
            {"high", advice.paper.high_gsm},
            {"present", advised.size.paper.grammage_gsm},
            {"reason", advice.paper.reason}}},
          {"looks", std::move(looks)}};
}

Hours hours_of(const design::Design& design, design::Size size, int leaves) {
  size.leaves = leaves;
  design::Making one = design.making;
  one.pieces = 1;
  const making::Schedule schedule = making::schedule(size, one);
  return {schedule.hands_on_min / 60, schedule.finish_min / 60};
}

} // namespace

std::variant<Advised, fit::Failure> advised(const design::Design& design, const design::Size& size,
                                            const fit::Options& options) {
  auto advice = fit::advise(design, size, options);
  if (auto* failure = std::get_if<fit::Failure>(&advice))
    return std::move(*failure);
  Advised result{size, std::get<fit::Advice>(std::move(advice)), {}};
  for (const fit::Opened& look : result.advice.looks)
    result.hours.push_back(hours_of(design, size, look.cells.leaves));
  return result;
}

std::string json_of(const Advised& advised) { return line_of(object_of(advised)); }

} // namespace fanwright::studio
