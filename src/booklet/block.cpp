#include "booklet/block.h"

#include "drawing/words.h"

#include <algorithm>
#include <iterator>

namespace fanwright::booklet {

namespace {

constexpr double ascent_share = 0.93;    ///< of the em square above the baseline, in the built-in font
constexpr double paragraph_gap_mm = 2.2; ///< before a paragraph
constexpr double bullet_indent_mm = 4.5;
constexpr double term_column_mm = 38;

/// Moves every point of a segment.
struct Shift {
  double x = 0, y = 0;
  void point(drawing::Point& p) const {
    p.x += x;
    p.y += y;
  }
  void operator()(drawing::Move& s) const { point(s.to); }
  void operator()(drawing::Line& s) const { point(s.to); }
  void operator()(drawing::Cubic& s) const {
    point(s.control1);
    point(s.control2);
    point(s.to);
  }
  void operator()(drawing::Arc& s) const { point(s.to); }
  void operator()(drawing::Close&) const {}
  void operator()(drawing::Path& path) const {
    for (drawing::Segment& segment : path.segments)
      std::visit(*this, segment);
  }
  void operator()(drawing::Text& text) const { point(text.baseline); }
  void operator()(drawing::Image& image) const { point(image.corner); }
};

/// First baseline under the top of a line's box.
double baseline_of(const Type& type) { return (type.line_mm - type.size_mm) / 2 + ascent_share * type.size_mm; }

void put_line(Block& block, std::string words, double x_mm, double y_mm, double width_mm, const Type& type,
              const drawing::Colour& colour, drawing::Align align) {
  const double share = align == drawing::Align::left ? 0.0 : align == drawing::Align::centre ? 0.5 : 1.0;
  drawing::Text text;
  text.step = drawing::Step::print;
  text.baseline = {x_mm + share * width_mm, y_mm + baseline_of(type)};
  text.size_mm = type.size_mm;
  text.words = std::move(words);
  text.align = align;
  text.bold = type.bold;
  text.colour = colour;
  block.items.emplace_back(std::move(text));
}

} // namespace

drawing::Item moved(drawing::Item item, double by_x_mm, double by_y_mm) {
  std::visit(Shift{by_x_mm, by_y_mm}, item);
  return item;
}

drawing::Path ground(double x_mm, double y_mm, double width_mm, double height_mm, const drawing::Colour& colour) {
  drawing::Path path = drawing::polyline(
      drawing::Step::print,
      {{x_mm, y_mm}, {x_mm + width_mm, y_mm}, {x_mm + width_mm, y_mm + height_mm}, {x_mm, y_mm + height_mm}}, true);
  path.pen = {0, {}, true, colour};
  return path;
}

drawing::Path rule(double x_mm, double y_mm, double width_mm, double thick_mm, const drawing::Colour& colour) {
  drawing::Path path = drawing::polyline(drawing::Step::print, {{x_mm, y_mm}, {x_mm + width_mm, y_mm}}, false);
  path.pen = {thick_mm, {}, false, colour};
  return path;
}

double put_words(Block& block, std::string_view words, double x_mm, double y_mm, double width_mm, const Type& type,
                 const drawing::Colour& colour, drawing::Align align) {
  double height = 0;
  for (std::string& line : drawing::broken_into_lines(words, width_mm, type.size_mm, type.bold)) {
    put_line(block, std::move(line), x_mm, y_mm + height, width_mm, type, colour, align);
    height += type.line_mm;
  }
  return height;
}

double height_of_words(std::string_view words, double width_mm, const Type& type) {
  return type.line_mm *
         static_cast<double>(drawing::broken_into_lines(words, width_mm, type.size_mm, type.bold).size());
}

Block section_heading(const Look& look, std::string_view words) {
  Block block;
  block.before_mm = 8;
  block.keeps_with_next = true;
  const double text = put_words(block, words, 0, 0, look.column_mm(), section_type, look.accent);
  block.items.emplace_back(rule(0, text + 1.2, look.column_mm(), 0.5, look.accent));
  block.height_mm = text + 2.2;
  return block;
}

Block small_heading(const Look& look, std::string_view words) {
  Block block;
  block.before_mm = 5;
  block.keeps_with_next = true;
  block.height_mm = put_words(block, words, 0, 0, look.column_mm(), step_type, look.accent);
  return block;
}

Blocks paragraph(const Look& look, std::string_view words, const Type& type) {
  const auto lines = drawing::broken_into_lines(words, look.column_mm(), type.size_mm, type.bold);
  Blocks blocks;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Block block;
    block.before_mm = i == 0 ? paragraph_gap_mm : 0;
    block.height_mm = type.line_mm;
    block.keeps_with_next = lines.size() > 1 && (i == 0 || i + 2 == lines.size());
    put_line(block, lines[i], 0, 0, look.column_mm(), type, look.ink, drawing::Align::left);
    blocks.push_back(std::move(block));
  }
  return blocks;
}

Block bullet(const Look& look, std::string_view words) {
  Block block;
  block.before_mm = 1.2;
  constexpr double dot_mm = 1.1;
  const double middle = body_type.line_mm / 2;
  block.items.emplace_back(ground(0.6, middle - dot_mm / 2 + 0.2, dot_mm, dot_mm, look.accent));
  block.height_mm =
      put_words(block, words, bullet_indent_mm, 0, look.column_mm() - bullet_indent_mm, body_type, look.ink);
  return block;
}

Block term(const Look& look, std::string_view name, std::string_view meaning) {
  Block block;
  block.before_mm = 1.4;
  const double left = put_words(block, name, 0, 0, term_column_mm - 3, strong_type, look.ink);
  const double right =
      put_words(block, meaning, term_column_mm, 0, look.column_mm() - term_column_mm, body_type, look.ink);
  block.height_mm = std::max(left, right);
  return block;
}

Blocks kept_together(Blocks blocks) {
  for (std::size_t i = 0; i + 1 < blocks.size(); ++i)
    blocks[i].keeps_with_next = true;
  return blocks;
}

void append(Blocks& blocks, Blocks more) {
  blocks.insert(blocks.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

void append_list(Blocks& blocks, Blocks entries) {
  if (entries.size() > 1) {
    entries.front().keeps_with_next = true;
    entries[entries.size() - 2].keeps_with_next = true;
  }
  append_kept(blocks, std::move(entries));
}

void append_kept(Blocks& blocks, Blocks more) {
  if (!blocks.empty())
    blocks.back().keeps_with_next = true;
  append(blocks, std::move(more));
}

} // namespace fanwright::booklet
