#include "cli/check_report.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace fanwright::cli {
namespace {

using fit::Finding;
using Json = nlohmann::ordered_json;

constexpr std::size_t line_width = 100; ///< of the sentences
constexpr std::size_t indent = 9;

const char* word(Finding::Verdict verdict) {
  constexpr std::array<const char*, 4> words{"good", "note", "warning", "fails"};
  return words[static_cast<std::size_t>(verdict)];
}

/// Three significant digits, as a person reads a measure; whole numbers as they are.
std::string measure(double value) {
  if (value == std::round(value) && std::abs(value) < 1e6)
    return fmt::format("{:.0f}", value + 0.0);
  if (std::abs(value) < 5e-4)
    return "0";
  const int decimals = std::clamp(2 - static_cast<int>(std::floor(std::log10(std::abs(value)))), 0, 3);
  return fmt::format("{:.{}f}", value, decimals);
}

double rounded(double value) { return std::round(value * 1e4) / 1e4 + 0.0; }

/// `text` broken at spaces, every line indented.
std::string wrapped(const std::string& text) {
  std::string result;
  std::size_t start = 0;
  while (start < text.size()) {
    std::size_t end = std::min(text.size(), start + line_width - indent);
    if (end < text.size())
      if (const std::size_t space = text.rfind(' ', end); space != std::string::npos && space > start)
        end = space;
    result += std::string(indent, ' ') + text.substr(start, end - start) + "\n";
    start = end < text.size() && text[end] == ' ' ? end + 1 : end;
  }
  return result;
}

std::string lines_of(const Finding& finding) {
  const std::string unit = finding.unit.empty() ? "" : " " + finding.unit;
  std::string lines = fmt::format("{:<{}}{:<15}", word(finding.verdict), indent, finding.id);
  if (finding.id != "opens.form" && (finding.id != "fan.form" || finding.limit)) {
    lines += fmt::format("{:>14}", measure(finding.value) + unit);
    if (finding.limit)
      lines += fmt::format("   limit {}{}, {}", measure(*finding.limit), unit, finding.limit_source);
  }
  lines += "\n" + wrapped(finding.sentence);
  if (!finding.remedy.empty())
    lines += wrapped(finding.remedy);
  return lines;
}

std::string summary(const std::vector<Finding>& findings) {
  const auto count = [&](Finding::Verdict verdict) { return std::ranges::count(findings, verdict, &Finding::verdict); };
  const auto fails = count(Finding::fails);
  const auto warnings = count(Finding::warning);
  std::string text =
      fails == 0 ? "can be made" : fmt::format("{} {}", fails, fails == 1 ? "check fails" : "checks fail");
  if (warnings > 0)
    text += fmt::format(", {} {}", warnings, warnings == 1 ? "warning" : "warnings");
  return text;
}

Json value_of(const design::Design& design, const fit::Change& change) {
  if (const auto* text = std::get_if<std::string>(&change.value))
    return *text;
  const double value = std::get<double>(change.value);
  if (change.of == fit::Change::height)
    return rounded(value / design.units_to_mm);
  return static_cast<int>(value);
}

Json tried_list(const design::Design& design, const std::vector<fit::Change>& tried) {
  Json list = Json::array();
  for (const fit::Change& change : tried)
    list.push_back({{"where", change.where}, {"value", value_of(design, change)}, {"sentence", change.sentence}});
  return list;
}

Json finding_json(const design::Design& design, const Finding& finding) {
  Json told = {{"id", finding.id},
               {"verdict", word(finding.verdict)},
               {"value", rounded(finding.value)},
               {"unit", finding.unit},
               {"limit", finding.limit ? Json(rounded(*finding.limit)) : Json(nullptr)},
               {"limit_source", finding.limit_source},
               {"sentence", finding.sentence},
               {"remedy", finding.remedy},
               {"where", finding.where}};
  if (!finding.tried.empty())
    told["tried"] = tried_list(design, finding.tried);
  return told;
}

} // namespace

std::string tried_json(const design::Design& design, const std::vector<fit::Change>& tried) {
  return tried_list(design, tried).dump();
}

std::string check_json(const design::Design& design, const std::vector<CheckedSize>& sizes) {
  Json list = Json::array();
  for (const auto& [name, findings] : sizes) {
    Json told = Json::array();
    for (const Finding& finding : findings)
      told.push_back(finding_json(design, finding));
    list.push_back({{"name", name}, {"verdict", word(fit::worst(findings))}, {"findings", std::move(told)}});
  }
  return Json{{"title", design.title}, {"sizes", std::move(list)}}.dump(1) + "\n";
}

std::string check_table(const std::string& title, const std::vector<CheckedSize>& sizes, bool brief) {
  std::string table = title + "\n";
  for (const auto& [name, findings] : sizes) {
    table += fmt::format("\n{}: {}\n", name, summary(findings));
    for (const Finding& finding : findings)
      if (!brief || finding.verdict >= Finding::warning)
        table += "\n" + lines_of(finding);
  }
  return table;
}

} // namespace fanwright::cli
