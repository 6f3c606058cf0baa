#include "studio/takes.h"

#include "fit/check_limits.h"
#include "kit/fan_sheets.h"
#include "kit/part.h"
#include "making/making.h"

#include <cstdio>

namespace fanwright::studio {
namespace {

constexpr double thumbnail_chord_mm = 0.6; ///< a sheet is shown a hundred pixels wide

std::string number(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", value);
  return text;
}

std::string piece_path(const leaf::Ring& outline, const sheets::Placement& placement, double sheet_height_mm) {
  std::string path;
  for (const leaf::Point& point : outline) {
    const leaf::Point there = sheets::placed(placement, point);
    path += (path.empty() ? "M" : "L") + number(there.x) + " " + number(sheet_height_mm - there.z);
  }
  return "<path d=\"" + path + "Z\"/>";
}

std::string sheet_svg(const std::string& pieces, const design::Sheet& sheet, const std::string& colour) {
  const auto [width, height] = std::pair(sheet.size.width_mm, sheet.size.height_mm);
  const auto box = [w = width, h = height](const std::string& look, double inset) {
    return "<rect " + look + " x=\"" + number(inset) + "\" y=\"" + number(inset) + "\" width=\"" +
           number(w - 2 * inset) + "\" height=\"" + number(h - 2 * inset) + "\"/>";
  };
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + number(width) + " " + number(height) + "\">" +
         box("fill=\"#ffffff\" stroke=\"#8a8a8a\"", 0) +
         box("fill=\"none\" stroke=\"#c4c4c4\" stroke-dasharray=\"4 3\"", sheet.margin_mm) + "<g fill=\"" + colour +
         "\" stroke=\"#4a4a4a\" stroke-width=\"0.7\">" + pieces + "</g></svg>";
}

/// The strips of the fans, on sheets of their own; empty where the fans cannot be made, which the checks tell.
std::vector<kit::FanLayout> fan_layouts(const design::Design& design, const design::Size& size) {
  const auto fans = fan::fans_of(design, size);
  if (!std::holds_alternative<std::vector<fan::SizedFan>>(fans))
    return {};
  auto layouts = kit::fan_layouts(std::get<std::vector<fan::SizedFan>>(fans), size.sheet);
  return std::holds_alternative<design::Refusal>(layouts) ? std::vector<kit::FanLayout>{}
                                                          : std::get<std::vector<kit::FanLayout>>(std::move(layouts));
}

void add_layouts(const kit::Part& part, const std::string& colour, Takes& result) {
  const design::Size& size = *part.size;
  const leaf::Ring outline = leaf::flatten(part.marks.cut, thumbnail_chord_mm);
  for (const sheets::Layout& layout : part.plan.layouts) {
    std::string pieces;
    for (const sheets::Placement& placement : layout.placements)
      pieces += piece_path(outline, placement, size.sheet.size.height_mm);
    result.layouts.push_back({layout.sheets, sheet_svg(pieces, size.sheet, colour)});
  }
}

void add_layouts(const kit::FanLayout& fans, const design::Sheet& sheet, const std::string& colour, Takes& result) {
  for (const sheets::JobSheet& laid : fans.plan.sheets) {
    std::string pieces;
    for (const sheets::JobPiece& piece : laid.pieces)
      pieces += piece_path(fans.job.kinds[piece.kind].outline, piece.placement, sheet.size.height_mm);
    result.layouts.push_back({laid.copies, sheet_svg(pieces, sheet, colour)});
  }
}

bool has_prices(const design::Prices& p) {
  return p.sheet > 0 || p.glue_per_100g > 0 || p.glitter_per_100g > 0 || p.sealer_per_100g > 0 || p.hour > 0 ||
         p.overhead > 0;
}

} // namespace

Takes no_takes(const design::Size& size, const std::string& problem) {
  Takes result;
  result.size = size.name;
  result.leaves = size.leaves;
  result.grammage_gsm = size.paper.grammage_gsm;
  result.sheet = size.sheet.name;
  result.problem = problem;
  return result;
}

Takes takes(const design::Design& design, const fit::Followed& followed) {
  const design::Size& size = followed.size;
  Takes result;
  result.size = size.name;
  result.leaves = size.leaves;
  result.grammage_gsm = size.paper.grammage_gsm;
  result.height_mm = followed.form.height_mm;
  result.diameter_mm = followed.form.diameter_mm;
  result.sheet = size.sheet.name;
  const auto planned = kit::laid_out(size, followed.leaf);
  if (const auto* part = std::get_if<kit::Part>(&planned)) {
    result.sheets = part->plan.sheets;
    result.per_sheet = part->plan.pieces_per_sheet;
    add_layouts(*part, design.colour, result);
  } else {
    result.problem = std::get<kit::Problem>(planned).sentence;
  }
  const std::vector<kit::FanLayout> fans = fan_layouts(design, size);
  for (const kit::FanLayout& layout : fans)
    add_layouts(layout, size.sheet, design.colour, result);
  result.sheets += kit::sheets_in(fans, size.paper);
  const making::FanWork work = kit::work_of(fans);
  const auto materials = making::materials(followed.leaf, size, design.making, result.sheets, work);
  const auto schedule = making::schedule(size, design.making, work);
  const double hands_on_min = schedule.hands_on_min / schedule.pieces;
  result.glue_g = materials.glue_g;
  result.joints = materials.joints;
  result.hours = hands_on_min / 60;
  result.weight_g = materials.paper_g + fit::limit::dry_glue_share * materials.glue_g;
  if (const auto cost = making::cost(materials, hands_on_min, design.prices);
      has_prices(design.prices) && std::holds_alternative<making::Cost>(cost)) {
    const auto& money = std::get<making::Cost>(cost);
    result.cost = Takes::Money{design.prices.currency, money.materials, money.labour, money.cost, money.price};
  }
  return result;
}

} // namespace fanwright::studio
