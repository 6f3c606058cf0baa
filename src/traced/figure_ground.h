// What stands out from the ground of a picture.
// Based on: Otsu, A Threshold Selection Method from Gray-Level Histograms, 1979 (from memory).
#pragma once

#include "traced/bitmap.h"
#include "traced/picture_file.h"

#include <array>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::traced {

/// How far each pixel's colour is from the ground's, 0 to 255; or how opaque it is, where the ground is transparent.
struct Contrast {
  int width = 0, height = 0;
  std::vector<float> value;
  double threshold = 0; ///< the figure's edge
  double pixel = 1;     ///< of the file, in one of these
};

/// The level that parts the counts into two groups whose means lie furthest apart by their variance; `from` is the
/// least level looked at. Returns the middle between the two groups' means.
double parted_at(const std::array<double, 256>& counts, int from, int to);

/// Large pictures are made smaller first, small ones larger, for the edge to be smooth. The ground may be shaded: a
/// surface of second degree is laid through each channel. A sentence when nothing stands out.
std::variant<Contrast, std::string> contrast_of(const Picture& picture);

Bitmap figure_of(const Contrast& contrast);

} // namespace fanwright::traced
