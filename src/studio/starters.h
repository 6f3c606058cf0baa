// Designs to begin from: the Orchard collection, embedded, and an empty sheet.
#pragma once

#include "studio/told.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fanwright::studio {

/// A design file as it lies in examples/orchard; made by CMake.
struct StarterFile {
  std::string_view id, text;
};
std::span<const StarterFile> starter_files();

/// All starters, without their makers' prices and terms.
const std::vector<told::Starter>& starters();

/// A design file without a silhouette, to draw from nothing.
std::string blank_design();

} // namespace fanwright::studio
