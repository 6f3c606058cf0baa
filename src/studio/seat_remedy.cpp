#include "studio/seat_remedy.h"

#include "leaf/outline.h"
#include "leaf/path_data.h"
#include "leaf/silhouette.h"
#include "studio/json.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fanwright::studio {
namespace {

/// The outline with its farthest point at `reach` from the centre, both in the file's units.
std::optional<Json> outline_reaching(const Json& path, double reach) {
  if (!path.is_string())
    return std::nullopt;
  auto parsed = leaf::parse_path_data(path.get<std::string>());
  auto* paths = std::get_if<std::vector<leaf::Subpath>>(&parsed);
  if (paths == nullptr || paths->size() != 1)
    return std::nullopt;
  leaf::Subpath& outline = paths->front();
  constexpr double fine = 1e-3; // of a unit: the reach is told with six digits
  double farthest = 0;
  for (const leaf::Point& p : leaf::flatten({outline.start, outline.segments}, fine))
    farthest = std::max(farthest, std::hypot(p.x, p.z));
  if (!(farthest > 0))
    return std::nullopt;
  const leaf::Contour scaled = leaf::scaled({outline.start, outline.segments}, reach / farthest);
  outline.start = scaled.start;
  outline.segments = scaled.segments;
  return Json::parse(told::outline(*paths)).at("path");
}

/// The value to write at the place of a change.
std::optional<Json> value_of(const Json& design, const fan::SeatChange& change) {
  if (change.where.ends_with("/outline")) {
    const Json::json_pointer at(change.where);
    return design.contains(at) ? outline_reaching(design.at(at), change.value) : std::nullopt;
  }
  if (change.where.ends_with("/last_on_head"))
    return Json(change.value != 0);
  if (change.where.ends_with("/pleats"))
    return Json(static_cast<int>(std::lround(change.value)));
  return Json(std::round(change.value * 1e6) / 1e6);
}

bool add(const Json& design, const fan::SeatChange& change, std::vector<told::Change>& changes) {
  const auto value = value_of(design, change);
  if (!value)
    return false;
  changes.push_back({change.where, value->dump()});
  return std::ranges::all_of(change.also, [&](const fan::SeatChange& more) { return add(design, more, changes); });
}

} // namespace

std::vector<std::vector<told::Change>> seat_remedies(const std::string& text,
                                                     const std::vector<fan::SeatChange>& remedies) {
  const Json design = Json::parse(text, nullptr, false);
  std::vector<std::vector<told::Change>> all;
  for (const fan::SeatChange& remedy : remedies) {
    std::vector<told::Change> changes;
    if (design.is_object() && add(design, remedy, changes))
      all.push_back(std::move(changes));
  }
  return all;
}

} // namespace fanwright::studio
