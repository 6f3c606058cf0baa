#include "design/fan_fields.h"

#include "design/paper_fields.h"

#include <algorithm>

namespace fanwright::design {
namespace {

constexpr std::size_t most_fans = 8;
constexpr int longest_name = 40;
constexpr int fewest_pleats = 2, most_pleats = 200;
constexpr Range depths_mm{3, 100, "mm"};
constexpr Range lengths_mm{8, 1000, "mm"};
constexpr Range spreads_deg{10, 360, "degrees"};
constexpr Range radii_mm{0, 200, "mm"};
constexpr Range flaps_mm{0, 100, "mm"};

/// The edge: drawn as it looks when spread, or cut straight.
void read_edge(const Section& section, const Units& units, Fan& fan) {
  const auto outline = section.find("outline"), length = section.find("length"), spread = section.find("spread");
  if (outline) {
    fan.outline_path = outline->text();
    if (fan.outline_path.empty()) {
      outline->refuse("The outline is empty; give SVG path data from one side of the spread fan to the other.");
    }
    for (const auto& other : {length, spread}) {
      if (other) {
        other->refuse("An outline already says how long the fan is and how far it is spread; keep \"outline\" alone, "
                      "or \"length\" and \"spread\".");
      }
    }
    return;
  }
  fan.length_mm = section.need("length").length_mm(lengths_mm, units);
  if (spread) {
    fan.spread_deg = spread->number(spreads_deg);
  }
}

Fan read_fan(const Field& field, const paper::Paper& paper, const Units& units) {
  const Section section(field, {"name", "pair", "depth", "pleats", "outline", "length", "spread", "inner_radius",
                                "flap", "lap", "paper"});
  Fan fan;
  fan.where = section.pointer();
  fan.name = section.need("name").line(1, longest_name);
  if (const auto pair = section.find("pair")) {
    fan.pair = pair->yes_or_no();
  }
  fan.depth_mm = section.need("depth").length_mm(depths_mm, units);
  fan.pleats = section.need("pleats").whole_number(fewest_pleats, most_pleats);
  read_edge(section, units, fan);
  if (const auto radius = section.find("inner_radius")) {
    fan.inner_radius_mm = radius->length_mm(radii_mm, units);
  }
  if (const auto flap = section.find("flap")) {
    fan.flap_mm = flap->length_mm(flaps_mm, units);
  }
  if (const auto lap = section.find("lap")) {
    fan.lap_mm = lap->length_mm(flaps_mm, units);
  }
  if (const auto own = section.find("paper")) {
    fan.paper = read_paper(*own, paper, units, false);
  }
  return fan;
}

} // namespace

std::vector<Fan> read_fans(const Field& field, const paper::Paper& paper, const Units& units) {
  const std::size_t count = field.list().size();
  if (count > most_fans) {
    field.refuse("Found " + std::to_string(count) + " in the list, but there are at most 8 fans.");
  }
  std::vector<Fan> fans;
  for (std::size_t index = 0; index < count; ++index) {
    const Field entry = field.entry(index);
    fans.push_back(read_fan(entry, paper, units));
    if (std::ranges::count(fans, fans.back().name, &Fan::name) > 1) {
      throw Refused(pointer_to(entry.pointer, "name"),
                    "The name " + in_quotes(fans.back().name) + " is used twice; give each fan its own.");
    }
  }
  return fans;
}

} // namespace fanwright::design
