// A small design that passes every check, and what the checks say of it once changed.
#pragma once

#include "fit/check.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <string>
#include <vector>

namespace fanwright::fit {

using nlohmann::json;

/// A barrel with an arched foot: light paper in a light colour, all of it easy.
inline json barrel() {
  return json::parse(R"({
    "fanwright": 1, "title": "Barrel", "colour": "#e8d9a0",
    "silhouette": { "path": "M 0 2 L 34 0 C 42 16 42 44 34 60 L 0 60", "shows": "flat" },
    "leaves": 32, "rows": { "count": 5, "width": 3, "spine_gap": 3, "edge_gap": 3 },
    "paper": { "grammage": 110 }, "making": { "bead": 0.5 } })");
}

inline json changed(const std::string& patch) {
  json design = barrel();
  design.merge_patch(json::parse(patch));
  return design;
}

inline design::Design parsed(const json& file) {
  auto design = design::parse(file.dump());
  if (const auto* refusal = std::get_if<design::Refusal>(&design)) {
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
    return {};
  }
  return std::get<design::Design>(std::move(design));
}

inline std::vector<Finding> checked(const json& file) {
  const design::Design design = parsed(file);
  if (design.sizes.empty())
    return {};
  if (design.shows == design::Shows::opened) {
    auto findings = check(design, design.sizes[0]);
    return std::holds_alternative<Failure>(findings) ? std::vector<Finding>{}
                                                     : std::get<std::vector<Finding>>(std::move(findings));
  }
  const auto leaf = leaf::build(design, design.sizes[0]);
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf)) {
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
    return {};
  }
  opened::Options coarse; // these leaves are small: the measures move by a few per cent
  coarse.cells_per_gap = 5;
  coarse.cell_mm = 4;
  const auto form = opened::open(opened::panel_of(std::get<leaf::Leaf>(leaf), design.sizes[0]), coarse);
  if (const auto* failure = std::get_if<opened::Failure>(&form)) {
    ADD_FAILURE() << failure->sentence;
    return {};
  }
  return check(design, design.sizes[0], std::get<leaf::Leaf>(leaf), std::get<opened::Form>(form));
}

inline std::string told(const std::vector<Finding>& findings) {
  std::string text;
  for (const Finding& finding : findings)
    text += std::to_string(finding.verdict) + " " + finding.id + " " + std::to_string(finding.value) + ": " +
            finding.sentence + " | " + finding.remedy + "\n";
  return text;
}

inline const Finding& finding_of(const std::vector<Finding>& findings, const std::string& id) {
  static const Finding none;
  const auto found = std::ranges::find(findings, id, &Finding::id);
  if (found == findings.end()) {
    ADD_FAILURE() << "no finding " << id << "\n" << told(findings);
    return none;
  }
  return *found;
}

} // namespace fanwright::fit
