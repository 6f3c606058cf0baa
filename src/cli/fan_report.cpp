#include "cli/fan_report.h"

#include "cli/rounding.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <optional>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;

Json fan_json(const fan::SizedFan& sized) {
  const fan::Spread& spread = sized.made.spread;
  return {{"name", sized.fan->name},
          {"pair", sized.fan->pair},
          {"pleats", sized.made.strip.panels / 2},
          {"depth_mm", rounded(sized.made.strip.depth_mm, length_decimals)},
          {"strip_length_mm", rounded(sized.made.strip.length_mm(), length_decimals)},
          {"strip_height_mm", rounded(sized.made.strip.height_mm(), length_decimals)},
          {"spread_deg", rounded(spread.spread_deg(), 4)},
          {"largest_spread_deg", rounded(std::min(360.0, fan::largest_spread_deg(spread.pleats())), 4)},
          {"reach_mm", rounded(spread.outer_radius_mm(), length_decimals)},
          {"inner_radius_mm", rounded(spread.pleats().inner_radius_mm, length_decimals)},
          {"rim_relief_mm", rounded(spread.relief_at(spread.pleats().length_mm), length_decimals)},
          {"stretch", significant(spread.stretch(), 4)},
          {"crease_bow_mm", rounded(spread.bow_mm(), length_decimals)}};
}

Json told(const std::optional<double>& length_mm) {
  return length_mm ? Json(rounded(*length_mm, length_decimals)) : Json();
}

const char* hold_of(const fan::SizedFan& sized) {
  switch (sized.seat->hold) {
  case fan::Hold::along_edge:
    return "along edge";
  case fan::Hold::at_point:
    return "at point";
  case fan::Hold::in_cell:
    return "in cell";
  }
  return "";
}

const char* side_of(const fan::SizedFan& sized, const fan::GluedEdge& edge) {
  return edge.last_side ? "last" : sized.seat->hold == fan::Hold::along_edge ? "first" : "end";
}

/// What stops it, for programs.
const char* word_of(fan::Part part) {
  switch (part) {
  case fan::Part::body:
    return "body";
  case fan::Part::neck:
    return "neck";
  case fan::Part::head:
    return "head";
  case fan::Part::table:
    return "table";
  case fan::Part::twin:
    return "twin";
  case fan::Part::leaves:
    return "leaves";
  }
  return "";
}

Json glued_json(const fan::SizedFan& sized, const std::vector<fan::GluedEdge>& glued) {
  Json list = Json::array();
  for (const fan::GluedEdge& edge : glued) {
    list.push_back({{"side", side_of(sized, edge)},
                    {"leaf", edge.leaf},
                    {"half", edge.half},
                    {"from_mm", rounded(edge.from_z_mm, length_decimals)},
                    {"to_mm", rounded(edge.to_z_mm, length_decimals)},
                    {"length_mm", rounded(edge.length_mm, length_decimals)}});
  }
  return list;
}

Json seat_json(const fan::SizedFan& sized, const fan::Seated& seated) {
  const double below_mm = sized.seat->below_neck_mm;
  return {{"hold", hold_of(sized)},
          {"below_neck_mm", rounded(below_mm, length_decimals)},
          {"azimuth_deg", rounded(seated.azimuth_deg, 4)},
          {"taken_deg", rounded(seated.taken_deg, 4)},
          {"most_deg", rounded(seated.most_deg, 4)},
          {"limited_by", seated.limited_by ? Json(word_of(*seated.limited_by)) : Json()},
          {"neck_clear_mm", told(seated.neck_clear_mm)},
          {"head_clear_mm", told(seated.head_clear_mm)},
          {"table_clear_mm", told(seated.table_clear_mm)},
          {"free_height_mm", told(seated.free_height_mm)},
          {"least_free_height_mm", told(seated.least_free_height_mm)},
          {"glued", glued_json(sized, seated.glued)}};
}

std::string spread_table(const std::vector<OpenedSize>& sizes) {
  std::string table =
      fmt::format("\nFans, spread\n\n{:<12}  {:<12}  pleats  depth         strip  spread  at most   reach  "
                  "gathered  relief  stretch\n",
                  "size", "fan");
  for (const auto& opened : sizes) {
    for (const auto& sized : opened.fans) {
      const fan::Spread& spread = sized.made.spread;
      const fan::Strip& strip = sized.made.strip;
      table += fmt::format(
          "{:<12}  {:<12}  {:6}  {:5.1f}  {:>12}  {:6.1f}  {:7.1f}  {:6.1f}  {:8.1f}  {:6.1f}  {:5.2f} %\n",
          opened.size.name, sized.fan->name + (sized.fan->pair ? " (pair)" : ""), strip.panels / 2, strip.depth_mm,
          fmt::format("{:.1f} x {:.1f}", strip.length_mm(), strip.height_mm()), spread.spread_deg(),
          std::min(360.0, fan::largest_spread_deg(spread.pleats())), spread.outer_radius_mm(),
          spread.pleats().inner_radius_mm, spread.relief_at(spread.pleats().length_mm), 100 * spread.stretch());
    }
  }
  return table + "\nspread in degrees; at most: where the panels lie flat at the rim; gathered: radius of the gathered "
                 "end;\nrelief: height of the pleats left at the rim; stretch: of the creases, at most 0.3 %\n";
}

std::string or_dash(const std::optional<double>& length_mm) {
  return length_mm ? fmt::format("{:.1f}", *length_mm) : "-";
}

std::string seat_table(const std::vector<OpenedSize>& sizes) {
  std::string table = fmt::format("\nFans, seated\n\n{:<12}  {:<12}  azimuth  spread  at most  met by    neck   head  "
                                  "table   free  needed\n",
                                  "size", "fan");
  for (const OpenedSize& opened : sizes) {
    for (const auto& [index, seated] : opened.seats) {
      table += fmt::format("{:<12}  {:<12}  {:7.1f}  {:6.1f}  {:7.1f}  {:<6}  {:>6}  {:>5}  {:>5}  {:>5}  {:>6}\n",
                           opened.size.name, opened.fans[index].fan->name, seated.azimuth_deg, seated.taken_deg,
                           seated.most_deg, seated.limited_by ? word_of(*seated.limited_by) : "-",
                           or_dash(seated.neck_clear_mm), or_dash(seated.head_clear_mm), or_dash(seated.table_clear_mm),
                           or_dash(seated.free_height_mm), or_dash(seated.least_free_height_mm));
    }
  }
  return table +
         "\nazimuth from the front to the figure's own right; at most: as far as it could be spread there, and what "
         "it\nmeets then (-: its own creases); neck, head, table: clearance; free: height above the gathered end; "
         "needed: for\nthe full spread; leaves are counted from the seam, counter-clockwise seen from above\n";
}

std::string glued_lines(const OpenedSize& opened, const fan::SizedFan& sized, const fan::Seated& seated) {
  std::string lines = fmt::format("\n{}, {}, glued to\n", opened.size.name, sized.fan->name);
  for (const fan::GluedEdge& edge : seated.glued) {
    const std::string side = side_of(sized, edge);
    lines += fmt::format("  leaf {:3}, half {}: {:>12}, {}\n", edge.leaf, edge.half,
                         side == "end" ? "gathered end" : side + " side",
                         edge.length_mm > 0 ? fmt::format("{:.1f} to {:.1f} mm up the flat leaf, {:.1f} mm long",
                                                          std::min(edge.from_z_mm, edge.to_z_mm),
                                                          std::max(edge.from_z_mm, edge.to_z_mm), edge.length_mm)
                                            : fmt::format("{:.1f} mm up the flat leaf", edge.from_z_mm));
  }
  return lines;
}

std::string figure_line(const OpenedSize& opened) {
  const fan::Figure& figure = *opened.figure;
  std::string line = fmt::format("{}, with its fans: {:.1f} wide, {:.1f} deep, {:.1f} high", opened.size.name,
                                 figure.width_mm, figure.depth_mm, figure.height_mm);
  if (figure.balance) {
    line += figure.balance->tip_deg > 0
                ? fmt::format("; it may be tilted by {:.1f} degrees before it falls", figure.balance->tip_deg)
                : "; it does not stand by itself";
  }
  return line + "\n";
}

} // namespace

Json fans_json(const OpenedSize& opened) {
  Json list = Json::array();
  for (const auto& sized : opened.fans) {
    list.push_back(fan_json(sized));
  }
  for (const auto& [index, seated] : opened.seats) {
    list[index]["seat"] = seat_json(opened.fans[index], seated);
  }
  return list;
}

Json figure_json(const fan::Figure& figure) {
  Json json = {{"width_mm", rounded(figure.width_mm, length_decimals)},
               {"depth_mm", rounded(figure.depth_mm, length_decimals)},
               {"height_mm", rounded(figure.height_mm, length_decimals)}};
  if (figure.balance) {
    json["mass_g"] = significant(figure.balance->mass_g, 5);
    json["reach_mm"] = rounded(figure.balance->reach_mm, length_decimals);
    json["tip_deg"] = rounded(figure.balance->tip_deg, 4);
  }
  return json;
}

std::string fan_tables(const std::vector<OpenedSize>& sizes) {
  if (std::ranges::none_of(sizes, [](const OpenedSize& opened) { return !opened.fans.empty(); })) {
    return "";
  }
  std::string tables = spread_table(sizes);
  if (std::ranges::none_of(sizes, [](const OpenedSize& opened) { return !opened.seats.empty(); })) {
    return tables;
  }
  tables += seat_table(sizes);
  for (const OpenedSize& opened : sizes) {
    for (const auto& [index, seated] : opened.seats) {
      tables += glued_lines(opened, opened.fans[index], seated);
    }
  }
  tables += "\n";
  for (const OpenedSize& opened : sizes) {
    tables += opened.figure ? figure_line(opened) : "";
  }
  return tables;
}

} // namespace fanwright::cli
