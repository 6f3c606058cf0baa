#include "studio/taken_over.h"

#include "leaf/outline.h"
#include "studio/json.h"
#include "studio/told.h"
#include "traced/first_design.h"
#include "traced/overlay.h"
#include "traced/wishes.h"

#include <charconv>
#include <cstdio>

namespace fanwright::studio {
namespace {

Json points(const leaf::Contour& contour) {
  constexpr double shown_chord_mm = 0.05;
  Json list = Json::array();
  for (const leaf::Point& p : leaf::flatten(contour, shown_chord_mm))
    list.push_back({rounded(p.x), rounded(p.z)});
  return list;
}

/// Path data in leaf coordinates, z up.
std::string path_data(const traced::Areas& areas) {
  std::string text;
  char place[64];
  const auto add = [&](const leaf::Ring& ring) {
    for (std::size_t k = 0; k < ring.size(); ++k) {
      std::snprintf(place, sizeof place, "%c%.2f %.2f", k == 0 ? 'M' : 'L', ring[k].x, ring[k].z);
      text += place;
    }
    text += 'Z';
  };
  for (const traced::Area& area : areas) {
    add(area.outline);
    for (const leaf::Ring& hole : area.holes)
      add(hole);
  }
  return text;
}

/// How the file's page lies on the leaf, as SVG's matrix(): from pixels, y down from the page's upper left corner.
Json placing(const traced::Frame& frame, const traced::SourcePage& page) {
  const leaf::Point corner = frame.to_leaf({0, page.top}), right = frame.to_leaf({1, page.top}),
                    below = frame.to_leaf({0, page.top - 1});
  return {right.x - corner.x, right.z - corner.z, below.x - corner.x, below.z - corner.z, corner.x, corner.z};
}

Json figure_json(const traced::Figure& figure, const traced::SourcePage& page, const std::string& title,
                 const traced::Tried& design) {
  Json cut_outs = Json::array(), marks = Json::array();
  for (const leaf::Contour& cut_out : figure.cut_outs)
    cut_outs.push_back(points(cut_out));
  for (const traced::Mark& mark : figure.marks)
    marks.push_back({{"at", {rounded(mark.place.x), rounded(mark.place.z)}}, {"sentence", mark.sentence}});
  std::vector<std::string> changed = figure.changed;
  if (!design.why_flat.empty())
    changed.push_back(design.why_flat);
  return {{"title", title},
          {"text", design.text},
          {"outline", points(figure.outline)},
          {"cut_outs", std::move(cut_outs)},
          {"points", traced::points_of(figure)},
          {"size_mm", {{"height", rounded(figure.height_mm)}, {"width", rounded(figure.width_mm)}}},
          {"what", figure.shown == traced::Shown::half ? "half" : "whole"},
          {"tilt_deg", rounded(figure.tilt_deg)},
          {"asymmetry_mm",
           {{"mean", rounded(figure.asymmetry_mm)},
            {"most", rounded(figure.most_asymmetry_mm)},
            {"at_height", rounded(figure.most_asymmetry_z_mm)}}},
          {"tolerance_mm", rounded(figure.tolerance_mm)},
          {"changed", std::move(changed)},
          {"marks", std::move(marks)},
          {"found", path_data(figure.found)},
          {"filled", path_data(figure.filled)},
          {"dropped", path_data(figure.dropped)},
          {"placing", placing(figure.frame, page)},
          {"overlay", traced::overlay(figure, title)}};
}

/// One figure by its number from 1, with the leaf that opens into it looked for; all of them for an empty number.
Reply told_figures(const Request& request, const traced::Found& found, bool flat) {
  const std::string title = traced::title_from(request.asked("name"));
  const std::string number = request.asked("figure");
  std::size_t chosen = 0;
  if (!number.empty()) {
    const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), chosen);
    if (error != std::errc{} || end != number.data() + number.size() || chosen < 1 || chosen > found.figures.size())
      return told::refusal(400, "There is no figure of this number; they are numbered by size from 1.");
  }
  Json figures = Json::array();
  for (std::size_t k = 0; k < found.figures.size(); ++k) {
    if (chosen != 0 && k + 1 != chosen)
      continue;
    const traced::Figure& figure = found.figures[k];
    traced::Tried design{traced::first_design(figure, title, flat ? design::Shows::flat : design::Shows::opened), {}};
    if (chosen != 0 && !flat) {
      auto tried = traced::design_that_opens(figure, title);
      if (const auto* refusal = std::get_if<design::Refusal>(&tried))
        return told::refusal(400, refusal->sentence, refusal->where);
      design = std::get<traced::Tried>(std::move(tried));
    }
    figures.push_back(figure_json(figure, found.page, title, design));
  }
  return told::reply(line_of({{"kind", found.kind},
                              {"page", {{"width", found.page.width}, {"height", found.page.height}}},
                              {"notes", found.notes},
                              {"figures", std::move(figures)}}));
}

} // namespace

Reply taken_over(const Request& request) {
  const traced::WishWords words{request.asked("height"), request.asked("width"), request.asked("between"),
                                request.asked("what"),   request.asked("side"),  request.asked("tolerance")};
  const auto wishes = traced::wishes_from(words);
  if (const auto* sentence = std::get_if<std::string>(&wishes))
    return told::refusal(400, *sentence);
  const std::string shown = request.asked("shows");
  if (!shown.empty() && shown != "opened" && shown != "flat")
    return told::refusal(400, "A drawing shows the ornament once \"opened\" or the \"flat\" leaf.");
  const auto result = traced::silhouettes(request.body, std::get<traced::Wishes>(wishes));
  if (const auto* sentence = std::get_if<std::string>(&result))
    return told::refusal(400, *sentence);
  return told_figures(request, std::get<traced::Found>(result), shown == "flat");
}

} // namespace fanwright::studio
