// Everything of a DXF file that is not the drawing itself. For the DXF files of this folder only.
#pragma once

#include "drawing/bulged_line.h"
#include "drawing/dxf_tags.h"

#include <string>
#include <vector>

namespace fanwright::drawing {

/// Dashes, mm: on, off, ...; none for a continuous line.
struct LineType {
  std::string name;
  std::vector<double> dash_mm;
};

struct Layer {
  std::string name;
  int colour = 7; ///< number in the usual palette; a convenience, for layers are told apart by name
  std::string line_type;
};

/// What the entities need around them.
struct Frame {
  std::vector<LineType> line_types;
  std::vector<Layer> layers;
  Box extents; ///< y up
};

/// Handles that entities and tables must agree on.
struct FrameHandles {
  std::string model_space, paper_space, model_layout, paper_layout, layouts, plot_style, root;
};
FrameHandles take_frame_handles(Handles& handles);

Tags header(const Frame& frame, const std::string& handle_seed);
Tags classes();
Tags tables(const Frame& frame, const FrameHandles& known, Handles& handles);
Tags blocks(const FrameHandles& known, Handles& handles);
Tags objects(const Frame& frame, const FrameHandles& known, Handles& handles);

} // namespace fanwright::drawing
