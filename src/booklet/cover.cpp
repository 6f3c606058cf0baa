#include "booklet/edition.h"
#include "drawing/words.h"

#include <algorithm>

namespace fanwright::booklet {

namespace {

constexpr double largest_title_mm = 17, least_title_mm = 5;
constexpr Type kind_type{4.0, 5.6, false};
constexpr Type facts_type{3.8, 5.8, false};

/// The largest type in which the title takes at most two lines.
Type title_type(const std::string& title, double width_mm) {
  double size = largest_title_mm;
  while (size > least_title_mm && drawing::broken_into_lines(title, width_mm, size, true).size() > 2)
    size -= 0.5;
  return {size, size * 1.15, true};
}

std::string size_names(const Edition& edition) {
  std::string names;
  for (const SizeFacts& facts : edition.contents.sizes)
    names += (names.empty() ? "" : ", ") + facts.size->name;
  return names;
}

std::vector<std::string> facts_under_picture(const Edition& edition) {
  const design::Publishing& publishing = edition.design().publishing;
  std::vector<std::string> lines;
  const int count = static_cast<int>(edition.contents.sizes.size());
  lines.push_back(edition.say(Message::cover_sizes, {{"count", count}, {"names", size_names(edition)}}));
  if (!publishing.maker.empty())
    lines.push_back(edition.say(Message::cover_maker, {{"maker", publishing.maker}}));
  if (!publishing.version.empty())
    lines.push_back(edition.say(Message::cover_version, {{"version", publishing.version}}));
  return lines;
}

/// The picture as large as the room allows, in its middle.
drawing::Image fitted(drawing::Image image, double y_mm, double width_mm, double height_mm) {
  const double scale = std::min(width_mm / image.width_px, height_mm / image.height_px);
  image.width_mm = image.width_px * scale;
  image.height_mm = image.height_px * scale;
  image.corner = {(width_mm - image.width_mm) / 2, y_mm + (height_mm - image.height_mm) / 2};
  return image;
}

} // namespace

drawing::Page cover_page(const Edition& edition) {
  const Look& look = edition.look;
  const double width = look.column_mm(), depth = look.height_mm - 2 * look.margin_mm;
  Block block;
  block.items.emplace_back(rule(0, 0.6, width, 1.2, look.accent));
  double y = 6;
  y += put_words(block, edition.design().title, 0, y, width, title_type(edition.design().title, width), look.accent);
  y += 1 + put_words(block, edition.say(Message::cover_kind), 0, y + 1, width, kind_type, look.ink);
  y += 7;
  double facts_height = 0;
  const std::vector<std::string> facts = facts_under_picture(edition);
  for (const std::string& line : facts)
    facts_height += height_of_words(line, width, facts_type);
  const drawing::Image& cover = edition.contents.cover;
  const double room = depth - y - facts_height - 10;
  if (cover.rgb != nullptr && cover.width_px > 0 && cover.height_px > 0 && room > 0)
    block.items.emplace_back(fitted(cover, y, width, room));
  y = depth - facts_height - 3;
  for (const std::string& line : facts)
    y += put_words(block, line, 0, y, width, facts_type, look.ink);
  block.items.emplace_back(rule(0, depth - 0.6, width, 1.2, look.accent));
  drawing::Page page{look.width_mm, look.height_mm, {}};
  for (const drawing::Item& item : block.items)
    page.items.push_back(moved(item, look.margin_mm, look.margin_mm));
  return page;
}

} // namespace fanwright::booklet
