#include "cli/changed_design.h"

#include "cli/json_text.h"
#include "paper/paper.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <utility>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;
using design::Refusal;

constexpr double inch_mm = 25.4;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale;
}

/// Whole numbers without a point.
Json plain(double value) { return value == std::round(value) ? Json(static_cast<long long>(value)) : Json(value); }

/// A length in the file's unit: to 0.01 mm or 0.0005 in.
Json length(const Json& file, double mm) {
  const bool inches = file.value("units", "mm") == "in";
  return plain(inches ? rounded(mm / inch_mm, 4) : rounded(mm, 2));
}

/// The text read again, so that nothing is written that could not be read.
std::variant<std::string, Refusal> sound(std::string text) {
  auto parsed = design::parse(text);
  if (auto* refusal = std::get_if<Refusal>(&parsed)) {
    return std::move(*refusal);
  }
  return text;
}

/// The member of the object at `object` gets this value, or is added after `before`.
std::string spliced(std::string text, std::size_t object, std::string_view key, const std::string& value,
                    std::string_view before) {
  const auto members = members_of(text, object);
  if (const Member* old = member(members, key)) {
    return text.replace(old->value_at, old->end - old->value_at, value);
  }
  const Member* after = member(members, before);
  const Member& place = after != nullptr ? *after : members.back();
  const std::size_t blank_at = text.find_last_not_of(blanks, place.key_at - 1) + 1;
  const std::string blank = text.substr(blank_at, place.key_at - blank_at);
  return text.insert(place.end, "," + blank + "\"" + std::string(key) + "\": " + value);
}

/// What a size has that gives nothing of its own.
design::Size shared_by_sizes(Json file) {
  file.erase("sizes");
  auto parsed = design::parse(file.dump());
  const auto* design = std::get_if<design::Design>(&parsed);
  return design != nullptr ? design->sizes.front() : design::Size{};
}

Json even_rows(const Json& file, const design::EvenRows& rows) {
  return {{"count", rows.count},
          {"first", rows.first == design::Side::inside ? "inside" : "between"},
          {"width", length(file, rows.width_mm)},
          {"spine_gap", length(file, rows.spine_gap_mm)},
          {"edge_gap", length(file, rows.edge_gap_mm)}};
}

Json listed_rows(const Json& file, const std::vector<design::ListedRow>& rows) {
  Json list = Json::array();
  for (const design::ListedRow& row : rows) {
    list.push_back({{"side", row.side == design::Side::inside ? "inside" : "between"},
                    {"from", {length(file, row.from_x_mm), length(file, row.from_z_mm)}},
                    {"to", {length(file, row.to_x_mm), length(file, row.to_z_mm)}},
                    {"width", length(file, row.width_mm)}});
  }
  return list;
}

Json auto_rows(const Json& file, const design::AutoRows& wish) {
  Json rows = {{"count", "auto"}};
  rows["look"] = wish.look == design::Look::open ? "open" : wish.look == design::Look::dense ? "dense" : "usual";
  rows["first"] = wish.first == design::Side::inside ? "inside" : "between";
  const auto add = [&](const char* key, const std::optional<double>& mm) {
    if (mm) {
      rows[key] = length(file, *mm);
    }
  };
  add("width", wish.width_mm);
  add("spine_gap", wish.spine_gap_mm);
  add("edge_gap", wish.edge_gap_mm);
  return rows;
}

bool same(const design::AutoRows& wish, const design::Size& shared) {
  const auto* other = std::get_if<design::AutoRows>(&shared.rows);
  return other != nullptr && other->look == wish.look && other->first == wish.first &&
         other->width_mm == wish.width_mm && other->spine_gap_mm == wish.spine_gap_mm &&
         other->edge_gap_mm == wish.edge_gap_mm;
}

/// Grammage alone where the paper is typical of it; caliper and moduli where the maker's own paper is carried on.
Json paper_entry(const Json& file, const paper::Paper& paper) {
  const paper::Paper typical = paper::typical_paper(paper.grammage_gsm);
  Json entry = {{"grammage", plain(rounded(paper.grammage_gsm, 1))}};
  constexpr double near = 1e-6;
  if (std::abs(paper.caliper_mm / typical.caliper_mm - 1) > near) {
    const bool inches = file.value("units", "mm") == "in";
    entry["caliper"] = inches ? rounded(paper.caliper_mm / inch_mm, 5) : rounded(paper.caliper_mm, 4);
  }
  if (std::abs(paper.modulus_along_mpa / typical.modulus_along_mpa - 1) > near ||
      std::abs(paper.modulus_across_mpa / typical.modulus_across_mpa - 1) > near) {
    entry["modulus"] = {{"along", plain(rounded(paper.modulus_along_mpa, 0))},
                        {"across", plain(rounded(paper.modulus_across_mpa, 0))}};
  }
  if (paper.poisson != typical.poisson) {
    entry["poisson"] = paper.poisson;
  }
  return entry;
}

bool same(const paper::Paper& a, const paper::Paper& b) {
  return a.grammage_gsm == b.grammage_gsm && a.caliper_mm == b.caliper_mm &&
         a.modulus_along_mpa == b.modulus_along_mpa && a.modulus_across_mpa == b.modulus_across_mpa &&
         a.poisson == b.poisson;
}

Json sheet_entry(const Json& file, const design::Sheet& sheet) {
  Json entry = Json::object();
  if (sheet.name == "custom") {
    entry["size"] = {{"width", length(file, sheet.size.width_mm)}, {"height", length(file, sheet.size.height_mm)}};
  } else {
    entry["size"] = sheet.name;
  }
  entry["margin"] = length(file, sheet.margin_mm);
  entry["gap"] = length(file, sheet.gap_mm);
  return entry;
}

Json size_entry(const Json& file, const design::Size& size, const design::Size& shared) {
  Json entry = {{"name", size.name}};
  if (size.height_mm) {
    entry["height"] = length(file, *size.height_mm);
  }
  entry["leaves"] = size.leaves;
  if (size.opening_deg != shared.opening_deg) {
    entry["opening"] = size.opening_deg;
  }
  if (const auto* even = std::get_if<design::EvenRows>(&size.rows)) {
    entry["rows"] = even_rows(file, *even);
  } else if (const auto* listed = std::get_if<std::vector<design::ListedRow>>(&size.rows)) {
    entry["rows"] = listed_rows(file, *listed);
  } else if (const auto* wish = std::get_if<design::AutoRows>(&size.rows); wish != nullptr && !same(*wish, shared)) {
    entry["rows"] = auto_rows(file, *wish);
  }
  if (!same(size.paper, shared.paper)) {
    entry["paper"] = paper_entry(file, size.paper);
  }
  if (size.sheet.name != shared.sheet.name) {
    entry["sheet"] = sheet_entry(file, size.sheet);
  }
  return entry;
}

/// On one line, with blanks where a person puts them.
std::string on_one_line(const Json& value) {
  std::string line;
  bool blank = false;
  // Line feeds stand between values only; in texts they are escaped.
  for (const char c : value.dump(1)) {
    blank = c == '\n' || (blank && c == ' ');
    if (c == '\n') {
      line += ' ';
    } else if (!blank) {
      line += c;
    }
  }
  return line;
}

Json entries(const Json& file, const std::vector<design::Size>& sizes) {
  const design::Size shared = shared_by_sizes(file);
  Json list = Json::array();
  for (const design::Size& size : sizes) {
    list.push_back(size_entry(file, size, shared));
  }
  return list;
}

} // namespace

std::variant<std::string, Refusal> with_height(const std::string& text, const design::Size& size, double height_mm) {
  const std::string height = length(Json::parse(text), height_mm).dump();
  if (size.where.empty()) {
    const Json list = Json::array({{{"name", size.name}, {"height", length(Json::parse(text), height_mm)}}});
    return sound(spliced(text, object_at(text, ""), "sizes", on_one_line(list), "silhouette"));
  }
  return sound(spliced(text, object_at(text, size.where), "height", height, "name"));
}

std::string sizes_text(const std::string& text, const std::vector<design::Size>& sizes) {
  const Json list = entries(Json::parse(text), sizes);
  std::string lines = "[\n";
  for (std::size_t k = 0; k < list.size(); ++k) {
    lines += "    " + on_one_line(list[k]) + (k + 1 < list.size() ? ",\n" : "\n");
  }
  return lines + "  ]";
}

std::variant<std::string, Refusal> with_sizes(const std::string& text, const std::vector<design::Size>& sizes) {
  return sound(spliced(text, object_at(text, ""), "sizes", sizes_text(text, sizes), "silhouette"));
}

} // namespace fanwright::cli
