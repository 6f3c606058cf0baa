#include "cli/paper_entry.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

namespace fanwright::cli {
namespace {

constexpr std::string_view blanks = " \t\r\n";

/// A member of an object in the text of a file: places of its key, its value and the value's end.
struct Member {
  std::string key;
  std::size_t key_at, value_at, end;
};

std::size_t end_of_string(std::string_view text, std::size_t at) {
  for (++at; text[at] != '"'; ++at)
    if (text[at] == '\\')
      ++at;
  return at + 1;
}

/// One past the value that begins at `at`. The text is known to be JSON, here and below.
std::size_t end_of_value(std::string_view text, std::size_t at) {
  if (text[at] == '"')
    return end_of_string(text, at);
  if (text[at] != '{' && text[at] != '[')
    return text.find_first_of(",]} \t\r\n", at);
  int depth = 0;
  do {
    if (text[at] == '"') {
      at = end_of_string(text, at);
      continue;
    }
    depth += text[at] == '{' || text[at] == '[' ? 1 : text[at] == '}' || text[at] == ']' ? -1 : 0;
    ++at;
  } while (depth > 0);
  return at;
}

std::vector<Member> members_of(std::string_view text, std::size_t object_at) {
  std::vector<Member> members;
  std::size_t at = text.find_first_not_of(blanks, object_at + 1);
  while (text[at] != '}') {
    const std::size_t key_end = end_of_string(text, at);
    const std::size_t value_at = text.find_first_not_of(blanks, text.find(':', key_end) + 1);
    const std::size_t end = end_of_value(text, value_at);
    // A key may be written with escapes.
    members.push_back({nlohmann::json::parse(text.substr(at, key_end - at)).get<std::string>(), at, value_at, end});
    at = text.find_first_not_of(blanks, end);
    if (text[at] == ',')
      at = text.find_first_not_of(blanks, at + 1);
  }
  return members;
}

const Member* member(const std::vector<Member>& members, std::string_view key) {
  const auto found = std::ranges::find(members, key, &Member::key);
  return found == members.end() ? nullptr : &*found;
}

/// Where the object begins that the pointer "" or "/sizes/<index>" names.
std::size_t object_at(std::string_view text, const std::string& pointer) {
  const std::size_t top = text.find('{');
  if (pointer.empty())
    return top;
  const auto members = members_of(text, top);
  std::size_t at = text.find_first_not_of(blanks, member(members, "sizes")->value_at + 1);
  for (long index = std::strtol(pointer.c_str() + std::string_view("/sizes/").size(), nullptr, 10); index > 0;
       --index) {
    at = text.find(',', end_of_value(text, at));
    at = text.find_first_not_of(blanks, at + 1);
  }
  return at;
}

/// What an older entry says that measuring does not replace.
std::string kept_of(std::string_view text, std::size_t paper_at) {
  static constexpr std::array<std::string_view, 3> kept{"poisson", "grain", "colour"};
  std::string more;
  for (const Member& old : members_of(text, paper_at))
    if (std::ranges::find(kept, old.key) != kept.end())
      more += fmt::format(", \"{}\": {}", old.key, text.substr(old.value_at, old.end - old.value_at));
  return more;
}

std::string spliced(std::string_view text, std::size_t object, const PaperEntry& entry, double units_to_mm) {
  const auto members = members_of(text, object);
  std::string changed(text);
  if (const Member* old = member(members, "paper"))
    return changed.replace(old->value_at, old->end - old->value_at,
                           paper_text(entry, units_to_mm, kept_of(text, old->value_at)));
  const Member* before = member(members, "rows");
  if (!before)
    before = member(members, "silhouette");
  if (!before)
    before = &members.back(); // a size has a name at least
  const std::size_t blank_at = text.find_last_not_of(blanks, before->key_at - 1) + 1;
  return changed.insert(before->end, fmt::format(",{}\"paper\": {}", text.substr(blank_at, before->key_at - blank_at),
                                                 paper_text(entry, units_to_mm)));
}

} // namespace

std::string paper_text(const PaperEntry& entry, double units_to_mm, std::string_view more) {
  const std::string caliper =
      entry.caliper_mm ? fmt::format(", \"caliper\": {:.4g}", *entry.caliper_mm / units_to_mm) : "";
  return fmt::format(R"({{ "grammage": {:.4g}{}, "stiffness": {{ "along": {:.4g}, "across": {:.4g} }}{} }})",
                     entry.grammage_gsm, caliper, entry.along_mnm, entry.across_mnm, more);
}

bool can_be_paper(const PaperEntry& entry) {
  const auto parsed =
      design::parse(fmt::format(R"({{"fanwright": 1, "silhouette": {{"shows": "flat", "path": "M 0 0 H 40 V 120 H 0"}},
                                    "paper": {}}})",
                                paper_text(entry, 1)));
  return std::holds_alternative<design::Design>(parsed);
}

std::variant<std::string, design::Refusal> with_paper(std::string_view text, const design::Design& design,
                                                      const std::string& size, const PaperEntry& entry) {
  std::string pointer;
  if (!size.empty()) {
    const auto found = std::ranges::find(design.sizes, size, &design::Size::name);
    if (found == design.sizes.end()) {
      std::string names;
      for (const auto& one : design.sizes)
        names += (names.empty() ? "\"" : ", \"") + one.name + "\"";
      return design::Refusal{"", "There is no size \"" + size + "\"; the file has " + names + "."};
    }
    pointer = found->where;
  }
  std::string changed = spliced(text, object_at(text, pointer), entry, design.units_to_mm);
  const auto parsed = design::parse(changed);
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed))
    return *refusal;
  return changed;
}

} // namespace fanwright::cli
