// The "rows" of a design file: generated evenly, placing themselves, or listed.
#pragma once

#include "design/design.h"
#include "design/fields.h"

#include <optional>
#include <vector>

namespace fanwright::design {

/// The keys as the file gives them, so that a size can take single ones from its family.
struct RowKeys {
  bool automatic = false;
  std::optional<int> count;
  std::optional<Look> look;
  std::optional<Side> first;
  std::optional<double> width_mm, spine_gap_mm, edge_gap_mm;
  std::vector<ListedRow> listed; ///< not empty: these, and nothing else counts
};

/// Refuses wrong types, unknown keys, lengths and counts out of range, and a look beside a count.
RowKeys read_rows(const Field& field, const RowKeys& inherited, const Units& units);

/// What the keys mean, with defaults filled in.
Rows rows_of(const RowKeys& keys);

} // namespace fanwright::design
