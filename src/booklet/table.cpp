#include "booklet/table.h"

#include <algorithm>
#include <numeric>

namespace fanwright::booklet {

namespace {

constexpr double cell_gap_mm = 3;   ///< between neighbouring columns
constexpr double cell_above_mm = 1; ///< and as much below the words of a row

struct Place {
  double x_mm = 0, width_mm = 0;
};

std::vector<Place> places_of(const Table& table, double width_mm) {
  const double shares = std::accumulate(table.columns.begin(), table.columns.end(), 0.0,
                                        [](double sum, const Column& column) { return sum + column.share; });
  std::vector<Place> places;
  double x = 0;
  for (const Column& column : table.columns) {
    const double width = width_mm * column.share / shares;
    places.push_back({x, width - (&column == &table.columns.back() ? 0 : cell_gap_mm)});
    x += width;
  }
  return places;
}

Block row_block(const Look& look, const Table& table, const std::vector<Place>& places,
                const std::vector<std::string>& cells, const Type& type, const drawing::Colour& colour) {
  Block block;
  double height = 0;
  for (std::size_t i = 0; i < places.size(); ++i)
    height = std::max(height, put_words(block, cells[i], places[i].x_mm, cell_above_mm, places[i].width_mm, type,
                                        colour, table.columns[i].align));
  block.height_mm = height + 2 * cell_above_mm;
  block.items.emplace_back(rule(0, block.height_mm, look.column_mm(), 0.2, look.faint));
  return block;
}

} // namespace

Blocks table_blocks(const Look& look, const Table& table, std::size_t whole_rows) {
  const std::vector<Place> places = places_of(table, look.column_mm());
  std::vector<std::string> heads;
  for (const Column& column : table.columns)
    heads.push_back(column.head);
  Block head = row_block(look, table, places, heads, table_head_type, look.accent);
  head.before_mm = 2.5;
  head.keeps_with_next = true;
  head.items.emplace_back(rule(0, head.height_mm, look.column_mm(), 0.4, look.accent));
  Blocks blocks = {std::move(head)};
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const Type type{3.1, 4.2, table.strong_rows.count(i) > 0};
    blocks.push_back(row_block(look, table, places, table.rows[i], type, look.ink));
    blocks.back().keeps_with_next = i + 1 < table.rows.size() && table.rows.size() <= whole_rows;
  }
  return blocks;
}

} // namespace fanwright::booklet
