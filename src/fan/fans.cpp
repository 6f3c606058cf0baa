#include "fan/fans.h"

#include "leaf/path_data.h"
#include "leaf/silhouette.h"

#include <utility>

namespace fanwright::fan {
namespace {

/// The size is named where there are several, for it is not the file alone that is at fault.
std::string called(const design::Design& design, const design::Fan& fan, const design::Size& size) {
  return "Fan \"" + fan.name + "\"" + (design.sizes.size() > 1 ? ", size " + size.name : "");
}

/// Refusals by make() say which key below the fan.
design::Refusal placed(const design::Refusal& refusal, const design::Fan& fan, const std::string& name) {
  return {fan.where + refusal.where, name + ": " + refusal.sentence};
}

std::optional<Seat> seat_of(const design::Fan& drawn, double scale) {
  if (!drawn.seat) {
    return std::nullopt;
  }
  Seat seat{*drawn.seat, drawn.pair};
  seat.below_neck_mm *= scale;
  seat.depth_mm *= scale;
  return seat;
}

std::variant<leaf::Subpath, design::Refusal> outline_of(const design::Fan& fan, double factor) {
  auto paths = leaf::parse_path_data(fan.outline_path);
  if (const auto* fault = std::get_if<leaf::PathFault>(&paths)) {
    return design::Refusal{"/outline", fault->sentence};
  }
  const auto& found = std::get<std::vector<leaf::Subpath>>(paths);
  if (found.size() != 1) {
    return design::Refusal{"/outline", found.empty()
                                           ? "The outline draws nothing; draw it from one side of the spread "
                                             "fan to the other."
                                           : "The outline has several parts; draw one line from side to side."};
  }
  const leaf::Contour scaled = leaf::scaled({found.front().start, found.front().segments}, factor);
  return leaf::Subpath{scaled.start, scaled.segments, found.front().closed};
}

std::variant<Fan, design::Refusal> sized(const design::Design& design, const design::Fan& drawn,
                                         const design::Size& size, double scale) {
  const auto scaled = [scale](const std::optional<double>& length) {
    return length ? std::optional(*length * scale) : std::nullopt;
  };
  Fan fan;
  fan.depth_mm = drawn.depth_mm * scale;
  fan.pleats = drawn.pleats;
  fan.inner_radius_mm = scaled(drawn.inner_radius_mm);
  fan.flap_mm = scaled(drawn.flap_mm);
  fan.lap_mm = scaled(drawn.lap_mm);
  fan.paper = drawn.paper.value_or(size.paper);
  fan.edge = StraightEdge{drawn.length_mm * scale, drawn.spread_deg};
  if (!drawn.outline_path.empty()) {
    auto outline = outline_of(drawn, design.units_to_mm * scale);
    if (auto* refusal = std::get_if<design::Refusal>(&outline)) {
      return std::move(*refusal);
    }
    fan.edge = DrawnEdge{std::get<leaf::Subpath>(std::move(outline))};
  }
  return fan;
}

} // namespace

std::variant<std::vector<SizedFan>, design::Refusal> fans_of(const design::Design& design, const design::Size& size) {
  std::vector<SizedFan> fans;
  if (design.fans.empty()) {
    return fans;
  }
  const auto silhouette = leaf::silhouette(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&silhouette)) {
    return *refusal;
  }
  const double scale = std::get<leaf::Silhouette>(silhouette).scale;
  for (const design::Fan& drawn : design.fans) {
    const std::string name = called(design, drawn, size);
    auto wanted = sized(design, drawn, size, scale);
    if (const auto* refusal = std::get_if<design::Refusal>(&wanted)) {
      return placed(*refusal, drawn, name);
    }
    Fan& fan = std::get<Fan>(wanted);
    auto made = make(fan);
    if (const auto* refusal = std::get_if<design::Refusal>(&made)) {
      return placed(*refusal, drawn, name);
    }
    fans.push_back({&drawn, fan.paper, std::get<Made>(std::move(made)), std::move(fan), seat_of(drawn, scale),
                    scale * design.units_to_mm, name});
  }
  return fans;
}

std::vector<NamedStrip> strips_of(const SizedFan& fan) {
  if (!fan.fan->pair) {
    return {{fan.fan->name, fan.made.strip}};
  }
  return {{fan.fan->name + ", right", fan.made.strip}, {fan.fan->name + ", left", mirrored(fan.made.strip)}};
}

} // namespace fanwright::fan
