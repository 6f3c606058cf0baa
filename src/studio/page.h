// The files of the page, embedded in the program.
#pragma once

#include <span>
#include <string_view>

namespace fanwright::studio {

struct PageFile {
  std::string_view path;  ///< "/index.html", "/assets/..."
  std::string_view type;  ///< media type
  std::string_view bytes; ///< as a browser without any encoding takes them
  std::string_view gzip;  ///< the same, gzip'ed; may be empty
};

std::span<const PageFile> page_files();

} // namespace fanwright::studio
