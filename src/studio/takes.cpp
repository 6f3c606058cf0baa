#include "studio/takes.h"

#include "fit/check_limits.h"
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

std::string leaf_path(const leaf::Ring& outline, const sheets::Placement& placement, double sheet_height_mm) {
  std::string path;
  for (const leaf::Point& point : outline) {
    const leaf::Point there = sheets::placed(placement, point);
    path += (path.empty() ? "M" : "L") + number(there.x) + " " + number(sheet_height_mm - there.z);
  }
  return "<path d=\"" + path + "Z\"/>";
}

std::string layout_svg(const sheets::Layout& layout, const leaf::Ring& outline, const design::Sheet& sheet,
                       const std::string& colour) {
  const auto [width, height] = std::pair(sheet.size.width_mm, sheet.size.height_mm);
  const auto box = [w = width, h = height](const std::string& look, double inset) {
    return "<rect " + look + " x=\"" + number(inset) + "\" y=\"" + number(inset) + "\" width=\"" +
           number(w - 2 * inset) + "\" height=\"" + number(h - 2 * inset) + "\"/>";
  };
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + number(width) + " " + number(height) +
                    "\">" + box("fill=\"#ffffff\" stroke=\"#8a8a8a\"", 0) +
                    box("fill=\"none\" stroke=\"#c4c4c4\" stroke-dasharray=\"4 3\"", sheet.margin_mm) + "<g fill=\"" +
                    colour + "\" stroke=\"#4a4a4a\" stroke-width=\"0.7\">";
  for (const sheets::Placement& placement : layout.placements)
    svg += leaf_path(outline, placement, height);
  return svg + "</g></svg>";
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
    const leaf::Ring outline = leaf::flatten(part->marks.cut, thumbnail_chord_mm);
    for (const sheets::Layout& layout : part->plan.layouts)
      result.layouts.push_back({layout.sheets, layout_svg(layout, outline, size.sheet, design.colour)});
  } else {
    result.problem = std::get<kit::Problem>(planned).sentence;
  }
  const auto materials = making::materials(followed.leaf, size, design.making, result.sheets);
  const auto schedule = making::schedule(size, design.making);
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
