// Contents of a booklet for an example of the Orchard collection, without the slow parts: figures are drawn from the
// silhouette, and the opened form holds measures alone.
#pragma once

#include "booklet/booklet.h"
#include "leaf/contour.h"

#include <fstream>
#include <memory>
#include <sstream>
#include <string>

namespace fanwright::booklet {

struct Told {
  design::Design design;
  std::vector<leaf::Leaf> leaves;
  std::vector<leaf::Marks> marks;
  std::vector<std::vector<fan::SizedFan>> fans;
  opened::Form form;
  Contents contents;
};

inline design::Design example(const std::string& name) {
  std::ifstream file(FANWRIGHT_SOURCE_DIR "/examples/orchard/" + name + ".ornament.json");
  std::ostringstream text;
  text << file.rdbuf();
  return std::get<design::Design>(design::parse(text.str()));
}

inline drawing::Image small_cover() {
  drawing::Image cover;
  cover.width_px = cover.height_px = 4;
  cover.rgb = std::make_shared<const std::vector<std::uint8_t>>(48, std::uint8_t{200});
  return cover;
}

inline SizeFacts facts_of(const design::Design& design, const design::Size& size, const Told& told, std::size_t index) {
  const leaf::Box box = leaf::bounds(told.marks[index].cut);
  SizeFacts facts;
  facts.size = &size;
  facts.leaf = &told.leaves[index];
  facts.marks = &told.marks[index];
  facts.form = &told.form;
  facts.fans = &told.fans[index];
  facts.flat_width_mm = box.width();
  facts.flat_height_mm = box.height();
  facts.sheets = size.leaves;
  facts.height_spread_mm = 1.5;
  facts.diameter_spread_mm = 0.8;
  facts.materials = making::materials(told.leaves[index], size, design.making, facts.sheets);
  design::Making one = design.making;
  one.pieces = 1;
  facts.one_piece = making::schedule(size, one);
  facts.batch = making::schedule(size, design.making);
  if (const auto cost = making::cost(facts.materials, facts.one_piece.hands_on_min, design.prices);
      design.prices.hour > 0)
    facts.cost = std::get<making::Cost>(cost);
  return facts;
}

/// On the heap: the contents point into it.
inline std::unique_ptr<Told> told(design::Design design) {
  auto all = std::make_unique<Told>();
  all->design = std::move(design);
  for (const design::Size& size : all->design.sizes) {
    all->leaves.push_back(std::get<leaf::Leaf>(leaf::build(all->design, size)));
    all->marks.push_back(leaf::marks(all->leaves.back()));
    all->fans.push_back(std::get<std::vector<fan::SizedFan>>(fan::fans_of(all->design, size)));
  }
  all->form.height_mm = 123.4;
  all->form.diameter_mm = 87.6;
  all->contents.design = &all->design;
  for (std::size_t i = 0; i < all->design.sizes.size(); ++i)
    all->contents.sizes.push_back(facts_of(all->design, all->design.sizes[i], *all, i));
  all->contents.figures.design = &all->design;
  all->contents.figures.size = &all->design.sizes.back();
  all->contents.figures.leaf = &all->leaves.back();
  all->contents.figures.fan = all->fans.back().empty() ? nullptr : &all->fans.back().front();
  all->contents.cover = small_cover();
  all->contents.files = {{FileKind::booklet, "booklet-en-a4.pdf"}, {FileKind::stencil, "*/stencil.pdf"}};
  return all;
}

/// All words of a page in the order they are set, a line each.
inline std::string words_of(const drawing::Page& page) {
  std::string words;
  for (const drawing::Item& item : page.items)
    if (const auto* text = std::get_if<drawing::Text>(&item))
      words += text->words + "\n";
  return words;
}

inline std::string words_of(const std::vector<drawing::Page>& pages) {
  std::string words;
  for (const drawing::Page& page : pages)
    words += words_of(page);
  return words;
}

} // namespace fanwright::booklet
