#include "booklet/edition.h"

#include <algorithm>

namespace fanwright::booklet {

std::string sheet_words(const Edition& edition, const design::Sheet& sheet) {
  if (sheet.name != "custom")
    return sheet.name;
  return edition.say(Message::custom_sheet, {{"width", edition.language.number(sheet.size.width_mm)},
                                             {"height", edition.language.measure(sheet.size.height_mm, 0, "mm")}});
}

std::string for_each_size(const Edition& edition, const std::function<std::string(const SizeFacts&)>& words) {
  constexpr std::size_t most_named = 4;
  const std::vector<SizeFacts>& sizes = edition.contents.sizes;
  std::string first = words(sizes.front());
  if (std::all_of(sizes.begin(), sizes.end(), [&](const SizeFacts& facts) { return words(facts) == first; }))
    return first;
  if (sizes.size() > most_named)
    return edition.say(Message::see_sizes);
  std::string list;
  for (const SizeFacts& facts : sizes)
    list += (list.empty() ? "" : ", ") +
            edition.say(Message::of_size, {{"value", words(facts)}, {"size", facts.size->name}});
  return list;
}

std::string grams(const Edition& edition, double mass_g) {
  constexpr double fine_g = 9.95;
  return edition.language.measure(mass_g, mass_g < fine_g ? 1 : 0, "g");
}

Message grain_of(const paper::Paper& paper) {
  return paper.grain == paper::Grain::along_spine ? Message::grain_along_spine : Message::grain_across_spine;
}

int rows_on(const leaf::Leaf& leaf, design::Side side) {
  return static_cast<int>(
      std::count_if(leaf.rows.begin(), leaf.rows.end(), [side](const leaf::GlueRow& row) { return row.side == side; }));
}

} // namespace fanwright::booklet
