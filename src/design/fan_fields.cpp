#include "design/fan_fields.h"

#include "design/paper_fields.h"

#include <algorithm>
#include <array>

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
constexpr Range heights_mm{0, 1000, "mm"};
constexpr Range azimuths_deg{0, 360, "degrees"};
constexpr Range rises_deg{-90, 90, "degrees"};
constexpr Range turns_deg{-180, 180, "degrees"};
constexpr Range cell_depths_mm{0, 200, "mm"};

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

/// A key that says something of some ways to sit alone.
std::optional<Field> find_where_it_belongs(const Section& section, std::string_view key, bool belongs,
                                           const std::string& where) {
  auto found = section.find(key);
  if (found && !belongs) {
    found->refuse(found->name + " says nothing of a fan that is held like this; take it out, or hold the fan " + where +
                  ".");
  }
  return found;
}

FanSeat read_seat(const Field& field, const Units& units) {
  constexpr std::array holds = {Hold::along_edge, Hold::at_point, Hold::in_cell};
  const Section section(field, {"hold", "below_neck", "azimuth", "rise", "turn", "depth", "last_on_head"});
  FanSeat seat;
  if (const auto hold = section.find("hold")) {
    seat.hold = holds.at(hold->choice({"along edge", "at point", "in cell"}));
  }
  if (const auto height = section.find("below_neck")) {
    seat.below_neck_mm = height->length_mm(heights_mm, units);
  }
  if (const auto azimuth = section.find("azimuth")) {
    seat.azimuth_deg = azimuth->number(azimuths_deg);
  }
  const bool along_edge = seat.hold == Hold::along_edge, in_cell = seat.hold == Hold::in_cell;
  const std::string by_its_end = R"("at point" or "in cell")";
  if (const auto rise = find_where_it_belongs(section, "rise", !along_edge, by_its_end)) {
    seat.rise_deg = rise->number(rises_deg);
  }
  if (const auto turn = find_where_it_belongs(section, "turn", !along_edge, by_its_end)) {
    seat.turn_deg = turn->number(turns_deg);
  }
  if (const auto depth = find_where_it_belongs(section, "depth", in_cell, R"("in cell")")) {
    seat.depth_mm = depth->length_mm(cell_depths_mm, units);
  }
  if (const auto last = find_where_it_belongs(section, "last_on_head", along_edge, R"("along edge")")) {
    seat.last_on_head = last->yes_or_no();
  }
  return seat;
}

Fan read_fan(const Field& field, const paper::Paper& paper, const Units& units) {
  const Section section(field, {"name", "pair", "depth", "pleats", "outline", "length", "spread", "inner_radius",
                                "flap", "lap", "paper", "seat"});
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
  if (const auto seat = section.find("seat")) {
    fan.seat = read_seat(*seat, units);
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
