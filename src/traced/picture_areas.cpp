#include "traced/picture_areas.h"

#include "leaf/contour.h"
#include "traced/along.h"
#include "traced/figure_ground.h"
#include "traced/outlines.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fanwright::traced {
namespace {

void scale(Areas& areas, double factor) {
  const auto apply = [&](Ring& ring) {
    for (Point& p : ring)
      p = {factor * p.x, factor * p.z};
  };
  for (Area& area : areas) {
    apply(area.outline);
    for (Ring& hole : area.holes)
      apply(hole);
  }
}

double edge_of(const Area& area) {
  double edge = length_of(area.outline, true);
  for (const Ring& hole : area.holes)
    edge += length_of(hole, true);
  return edge;
}

/// Mean width of a drawn line: twice the area by the length of all its edges.
double line_width(const Area& area) { return 2 * area_of(area) / edge_of(area); }

/// A line about as wide as the others that runs round something.
bool is_drawn_outline(const Area& area, double width) {
  constexpr double wider = 1.6, enclosed_share = 0.25;
  const double whole = leaf::signed_area(area.outline);
  return line_width(area) < wider * width && area_of(area) < (1 - enclosed_share) * whole;
}

/// The lines' gaps closed: ends nearer to each other than `reach` meet.
Areas gaps_closed(const Areas& lines, double reach) {
  return grown(grown(lines, reach / 2, Corners::round), -reach / 2, Corners::round);
}

} // namespace

std::variant<StandingOut, std::string> standing_out(const Picture& picture) {
  constexpr double speck_share = 0.006, gap_share = 0.015; // of the picture's longer side
  constexpr double most_edge = 300; // in longer sides: paper and light leave some specks, noise ten times as many
  auto contrast = contrast_of(picture);
  if (auto* sentence = std::get_if<std::string>(&contrast))
    return std::move(*sentence);
  const auto& found = std::get<Contrast>(contrast);
  const double longer = std::max(found.width, found.height);
  StandingOut result;
  result.grain = std::max(1.0, found.pixel);
  const Bitmap figure = figure_of(found);
  // Noise and weaves are told by their edge; to trace them would take minutes.
  if (static_cast<double>(edge_pixels(figure)) < most_edge * longer)
    result.areas = outlines_of(figure, static_cast<int>(std::pow(speck_share * longer, 2)) + 4);
  if (result.areas.empty())
    return std::string("Nothing in the picture stands out from its ground as one piece; lay the drawing or the thing "
                       "on a plain ground of another colour, in even light.");
  // By its box: a line with a gap encloses nothing yet.
  const auto room = [](const Area& area) {
    const leaf::Box box = leaf::bounds(area.outline);
    return box.width() * box.height();
  };
  const auto largest = std::max_element(result.areas.begin(), result.areas.end(),
                                        [&](const Area& a, const Area& b) { return room(a) < room(b); });
  const double extent = room(*largest);
  const double width = line_width(*largest), reach = std::max(gap_share * longer, width);
  // Lines so close that what closes their gaps would fill all between them are no outline.
  const double grown_area = reach / 2 *
                            std::accumulate(result.areas.begin(), result.areas.end(), 0.0,
                                            [](double sum, const Area& area) { return sum + edge_of(area); });
  if (width < 0.03 * std::sqrt(extent) && grown_area < extent) {
    const Areas closed = gaps_closed(result.areas, reach);
    std::vector<Areas> outlines;
    for (const Area& line : closed)
      if (is_drawn_outline(line, width))
        outlines.push_back(grown({{line.outline, {}}}, -width / 2, Corners::sharp));
      else if (area_of(line) > width * width)
        outlines.push_back({line});
    if (std::any_of(closed.begin(), closed.end(), [&](const Area& line) { return is_drawn_outline(line, width); })) {
      auto areas = nested(outlines);
      if (!areas)
        return std::string("The picture's lines meet in too many places to be a silhouette; draw its outline and its "
                           "cut-outs alone.");
      result.areas = *std::move(areas);
      result.notes.emplace_back("The picture is drawn in lines: their middle was taken as the edge, what they enclose "
                                "inside the figure as cut-outs.");
    }
  }
  scale(result.areas, found.pixel);
  return result;
}

} // namespace fanwright::traced
