// Blocks: what the booklet's pages are filled with, from top to bottom. A block stays on one page.
#pragma once

#include "booklet/look.h"

#include <string>
#include <string_view>
#include <vector>

namespace fanwright::booklet {

/// Something of known height. Its items lie in coordinates of the column: x from its left edge, y down from the block's
/// top, mm.
struct Block {
  double before_mm = 0; ///< free above it; left out at the top of a page
  double height_mm = 0;
  bool keeps_with_next = false; ///< never the last on a page
  bool begins_page = false;
  std::vector<drawing::Item> items;
};
using Blocks = std::vector<Block>;

/// The item shifted on its page.
drawing::Item moved(drawing::Item item, double by_x_mm, double by_y_mm);

/// A filled rectangle.
drawing::Path ground(double x_mm, double y_mm, double width_mm, double height_mm, const drawing::Colour& colour);

/// A level line.
drawing::Path rule(double x_mm, double y_mm, double width_mm, double thick_mm, const drawing::Colour& colour);

/// Puts words as lines of at most width_mm under each other from y_mm on and gives their height. Aligned in their
/// width; `x_mm` is its left edge.
double put_words(Block& block, std::string_view words, double x_mm, double y_mm, double width_mm, const Type& type,
                 const drawing::Colour& colour, drawing::Align align = drawing::Align::left);

/// Height that put_words would take.
double height_of_words(std::string_view words, double width_mm, const Type& type);

/// A heading of a section over the whole column, with a rule; keeps with what follows.
Block section_heading(const Look& look, std::string_view words);

/// A smaller heading; keeps with what follows.
Block small_heading(const Look& look, std::string_view words);

/// A paragraph as blocks of lines, so that it can break between pages with at least two lines on either side.
Blocks paragraph(const Look& look, std::string_view words, const Type& type = body_type);

/// A paragraph with a dot before it.
Block bullet(const Look& look, std::string_view words);

/// Two columns: a term in bold and what it means.
Block term(const Look& look, std::string_view name, std::string_view meaning);

/// The same blocks, all on one page.
Blocks kept_together(Blocks blocks);

void append(Blocks& blocks, Blocks more);

/// As append() for a list: at least two of its entries stand together at either end of a page.
void append_list(Blocks& blocks, Blocks entries);

/// As append(); what stands before keeps with the first of `more`.
void append_kept(Blocks& blocks, Blocks more);

} // namespace fanwright::booklet
