#include "cli/paper_entry.h"

#include "cli/json_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

namespace fanwright::cli {
namespace {

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
