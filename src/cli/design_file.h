// A design file on disk as a validated design.
#pragma once

#include "design/design.h"

#include <optional>
#include <string>

namespace fanwright::cli {

/// As read_design(), with the text of the file.
struct DesignFile {
  std::string text;
  design::Design design;
};
std::optional<DesignFile> read_design_file(const std::string& file);

/// Reads and validates the file. When it is refused, says why in one line on standard error and gives nothing.
std::optional<design::Design> read_design(const std::string& file);

/// One line on standard error: the file, the place in it and what is wrong there.
void complain_about(const std::string& file, const design::Refusal& refusal);

} // namespace fanwright::cli
