// Marks as the operators of a PDF content stream. For the PDF files of this folder only.
#pragma once

#include "drawing/drawing.h"

#include <string>

namespace fanwright::drawing {

/// The path with its pen, in page coordinates (mm, y down); its colour only when it is in Step::print.
std::string operators_of(const Path& path);

/// The picture called `name` in the page's resources, in page coordinates.
std::string operators_of(const Image& image, const std::string& name);

/// Makes everything after it, up to the matching Q, be in page coordinates. `page_height` in points, as the page box
/// states it.
std::string begin_page_coordinates(const std::string& page_height);

} // namespace fanwright::drawing
