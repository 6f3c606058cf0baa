// The files of a size's stencils.
#pragma once

#include "kit/file.h"
#include "kit/part.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::kit {

struct StencilFiles {
  std::vector<File> files;          ///< none when neither side can have a stencil
  std::vector<std::string> remarks; ///< for the maker: rows to be glued by eye, sides without a stencil
};

/// stencil-inside and stencil-between as .svg and .dxf, stencils-A4.pdf and stencils-letter.pdf in the part's folder.
std::variant<StencilFiles, Problem> stencil_files(const design::Design& design, const Part& part);

} // namespace fanwright::kit
