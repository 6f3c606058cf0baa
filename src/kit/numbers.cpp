#include "kit/numbers.h"

#include "kit/page_numbers.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace fanwright::kit {

namespace {

using Json = nlohmann::ordered_json;

constexpr int numbers_version = 1;

/// Digits a maker or a test can use; what lies below is noise that would make kits differ for nothing.
double rounded(double value, double places = 3) {
  const double scale = std::pow(10.0, places);
  return std::round(value * scale) / scale + 0.0; // + 0.0 turns -0 into 0
}

Json point(double x, double y) { return Json::array({rounded(x), rounded(y)}); }

const char* name_of(design::Side side) { return side == design::Side::inside ? "inside" : "between"; }

Json paper_numbers(const paper::Paper& paper) {
  return {{"grammage_gsm", rounded(paper.grammage_gsm)},
          {"caliper_mm", rounded(paper.caliper_mm, 4)},
          {"stiffness_along_mNm", rounded(paper::stiffness_from_modulus(paper.modulus_along_mpa, paper.caliper_mm))},
          {"stiffness_across_mNm", rounded(paper::stiffness_from_modulus(paper.modulus_across_mpa, paper.caliper_mm))},
          {"grain", paper.grain == paper::Grain::along_spine ? "along spine" : "across spine"}};
}

Json row_numbers(const leaf::Leaf& leaf) {
  Json rows = Json::array();
  for (const leaf::GlueRow& row : leaf.rows)
    rows.push_back({{"side", name_of(row.side)},
                    {"from_mm", point(row.from.x, row.from.z)},
                    {"to_mm", point(row.to.x, row.to.z)},
                    {"width_mm", rounded(row.width_mm)}});
  return rows;
}

Json opened_numbers(const Part& part) {
  const opened::Form& form = part.form;
  Json json = {{"height_mm", rounded(form.height_mm)},
               {"diameter_mm", rounded(form.diameter_mm)},
               {"spine_height_mm", rounded(form.spine_height_mm)},
               {"hub_radius_mm", rounded(form.hub_radius_mm)},
               {"foot_lift_mm", rounded(form.foot_lift_mm)},
               {"lock_ratio", rounded(form.lock_ratio, 4)},
               {"peak_strain", rounded(form.peak_strain, 6)},
               {"holding_moment_Nmm", rounded(form.holding_moment_nmm)}};
  if (part.spread)
    json.update({{"height_spread_mm", rounded(part.spread->height_mm)},
                 {"diameter_spread_mm", rounded(part.spread->diameter_mm)}});
  return json;
}

Json sheet_numbers(const DrawnPart& drawn) {
  const design::Sheet& sheet = drawn.part.size->sheet;
  Json pages = Json::array();
  for (const MeasuredPage& page : drawn.cut.sheets)
    pages.push_back(page_numbers(page));
  Json json = {{"size", sheet.name},
               {"size_mm", point(sheet.size.width_mm, sheet.size.height_mm)},
               {"margin_mm", rounded(sheet.margin_mm)},
               {"gap_mm", rounded(sheet.gap_mm)},
               {"leaves_per_sheet", drawn.part.plan.pieces_per_sheet},
               {"needed", drawn.part.plan.sheets},
               {"pages", std::move(pages)}};
  if (const auto& halves = drawn.part.halves)
    json["halves"] = {
        {"lap_mm", rounded(halves->lap_mm)}, {"right", drawn.part.size->leaves}, {"left", drawn.part.size->leaves}};
  return json;
}

Json print_numbers(const DrawnPart& drawn) {
  Json files = Json::array();
  for (const PrintFile& print : drawn.prints) {
    Json pages = Json::array();
    for (const MeasuredPage& page : print.pages)
      pages.push_back(page_numbers(page));
    files.push_back({{"file", print.name}, {"sheet", print.sheet}, {"pages", std::move(pages)}});
  }
  return files;
}

Json seat_numbers(const fan::SizedFan& sized, const fan::Seated& seated) {
  Json glued = Json::array();
  for (const fan::GluedEdge& edge : seated.glued)
    glued.push_back({{"leaf", edge.leaf},
                     {"half", edge.half},
                     {"last_side", edge.last_side},
                     {"from_mm", rounded(edge.from_z_mm)},
                     {"to_mm", rounded(edge.to_z_mm)},
                     {"length_mm", rounded(edge.length_mm)}});
  return {{"below_neck_mm", rounded(sized.seat->below_neck_mm)},
          {"azimuth_deg", rounded(seated.azimuth_deg)},
          {"spread_deg", rounded(seated.taken_deg)},
          {"most_deg", rounded(seated.most_deg)},
          {"glued", std::move(glued)}};
}

Json fan_numbers(const DrawnPart& drawn) {
  Json fans = Json::array();
  for (const fan::SizedFan& sized : drawn.part.fans) {
    const fan::Spread& spread = sized.made.spread;
    fans.push_back({{"name", sized.fan->name},
                    {"pair", sized.fan->pair},
                    {"pleats", sized.made.strip.panels / 2},
                    {"panels", sized.made.strip.panels},
                    {"depth_mm", rounded(sized.made.strip.depth_mm)},
                    {"strip_mm", point(sized.made.strip.length_mm(), sized.made.strip.height_mm())},
                    {"flap_mm", rounded(sized.made.strip.flap_mm)},
                    {"spread_deg", rounded(spread.spread_deg())},
                    {"first_side_deg", rounded(spread.first_side_deg())},
                    {"reach_mm", rounded(spread.outer_radius_mm())},
                    {"inner_radius_mm", rounded(spread.pleats().inner_radius_mm)},
                    {"relief_mm", rounded(spread.relief_at(spread.pleats().length_mm))},
                    {"stretch", rounded(spread.stretch(), 6)},
                    {"paper", paper_numbers(sized.paper)}});
  }
  for (const auto& [index, seated] : drawn.part.seats)
    fans[index]["seat"] = seat_numbers(drawn.part.fans[index], seated);
  Json pages = Json::array();
  for (const MeasuredPage& page : drawn.cut.fans)
    pages.push_back(page_numbers(page));
  Json all = {{"list", std::move(fans)}, {"pages", std::move(pages)}};
  if (const auto& figure = drawn.part.figure)
    all["figure_mm"] = {{"width", rounded(figure->width_mm)},
                        {"depth", rounded(figure->depth_mm)},
                        {"height", rounded(figure->height_mm)}};
  return all;
}

Json size_numbers(const DrawnPart& drawn) {
  const Part& part = drawn.part;
  Json json = {{"name", part.size->name},
               {"folder", part.folder},
               {"leaves", part.size->leaves},
               {"opening_deg", rounded(part.size->opening_deg)},
               {"paper", paper_numbers(part.size->paper)},
               {"leaf",
                {{"width_mm", rounded(part.width_mm)},
                 {"height_mm", rounded(part.height_mm)},
                 {"spine_mm", rounded(part.leaf.spine_top_z - part.leaf.spine_foot_z)},
                 {"cut_outs", part.marks.cut_outs.size()}}},
               {"rows", row_numbers(part.leaf)},
               {"opened", opened_numbers(part)},
               {"leaf_drawing", page_numbers(drawn.cut.leaf)},
               {"sheets", sheet_numbers(drawn)},
               {"prints", print_numbers(drawn)}};
  if (!part.fans.empty())
    json["fans"] = fan_numbers(drawn);
  return json;
}

} // namespace

std::string numbers(const design::Design& design, const std::vector<DrawnPart>& parts,
                    const std::vector<std::string>& files) {
  Json sizes = Json::array();
  for (const DrawnPart& part : parts)
    sizes.push_back(size_numbers(part));
  const Json json = {{"fanwright", numbers_version},
                     {"title", design.title},
                     {"colour", design.colour},
                     {"sizes", std::move(sizes)},
                     {"files", files}};
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

} // namespace fanwright::kit
