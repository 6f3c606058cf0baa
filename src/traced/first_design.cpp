#include "traced/first_design.h"

#include "fit/advice.h"
#include "leaf/contour.h"
#include "paper/paper.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace fanwright::traced {
namespace {

constexpr double margin_mm = 6;

std::string sheet_for(double width_mm, double height_mm) {
  constexpr std::array<std::string_view, 5> sheets = {"A4", "A3", "A2", "A1", "A0"};
  for (const std::string_view name : sheets) {
    const auto size = paper::sheet_size(name);
    if (size && width_mm + 2 * margin_mm <= size->width_mm && height_mm + 2 * margin_mm <= size->height_mm)
      return std::string(name);
  }
  return "A0";
}

} // namespace

std::string first_design(const Figure& figure, const std::string& title, design::Shows shows) {
  const leaf::Box box = leaf::bounds(figure.outline);
  const double leaves = fit::usual_leaves(box.right, 360);
  nlohmann::ordered_json design;
  design["fanwright"] = 1;
  design["title"] = title;
  design["units"] = "mm";
  design["silhouette"]["shows"] = shows == design::Shows::opened ? "opened" : "flat";
  design["silhouette"]["path"] = figure.path;
  // Even, so that packets can be glued in pairs.
  design["leaves"] = std::clamp(2 * static_cast<int>(std::lround(leaves / 2)), 8, 200);
  design["opening"] = 360;
  design["rows"] = "auto";
  design["paper"]["grammage"] = fit::paper_advice(box.height()).usual_gsm;
  design["paper"]["grain"] = "along spine";
  design["sheet"]["size"] = sheet_for(2 * box.right, box.height());
  design["sheet"]["margin"] = margin_mm;
  design["sheet"]["gap"] = 2;
  return design.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

std::variant<Tried, design::Refusal> design_that_opens(const Figure& figure, const std::string& title,
                                                       const fit::Options& options) {
  Tried tried{first_design(figure, title, design::Shows::opened), {}};
  const auto parsed = design::parse(tried.text);
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed))
    return *refusal;
  const auto& design = std::get<design::Design>(parsed);
  const auto leaf = fit::leaf_of(design, design.sizes.front(), options);
  if (const auto* failure = std::get_if<fit::Failure>(&leaf)) {
    tried.text = first_design(figure, title, design::Shows::flat);
    tried.why_flat = "No leaf opens into exactly this drawing, so it was taken as the flat leaf: " + failure->sentence;
  }
  return tried;
}

std::string name_from(const std::string& file) {
  std::string name = file.substr(file.find_last_of("/\\") + 1);
  const std::size_t dot = name.find_last_of('.');
  name = name.substr(0, dot == 0 ? std::string::npos : dot);
  return name.empty() ? "ornament" : name;
}

std::string title_from(const std::string& file) {
  std::string name = name_from(file);
  std::replace_if(
      name.begin(), name.end(), [](char c) { return c == '_' || c == '-' || static_cast<unsigned char>(c) < ' '; },
      ' ');
  const std::size_t first = name.find_first_not_of(' ');
  if (first == std::string::npos)
    return "Ornament";
  name = name.substr(first, std::min<std::size_t>(name.find_last_not_of(' ') - first + 1, 60));
  if (name.front() >= 'a' && name.front() <= 'z')
    name.front() = static_cast<char>(name.front() - 'a' + 'A');
  return name;
}

} // namespace fanwright::traced
