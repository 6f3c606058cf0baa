// The opened ornament as files: meshes and line drawings.
#pragma once

#include "design/design.h"
#include "opened/opened.h"
#include "picture/fan_paper.h"

#include <optional>
#include <string>
#include <vector>

namespace fanwright::cli {

struct OpenedFiles {
  std::string mesh;  ///< file ending in .glb, .stl, .obj or .3mf; empty: none
  std::string lines; ///< file ending in .svg; empty: none
  std::string view;  ///< of the line drawing, one of `line_views()`; empty: the first of them
};

/// Where a line drawing can be seen from, by the names that pictures have for it.
std::vector<std::string> line_views();

/// What is wrong with the names of the files wanted, as one sentence; looked at before anything is computed.
std::optional<std::string> fault_of(const OpenedFiles& files);

/// Writes the files wanted, with the fans that sit on the form. Each is written beside its place and renamed, so that
/// an interrupted run leaves an older one whole. A sentence when there is nothing to draw or a file cannot be written.
std::optional<std::string> write_opened_files(const OpenedFiles& files, const design::Design& design,
                                              const opened::Panel& panel, const opened::Form& form,
                                              const std::vector<picture::FanPaper>& fans);

} // namespace fanwright::cli
