#include "studio/starters.h"

#include "design/design.h"
#include "leaf/leaf.h"
#include "leaf/silhouette.h"
#include "studio/json.h"

namespace fanwright::studio {
namespace {

constexpr double shown_chord_mm = 0.5; ///< outlines in the gallery are small

std::string without_maker(std::string_view text) {
  Json json = Json::parse(text);
  json.erase("prices");
  json.erase("publishing");
  return json.dump(2) + "\n";
}

told::Starter starter_of(const StarterFile& file) {
  told::Starter starter{std::string(file.id), {}, without_maker(file.text), {}};
  const auto design = std::get<design::Design>(design::parse(starter.text));
  const auto cut = std::get<leaf::Silhouette>(leaf::silhouette(design, design.sizes.back()));
  starter.title = design.title;
  starter.outline = leaf::flatten(cut.outline, shown_chord_mm);
  return starter;
}

} // namespace

const std::vector<told::Starter>& starters() {
  static const std::vector<told::Starter> all = [] {
    std::vector<told::Starter> list;
    for (const StarterFile& file : starter_files())
      list.push_back(starter_of(file));
    return list;
  }();
  return all;
}

std::string blank_design() {
  const Json json = {{"fanwright", 1},
                     {"title", "New ornament"},
                     {"units", "mm"},
                     {"silhouette", {{"path", ""}, {"shows", "opened"}}},
                     {"leaves", 46},
                     {"opening", 360},
                     {"rows", "auto"},
                     {"paper", {{"grammage", 120}, {"grain", "along spine"}}},
                     {"sheet", {{"size", "A4"}, {"margin", 6}, {"gap", 2}}}};
  return json.dump(2) + "\n";
}

} // namespace fanwright::studio
