// The prediction as a person and as a program read it.
#pragma once

#include "design/design.h"
#include "opened/opened.h"

#include <string>
#include <vector>

namespace fanwright::cli {

struct OpenedSize {
  design::Size size;
  opened::Form form;
};

/// One JSON object with the keys always in the same order; lengths in mm to 0.0001, docs/commands.md describes them.
std::string open_json(const std::string& title, const std::vector<OpenedSize>& sizes);

/// A table, one line per size.
std::string open_table(const std::string& title, const std::vector<OpenedSize>& sizes);

/// What keeps this size from opening although a form was computed, as one sentence; empty when it opens.
std::string lock_warning(const OpenedSize& opened);

} // namespace fanwright::cli
