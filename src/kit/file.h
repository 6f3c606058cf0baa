// One file of the kit.
#pragma once

#include <string>

namespace fanwright::kit {

struct File {
  std::string name; ///< relative to the kit's folder, '/' between folders
  std::string bytes;
  std::string about;  ///< what it is for: one clause that README.txt puts beside the name
  bool shared = true; ///< goes into the zip; otherwise the maker keeps it to herself
};

} // namespace fanwright::kit
