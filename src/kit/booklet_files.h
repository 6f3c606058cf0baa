// The booklets, and the maker's own plan and prices.
#pragma once

#include "kit/file.h"
#include "kit/numbers.h"
#include "kit/staging.h"
#include "picture/picture.h"

#include <variant>
#include <vector>

namespace fanwright::kit {

/// Folder of what the maker keeps to herself; it does not go into the zip.
inline constexpr const char* own_folder = "for-you-only";

struct BookletPictures {
  const DrawnPart* shown = nullptr;       ///< the size that cover and figures show
  const picture::Pixels* cover = nullptr; ///< its lit picture
};

/// The booklet in each of the design's languages, for A4 and letter; then, for both, the maker's plan, cost and price.
/// `files`: what the kit holds besides. Every part is opened.
std::variant<std::vector<File>, Problem> booklet_files(const design::Design& design,
                                                       const std::vector<DrawnPart>& parts,
                                                       const BookletPictures& pictures,
                                                       const std::vector<Written>& files);

} // namespace fanwright::kit
