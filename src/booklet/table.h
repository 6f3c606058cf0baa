// Tables over the whole column.
#pragma once

#include "booklet/block.h"

#include <set>

namespace fanwright::booklet {

struct Column {
  std::string head;
  double share = 1; ///< of the width, against the other columns' shares
  drawing::Align align = drawing::Align::left;
};

struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows; ///< a cell for each column; cells break into lines
  std::set<std::size_t> strong_rows = {};     ///< set in bold
};

/// Head and rows as blocks. Rows stay together up to `whole_rows` of them; more may break between rows.
Blocks table_blocks(const Look& look, const Table& table, std::size_t whole_rows = 10);

} // namespace fanwright::booklet
