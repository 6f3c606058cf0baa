#include "kit/leaf_lines.h"

#include "drawing/cut_dashes.h"
#include "drawing/cutting_order.h"
#include "drawing/words.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace fanwright::kit {

namespace {

using drawing::Page;
using drawing::Point;
using drawing::Step;

constexpr double hatch_spacing_mm = 1.6;
constexpr double inside_hatch_deg = 45, between_hatch_deg = -45;
constexpr double corner_tick_mm = 1.2;
constexpr double largest_name_mm = 2.2, least_name_mm = 1.4; // height of the em square

using Strip = std::array<leaf::Point, 4>;

Step step_of(leaf::Face face) { return face == leaf::Face::inner ? Step::glue_inside : Step::glue_between; }

std::vector<Point> on_page(const Strip& strip, const Place& place) {
  std::vector<Point> corners;
  for (const leaf::Point& corner : strip)
    corners.push_back(place(corner));
  return corners;
}

/// A strip has two sides along z; corners run counter-clockwise, the first two along the lower edge.
Strip inset(const Strip& strip, double by_mm) {
  const double height = strip[3].z - strip[0].z, width = strip[1].x - strip[0].x;
  const double z = std::min(by_mm, height / 4), x = std::min(by_mm, width / 4);
  const double rise = (strip[1].z - strip[0].z) / width;
  return {leaf::Point{strip[0].x + x, strip[0].z + x * rise + z},
          {strip[1].x - x, strip[1].z - x * rise + z},
          {strip[2].x - x, strip[2].z - x * rise - z},
          {strip[3].x + x, strip[3].z + x * rise - z}};
}

drawing::Path line_of(Step step, const Slit& slit, const Place& place) {
  return drawing::polyline(step, {place(slit.from), place(slit.to)}, false);
}

/// Angles pointing into the strip from its corners.
drawing::Path corner_ticks(Step step, const std::vector<Point>& corners) {
  drawing::Path path{step, {}, drawing::usual_pen(step)};
  path.pen.dash_mm.clear();
  const std::size_t count = corners.size();
  const auto toward = [](const Point& from, const Point& to) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const double share = std::min(0.3, corner_tick_mm / std::max(length, 1e-9));
    return Point{from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share};
  };
  for (std::size_t i = 0; i < count; ++i) {
    path.segments.push_back(drawing::Move{toward(corners[i], corners[(i + count - 1) % count])});
    path.segments.push_back(drawing::Line{corners[i]});
    path.segments.push_back(drawing::Line{toward(corners[i], corners[(i + 1) % count])});
  }
  return path;
}

void add_strip(Page& page, Step step, const Strip& strip, const Place& place, GlueLook look) {
  const std::vector<Point> corners = on_page(strip, place);
  if (look == GlueLook::corners) {
    page.items.push_back(corner_ticks(step, corners));
    return;
  }
  page.items.push_back(drawing::polyline(step, corners, true));
  if (look == GlueLook::hatched)
    page.items.push_back(drawing::hatched(
        step, corners, step == Step::glue_inside ? inside_hatch_deg : between_hatch_deg, hatch_spacing_mm));
}

/// Words in a strip: where they begin and end along x.
struct NamePlace {
  std::size_t mark = 0;
  double size_mm = 0, from_x = 0, to_x = 0;
};

std::optional<NamePlace> name_place(const leaf::Marks& marks, const std::string& words) {
  std::optional<NamePlace> best;
  double longest = 0;
  for (std::size_t i = 0; i < marks.glue.size(); ++i) {
    const leaf::GlueMark& mark = marks.glue[i];
    const Strip& c = mark.corners;
    const double length = c[1].x - c[0].x, height = c[3].z - c[0].z;
    const double size = std::min(largest_name_mm, 0.75 * height);
    const bool level = std::abs(c[1].z - c[0].z) < 0.05 * height;
    if (mark.face != leaf::Face::inner || mark.half != leaf::Half::right || !level || size < least_name_mm)
      continue;
    const double width = drawing::words_width_mm(words, size);
    if (length < width + 4 || length <= longest)
      continue;
    longest = length;
    const double middle = (c[0].x + c[1].x) / 2;
    best = NamePlace{i, size, middle - width / 2 - 1, middle + width / 2 + 1};
  }
  return best;
}

/// The strip with words in its middle and hatching beside them.
void add_named_strip(Page& page, const Strip& strip, const NamePlace& name, const Place& place,
                     const std::string& words) {
  constexpr double half_letter = 0.36; // middle of the letters above the baseline, as a share of their size
  add_strip(page, Step::glue_inside, strip, place, GlueLook::framed);
  for (const auto& [left, right] : {std::pair{strip[0].x, name.from_x}, std::pair{name.to_x, strip[1].x}}) {
    const Strip part = {leaf::Point{left, strip[0].z}, {right, strip[0].z}, {right, strip[3].z}, {left, strip[3].z}};
    page.items.push_back(drawing::hatched(Step::glue_inside, on_page(part, place), inside_hatch_deg, hatch_spacing_mm));
  }
  const Point middle = place({(name.from_x + name.to_x) / 2, (strip[0].z + strip[3].z) / 2});
  page.items.push_back(drawing::Text{Step::legend,
                                     {middle.x, middle.y + half_letter * name.size_mm},
                                     name.size_mm,
                                     words,
                                     drawing::Align::centre,
                                     false,
                                     {}});
}

} // namespace

void add_cuts(Page& page, const std::vector<LaidCuts>& laid) {
  std::vector<drawing::Path> paths;
  for (const auto& [cuts, place] : laid) {
    for (const Slit& score : cuts->score)
      paths.push_back(line_of(Step::score, score, place));
    for (const Slit& stretch : cuts->dashed)
      for (drawing::Path& dash :
           drawing::cut_dashes(line_of(Step::perforate, stretch, place), cuts->dash_mm, cuts->gap_mm))
        paths.push_back(std::move(dash));
    for (const Slit& nick : cuts->nicks)
      paths.push_back(line_of(Step::cut, nick, place));
    for (const leaf::Contour& cut_out : cuts->cut_outs)
      paths.push_back(path_of(Step::cut, cut_out, place));
    paths.push_back(path_of(Step::cut, cuts->outline, place));
  }
  for (drawing::Path& path : drawing::in_cutting_order(std::move(paths)))
    page.items.push_back(std::move(path));
}

void add_cuts(Page& page, const LeafCuts& cuts, const std::vector<Place>& places) {
  std::vector<LaidCuts> laid;
  laid.reserve(places.size());
  for (const Place& place : places)
    laid.push_back({&cuts, place});
  add_cuts(page, laid);
}

void add_strip(Page& page, leaf::Face face, const std::array<leaf::Point, 4>& corners, const Place& place,
               GlueLook look) {
  add_strip(page, step_of(face), corners, place, look);
}

void add_rows(Page& page, const leaf::Marks& marks, leaf::Face face, const Place& place, GlueLook look,
              double inset_mm) {
  for (const leaf::GlueMark& mark : marks.glue)
    if (mark.face == face)
      add_strip(page, step_of(face), inset(mark.corners, inset_mm), place, look);
}

bool add_inside_rows_with_name(Page& page, const leaf::Marks& marks, const Place& place, const std::string& words) {
  const auto name = place.turn_deg % 180 == 0 ? name_place(marks, words) : std::nullopt;
  for (std::size_t i = 0; i < marks.glue.size(); ++i) {
    const leaf::GlueMark& mark = marks.glue[i];
    if (mark.face != leaf::Face::inner)
      continue;
    if (name && name->mark == i)
      add_named_strip(page, mark.corners, *name, place, words);
    else
      add_strip(page, Step::glue_inside, mark.corners, place, GlueLook::hatched);
  }
  return name.has_value();
}

} // namespace fanwright::kit
