// The prediction as a person and as a program read it.
#pragma once

#include "design/design.h"
#include "fan/seated_fans.h"
#include "opened/opened.h"
#include "opened/opening.h"
#include "opened/spread.h"

#include <optional>
#include <string>
#include <vector>

namespace fanwright::cli {

struct OpenedSize {
  design::Size size;
  opened::Panel panel;
  opened::Form form;
  std::optional<opened::Spread> spread; ///< empty: none could be told
  std::vector<opened::Stage> stages;    ///< from the flat stack to the full opening; empty unless asked for
  std::vector<std::string> remarks;     ///< on what comes near to the wanted outline, not up to it
  std::vector<fan::SizedFan> fans;
  std::vector<fan::SeatedFan> seats; ///< of those fans that have a seat
  std::optional<fan::Figure> figure; ///< with the seated fans; empty where there are none
};

/// One JSON object with the keys always in the same order; lengths in mm to 0.0001, docs/commands.md describes them.
std::string open_json(const std::string& title, const std::vector<OpenedSize>& sizes);

/// A table, one line per size.
std::string open_table(const std::string& title, const std::vector<OpenedSize>& sizes);

/// What keeps this size from opening although a form was computed, with the rows and what would do, as one sentence;
/// empty when it opens.
std::string why_not_real(const OpenedSize& opened);

} // namespace fanwright::cli
