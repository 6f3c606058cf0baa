// kit.json: every number of the kit for programs to read.
#pragma once

#include "kit/cut_pages.h"
#include "kit/part.h"
#include "kit/print_files.h"

#include <string>
#include <vector>

namespace fanwright::kit {

/// One size with its drawings.
struct DrawnPart {
  Part part;
  CutPages cut;
  std::vector<PrintFile> prints; ///< all leaves, and the master leaf, on each page size
};

/// The text of kit.json. Lengths mm (keys end in _mm), angles degrees; `files` lists all files of the kit but kit.json.
std::string numbers(const design::Design& design, const std::vector<DrawnPart>& parts,
                    const std::vector<std::string>& files);

} // namespace fanwright::kit
