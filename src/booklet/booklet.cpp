#include "booklet/booklet.h"

#include "booklet/edition.h"
#include "booklet/flow.h"

#include <cassert>

namespace fanwright::booklet {

namespace {

Edition edition_of(const Contents& contents, PageSize page, std::string_view language) {
  assert(contents.design != nullptr && !contents.sizes.empty());
  return {contents, Language::of(language), look_of(page, contents.design->colour)};
}

/// Feet for all pages; the first of them is page `first_number`.
void finish(std::vector<drawing::Page>& pages, const Edition& edition, int first_number, const std::string& title) {
  const int last = first_number + static_cast<int>(pages.size()) - 1;
  add_feet(pages,
           {title,
            [&](int index) {
              return edition.say(Message::page_number, {{"page", first_number + index}, {"pages", last}});
            }},
           edition.look);
}

/// "Pear, version 2".
std::string foot_title(const Edition& edition) {
  const design::Design& design = edition.design();
  return design.publishing.version.empty()
             ? design.title
             : edition.say(Message::title_and_version,
                           {{"title", design.title}, {"version", design.publishing.version}});
}

} // namespace

std::vector<drawing::Page> pages(const Contents& contents, PageSize page, std::string_view language) {
  const Edition edition = edition_of(contents, page, language);
  Blocks blocks;
  for (const auto& part : {idea_blocks, size_blocks, needs_blocks, caution_blocks, step_blocks, round_blocks,
                           time_blocks, file_blocks, licence_blocks})
    append(blocks, part(edition));
  std::vector<drawing::Page> list = set_on_pages(blocks, edition.look);
  finish(list, edition, 2, foot_title(edition));
  list.insert(list.begin(), cover_page(edition));
  return list;
}

std::vector<drawing::Page> maker_pages(const Contents& contents, PageSize page, std::string_view language) {
  const Edition edition = edition_of(contents, page, language);
  const std::string title = edition.say(Message::heading_for_maker);
  Blocks blocks = {section_heading(edition.look, edition.design().title + ": " + title)};
  append(blocks, paragraph(edition.look, edition.say(Message::for_maker_note)));
  append(blocks, batch_blocks(edition));
  append(blocks, cost_blocks(edition));
  std::vector<drawing::Page> list = set_on_pages(blocks, edition.look);
  finish(list, edition, 1, foot_title(edition) + ", " + title);
  return list;
}

} // namespace fanwright::booklet
