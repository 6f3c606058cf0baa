#include "studio/fan_mesh.h"

#include "fan/seated_fans.h"
#include "picture/little_endian.h"
#include "picture/seated_paper.h"
#include "studio/json.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>
#include <variant>
#include <vector>

namespace fanwright::studio {
namespace {

constexpr double spacing_mm = 3; // the surface stays within 0.1 mm: less than a pixel

/// A size's fans as far as they could be seated.
struct Found {
  std::vector<fan::SizedFan> fans;
  std::vector<fan::SeatedFan> seats;
  std::vector<picture::FanPaper> papers;
  std::vector<design::Refusal> problems;
};

/// Each fan by itself: one that cannot sit leaves the others where they are.
Found found_for(const design::Design& design, const design::Size& size, const fan::Body& body, bool stands) {
  Found found;
  auto fans = fan::fans_of(design, size);
  if (auto* refusal = std::get_if<design::Refusal>(&fans)) {
    found.problems.push_back(std::move(*refusal));
    return found;
  }
  found.fans = std::get<std::vector<fan::SizedFan>>(std::move(fans));
  for (std::size_t k = 0; k < found.fans.size(); ++k) {
    if (!found.fans[k].seat)
      continue;
    auto result = fan::seated(found.fans[k], body, stands);
    if (auto* unseated = std::get_if<fan::Unseated>(&result))
      found.problems.push_back(std::move(unseated->why));
    else
      found.seats.push_back({k, std::get<fan::Seated>(std::move(result))});
  }
  auto papers = picture::paper_of(found.fans, found.seats, spacing_mm);
  if (auto* refusal = std::get_if<design::Refusal>(&papers))
    found.problems.push_back(std::move(*refusal));
  else
    found.papers = std::get<std::vector<picture::FanPaper>>(std::move(papers));
  return found;
}

const char* word(fan::Part part) {
  constexpr std::array<const char*, 6> words{"body", "neck", "head", "table", "other one", "leaves"};
  return words[static_cast<std::size_t>(part)];
}

Json seat_json(const fan::SeatedFan& seat) {
  const fan::Seated& seated = seat.seated;
  const fan::Point3& centre = seated.fans.front().at.origin;
  return {{"fan", seat.fan},
          {"taken_deg", rounded(seated.taken_deg)},
          {"most_deg", rounded(seated.most_deg)},
          {"azimuth_deg", rounded(seated.azimuth_deg)},
          {"limited_by", seated.limited_by ? Json(word(*seated.limited_by)) : Json(nullptr)},
          {"at", Json::array({rounded(std::hypot(centre[0], centre[1])), rounded(centre[2])})}};
}

Json figure_json(const Found& found, const fan::Body& body, bool stands) {
  if (found.seats.empty())
    return nullptr;
  const fan::Figure figure = fan::figure_with(found.fans, found.seats, body, stands);
  return {{"width_mm", rounded(figure.width_mm)},
          {"depth_mm", rounded(figure.depth_mm)},
          {"height_mm", rounded(figure.height_mm)}};
}

Json problems_json(const std::vector<design::Refusal>& problems) {
  Json json = Json::array();
  for (const design::Refusal& problem : problems)
    json.push_back({{"sentence", problem.sentence}, {"where", problem.where}});
  return json;
}

/// Share of the sky that a wall of a pleat sees, mean of its height, `v` mm from the gathered end: a groove whose walls
/// stand at an angle f to its middle plane shows its rim at sin f, and f has the sine of half the way between two
/// creases over a panel's width.
std::vector<float> openness_along(const fan::Spread& spread, int steps) {
  const double length = spread.pleats().length_mm, depth = spread.pleats().depth_mm;
  std::vector<float> open;
  for (int k = 0; k <= steps; ++k) {
    const double relief = spread.relief_at(length * k / steps) / depth;
    open.push_back(static_cast<float>(std::sqrt(std::max(0.0, 1 - relief * relief))));
  }
  return open;
}

void put_fan(const picture::FanPaper& fan, const fan::Spread& spread, std::string& bytes) {
  constexpr int steps = 24;
  const std::vector<float> open = openness_along(spread, steps);
  for (const picture::HalfPanel& piece : fan.panels)
    for (const auto& point : piece.points)
      for (const double coordinate : point)
        picture::put_float(bytes, coordinate);
  for (const picture::HalfPanel& piece : fan.panels)
    for (const leaf::Point& flat : piece.flat) {
      const double at = std::clamp(flat.z / spread.pleats().length_mm, 0.0, 1.0) * steps;
      picture::put_whole(bytes,
                         static_cast<std::uint8_t>(std::lround(255 * open[static_cast<std::size_t>(std::lround(at))])));
    }
  bytes.resize((bytes.size() + 3) / 4 * 4, '\0');
  int first = 0;
  for (const picture::HalfPanel& piece : fan.panels) {
    for (const auto& triangle : piece.triangles)
      for (const int corner : triangle)
        picture::put_whole(bytes, static_cast<std::uint32_t>(first + corner));
    first += static_cast<int>(piece.points.size());
  }
}

Json counts_json(const picture::FanPaper& fan) {
  std::size_t points = 0, triangles = 0;
  for (const picture::HalfPanel& piece : fan.panels) {
    points += piece.points.size();
    triangles += piece.triangles.size();
  }
  return {{"name", fan.name}, {"points", points}, {"triangles", triangles}};
}

} // namespace

std::string fan_mesh(const design::Design& design, const design::Size& size, const opened::Form& form) {
  const bool stands = design.making.display == design::Display::stands;
  const fan::Body body = fan::body_of(form, size.leaves, size.paper);
  const Found found = found_for(design, size, body, stands);
  Json head = {{"from_mm", rounded(body.seats_from_mm())},
               {"neck", body.neck_mm.has_value()},
               {"problems", problems_json(found.problems)},
               {"figure", figure_json(found, body, stands)},
               {"seats", Json::array()},
               {"fans", Json::array()}};
  for (const fan::SeatedFan& seat : found.seats)
    head["seats"].push_back(seat_json(seat));
  for (const picture::FanPaper& fan : found.papers)
    head["fans"].push_back(counts_json(fan));
  std::string text = line_of(head);
  text.resize((text.size() + 3) / 4 * 4, ' ');
  std::string bytes = "FWF1";
  picture::put_whole(bytes, static_cast<std::uint32_t>(text.size()));
  bytes += text;
  std::size_t paper = 0;
  for (const fan::SeatedFan& seat : found.seats)
    for (const fan::Placed& placed : seat.seated.fans)
      if (paper < found.papers.size())
        put_fan(found.papers[paper++], placed.spread, bytes);
  return bytes;
}

} // namespace fanwright::studio
