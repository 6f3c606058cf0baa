// fanwright picture: a lit picture of the opened ornament.
#pragma once

#include <cstdint>
#include <string>

namespace fanwright::cli {

struct PictureRequest {
  std::string file;
  std::string out;                    ///< a .png file; for the opening also a folder of frames
  std::string view = "three-quarter"; ///< three-quarter, front, top, close-up, family, opening
  std::string size;                   ///< name of the size shown; empty: the last in the file
  std::string paper;                  ///< name or #rrggbb; empty: the design's colour
  std::string quality = "final";      ///< preview or final
  std::string background = "table";   ///< table, wall, plain or transparent
  int pixels = 0;                     ///< width and height; 0: 480 for a preview, else 1200
  int frames = 16;                    ///< of the opening
  std::uint32_t seed = 0;
};

/// Writes the picture, or one line about what is wrong to standard error; gives the exit code.
int run_picture(const PictureRequest& request);

} // namespace fanwright::cli
