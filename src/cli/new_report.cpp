#include "cli/new_report.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

std::string what_next(const std::string& out) {
  return fmt::format("\nWritten to {0}. Next: fanwright check {0}, then fanwright kit {0} --out DIR\n", out);
}

std::string figure_line(const traced::Figure& figure) {
  return fmt::format("{:.1f} mm high, {:.1f} mm wide, {}, {} points, {} cut-outs", figure.height_mm, figure.width_mm,
                     figure.shown == traced::Shown::half ? "half a figure" : "a whole figure", points_of(figure),
                     figure.cut_outs.size());
}

std::string sides_line(const traced::Figure& figure) {
  std::string text;
  if (std::abs(figure.tilt_deg) >= 0.05)
    text += fmt::format("  The axis leant to the {} by {:.1f} degrees; set upright.\n",
                        figure.tilt_deg > 0 ? "left" : "right", std::abs(figure.tilt_deg));
  if (figure.shown == traced::Shown::whole)
    text += fmt::format("  Left and right differ by {:.2f} mm on average, {:.2f} mm at most (at height {:.0f} mm).\n",
                        figure.asymmetry_mm, figure.most_asymmetry_mm, figure.most_asymmetry_z_mm);
  return text;
}

Json figure_json(const traced::Figure& figure) {
  Json marks = Json::array();
  for (const traced::Mark& mark : figure.marks)
    marks.push_back({{"x", rounded(mark.place.x, 2)}, {"z", rounded(mark.place.z, 2)}, {"says", mark.sentence}});
  return {{"path", figure.path},
          {"height_mm", rounded(figure.height_mm, 2)},
          {"width_mm", rounded(figure.width_mm, 2)},
          {"shown", figure.shown == traced::Shown::half ? "half" : "whole"},
          {"tilt_deg", rounded(figure.tilt_deg, 3)},
          {"asymmetry",
           {{"mean_mm", rounded(figure.asymmetry_mm, 3)},
            {"most_mm", rounded(figure.most_asymmetry_mm, 3)},
            {"at_height_mm", rounded(figure.most_asymmetry_z_mm, 1)}}},
          {"tolerance_mm", rounded(figure.tolerance_mm, 3)},
          {"points", points_of(figure)},
          {"cut_outs", figure.cut_outs.size()},
          {"changed", figure.changed},
          {"marks", std::move(marks)}};
}

} // namespace

std::string new_text(const traced::Found& found, int chosen, const std::string& out) {
  std::string text;
  for (const std::string& note : found.notes)
    text += note + "\n";
  if (found.figures.size() > 1) {
    text += fmt::format("{} figures, by size; take another with --figure:\n", found.figures.size());
    for (std::size_t k = 0; k < found.figures.size(); ++k)
      text += fmt::format("{} {}  {}\n", static_cast<int>(k) + 1 == chosen ? ">" : " ", k + 1,
                          figure_line(found.figures[k]));
  }
  const traced::Figure& figure = found.figures[static_cast<std::size_t>(chosen) - 1];
  text += fmt::format("{}: {}\n{}", found.kind, figure_line(figure), sides_line(figure));
  for (const std::string& change : figure.changed)
    text += "  " + change + "\n";
  for (const traced::Mark& mark : figure.marks)
    text += fmt::format("  At x {:.1f}, z {:.1f}: {}\n", mark.place.x, mark.place.z, mark.sentence);
  return text + what_next(out);
}

std::string new_json(const traced::Found& found, int chosen, const std::string& out, const std::string& design) {
  Json figures = Json::array();
  for (const traced::Figure& figure : found.figures)
    figures.push_back(figure_json(figure));
  const Json all = {{"kind", found.kind}, {"notes", found.notes}, {"figures", std::move(figures)},
                    {"figure", chosen},   {"written", out},       {"design", Json::parse(design)}};
  return all.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string starter_report(const std::string& name, const std::string& out, bool json) {
  if (json)
    return Json{{"starter", name}, {"written", out}}.dump(2) + "\n";
  return "One of our own designs: " + name + ".\n" + what_next(out);
}

} // namespace fanwright::cli
