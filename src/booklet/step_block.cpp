#include "booklet/step_block.h"

#include "drawing/words.h"

#include <algorithm>

namespace fanwright::booklet {

namespace {

constexpr double title_indent_mm = 9, figure_gap_mm = 6, paragraph_gap_mm = 1.9, tag_gap_mm = 3.2;
constexpr double beside_mm = 92;      ///< a figure up to this wide has its text beside it
constexpr double figure_share = 0.80; ///< of its usual height, on A4: three steps to a page

/// Figures are lower on lower pages.
double figure_height_mm(const Look& look, const Box& box) {
  constexpr double a4_depth_mm = 258;
  return box.height_mm * figure_share * look.depth_mm() / a4_depth_mm;
}

/// What one part's tags say: "2, 4" and "leaves in the packet".
struct TagWords {
  std::string tags, name;
};

std::vector<TagWords> tag_words(const Edition& edition, const std::vector<Callout>& callouts) {
  std::vector<std::pair<Part, std::string>> joined;
  for (const Callout& callout : callouts) {
    const auto known =
        std::find_if(joined.begin(), joined.end(), [&](const auto& entry) { return entry.first == callout.part; });
    if (known == joined.end())
      joined.emplace_back(callout.part, callout.tag);
    else
      known->second += ", " + callout.tag;
  }
  std::vector<TagWords> words;
  words.reserve(joined.size());
  for (const auto& [part, tags] : joined)
    words.push_back({tags, edition.say(name_of_part(part))});
  return words;
}

/// Puts the names of the tags in lines under the figure and gives their height.
double put_tags(Block& block, const Edition& edition, const std::vector<Callout>& callouts, double x_mm, double y_mm,
                double width_mm) {
  constexpr Type tag_type{small_type.size_mm, small_type.line_mm, true};
  double x = 0, y = 0;
  for (const TagWords& entry : tag_words(edition, callouts)) {
    const double tag = drawing::words_width_mm(entry.tags, tag_type.size_mm, true) + 1.2;
    const double whole = tag + drawing::words_width_mm(entry.name, small_type.size_mm);
    if (x > 0 && x + whole > width_mm) {
      x = 0;
      y += small_type.line_mm;
    }
    put_words(block, entry.tags, x_mm + x, y_mm + y, width_mm, tag_type, edition.look.accent);
    put_words(block, entry.name, x_mm + x + tag, y_mm + y, width_mm - tag, small_type, edition.look.thin_ink);
    x += whole + tag_gap_mm;
  }
  return callouts.empty() ? 0 : y + small_type.line_mm;
}

/// A rule parts it from the step before.
double put_title(Block& block, const Edition& edition, int number, const std::string& title) {
  const Look& look = edition.look;
  if (number > 1)
    block.items.emplace_back(rule(0, 0, look.column_mm(), 0.25, look.accent));
  put_words(block, std::to_string(number), 0, 1.6, title_indent_mm, step_type, look.accent);
  return 1.6 + put_words(block, title, title_indent_mm, 1.6, look.column_mm() - title_indent_mm, step_type, look.ink);
}

/// Paragraphs under each other; at least one.
double put_paragraphs(Block& block, const Look& look, const std::vector<std::string>& paragraphs, double x_mm,
                      double y_mm, double width_mm) {
  double y = y_mm;
  for (const std::string& words : paragraphs)
    y += put_words(block, words, x_mm, y, width_mm, body_type, look.ink) + paragraph_gap_mm;
  return y - y_mm - paragraph_gap_mm;
}

/// Paragraphs in two columns, the first half of them on the left.
double put_in_two_columns(Block& block, const Look& look, const std::vector<std::string>& paragraphs, double y_mm) {
  if (paragraphs.size() < 2)
    return put_paragraphs(block, look, paragraphs, 0, y_mm, look.column_mm());
  const auto middle = paragraphs.begin() + static_cast<std::ptrdiff_t>((paragraphs.size() + 1) / 2);
  const double width = (look.column_mm() - figure_gap_mm) / 2;
  return std::max(put_paragraphs(block, look, {paragraphs.begin(), middle}, 0, y_mm, width),
                  put_paragraphs(block, look, {middle, paragraphs.end()}, width + figure_gap_mm, y_mm, width));
}

void put_figure(Block& block, const Sketch& figure, double x_mm, double y_mm) {
  for (const drawing::Item& item : figure.items)
    block.items.push_back(moved(item, x_mm, y_mm));
}

} // namespace

Message name_of_part(Part part) {
  static_assert(static_cast<int>(Message::part_sun) - static_cast<int>(Message::part_sheet) ==
                static_cast<int>(Part::sun) - static_cast<int>(Part::sheet));
  return static_cast<Message>(static_cast<int>(Message::part_sheet) + static_cast<int>(part) -
                              static_cast<int>(Part::sheet));
}

Block figure_block(const Edition& edition, Scene scene, double height_mm) {
  const double column = edition.look.column_mm();
  const double width = std::min(usual_box(scene).width_mm, column);
  const Sketch figure = sketch(scene, edition.contents.figures, width, height_mm);
  Block block;
  block.before_mm = 4;
  put_figure(block, figure, (column - width) / 2, 0);
  block.height_mm = height_mm + 1.2;
  block.height_mm += put_tags(block, edition, figure.callouts, 0, block.height_mm, column);
  return block;
}

Block step_block(const Edition& edition, int number, const StepWords& step) {
  const Look& look = edition.look;
  Block block;
  block.before_mm = number > 1 ? 6 : 2;
  const double top = put_title(block, edition, number, step.title) + 1.6;
  if (!step.scene) {
    block.height_mm = top + put_in_two_columns(block, look, step.paragraphs, top);
    return block;
  }
  const Box box = usual_box(*step.scene);
  const double width = std::min(box.width_mm, look.column_mm());
  const double height = figure_height_mm(look, box);
  const Sketch figure = sketch(*step.scene, edition.contents.figures, width, height);
  const bool beside = width <= beside_mm;
  put_figure(block, figure, beside ? 0 : (look.column_mm() - width) / 2, top);
  double bottom = top + height + 1.2;
  bottom += put_tags(block, edition, figure.callouts, 0, bottom, beside ? width : look.column_mm());
  if (beside) {
    const double left = width + figure_gap_mm;
    block.height_mm =
        std::max(bottom, top + put_paragraphs(block, look, step.paragraphs, left, top, look.column_mm() - left));
  } else {
    bottom += 2;
    block.height_mm = bottom + put_in_two_columns(block, look, step.paragraphs, bottom);
  }
  return block;
}

} // namespace fanwright::booklet
