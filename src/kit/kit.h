// The kit: the folder that goes to whoever makes the ornament. Templates, pictures, numbers and a README for the maker.
//
// out/README.txt, out/kit.json, and for each size a folder with leaf.svg, sheets.pdf and opened.png. The same design
// gives the same bytes: no dates, no machine names, no times.
#pragma once

#include "design/design.h"

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace fanwright::kit {

/// What stood in the way.
enum class Cause {
  design,    ///< the design file is wrong; `where` points into it
  form,      ///< the design is sound, but the ornament cannot be opened so or its leaf does not fit the sheet
  folder,    ///< the folder cannot be written, or holds something that is not a kit
  cancelled, ///< the caller asked to stop
};

struct Problem {
  Cause cause = Cause::design;
  std::string where;    ///< JSON pointer for `design` and `form`, a path for `folder`; may be empty
  std::string sentence; ///< one sentence for the maker
};

struct Options {
  std::function<void(double, std::string_view)> progress; ///< called with 0..1 and what is being done; may be empty
  std::function<bool()> cancelled;                        ///< polled during long work; may be empty
  std::function<void(const std::string&)> remark;         ///< called with sentences on what comes near, not up, to the
                                                          ///< wanted outline; may be empty
  int cover_px = 1100;                                    ///< and of the one on the booklets' cover
  int picture_px = 760;                                   ///< width and height of the pictures
  int picture_samples = 9;                                ///< light samples per pixel
  double lap_mm = 0; ///< leaves that their sheet does not take whole are cut as two halves, joined at the spine with
                     ///< a lap so wide; 0: they are refused
  std::string design_text; ///< the design file as it was read, to go into the kit; empty: left out
};

/// Writes the kit of every size of the design to the folder `out`. It is written beside `out` and put in its place when
/// complete; whatever goes wrong, an old kit stays whole. An existing `out` must be empty or hold nothing but a kit.
std::optional<Problem> write(const design::Design& design, const std::filesystem::path& out,
                             const Options& options = {});

} // namespace fanwright::kit
