// Sizes of a design by the names a maker gives on the command line.
#pragma once

#include "design/design.h"
#include "fit/leaf_of.h"

#include <optional>
#include <string>
#include <vector>

namespace fanwright::cli {

/// The size of this name, or every size when the name is empty. None, with a complaint, when there is no such size.
std::vector<design::Size> sizes_named(const design::Design& design, const std::string& name, const std::string& file);

/// The one size of this name, or the last of the file when the name is empty.
std::optional<design::Size> size_named(const design::Design& design, const std::string& name, const std::string& file);

/// Complains about a leaf that could not be made and gives the exit code for it.
int exit_for(const std::string& file, const fit::Failure& failure);

} // namespace fanwright::cli
