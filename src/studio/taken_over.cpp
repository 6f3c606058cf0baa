#include "studio/taken_over.h"

#include "leaf/outline.h"
#include "studio/json.h"
#include "studio/told.h"
#include "traced/first_design.h"
#include "traced/overlay.h"
#include "traced/wishes.h"

namespace fanwright::studio {
namespace {

Json points(const leaf::Contour& contour) {
  constexpr double shown_chord_mm = 0.05;
  Json list = Json::array();
  for (const leaf::Point& p : leaf::flatten(contour, shown_chord_mm))
    list.push_back({rounded(p.x), rounded(p.z)});
  return list;
}

Json figure_json(const traced::Figure& figure, const std::string& title, design::Shows shows) {
  Json cut_outs = Json::array(), marks = Json::array();
  for (const leaf::Contour& cut_out : figure.cut_outs)
    cut_outs.push_back(points(cut_out));
  for (const traced::Mark& mark : figure.marks)
    marks.push_back({{"at", {rounded(mark.place.x), rounded(mark.place.z)}}, {"sentence", mark.sentence}});
  return {{"title", title},
          {"text", traced::first_design(figure, title, shows)},
          {"outline", points(figure.outline)},
          {"cut_outs", std::move(cut_outs)},
          {"size_mm", {{"height", rounded(figure.height_mm)}, {"width", rounded(figure.width_mm)}}},
          {"what", figure.shown == traced::Shown::half ? "half" : "whole"},
          {"tilt_deg", rounded(figure.tilt_deg)},
          {"asymmetry_mm",
           {{"mean", rounded(figure.asymmetry_mm)},
            {"most", rounded(figure.most_asymmetry_mm)},
            {"at_height", rounded(figure.most_asymmetry_z_mm)}}},
          {"tolerance_mm", rounded(figure.tolerance_mm)},
          {"changed", figure.changed},
          {"marks", std::move(marks)},
          {"overlay", traced::overlay(figure, title)}};
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
  const auto& found = std::get<traced::Found>(result);
  const std::string title = traced::title_from(request.asked("name"));
  Json figures = Json::array();
  for (const traced::Figure& figure : found.figures)
    figures.push_back(figure_json(figure, title, shown == "flat" ? design::Shows::flat : design::Shows::opened));
  return told::reply(line_of({{"kind", found.kind}, {"notes", found.notes}, {"figures", std::move(figures)}}));
}

} // namespace fanwright::studio
