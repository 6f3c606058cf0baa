// Pictures of pixels in a PDF, without loss. For the PDF files of this folder only.
#pragma once

#include "drawing/drawing.h"

#include <qpdf/QPDF.hh>

#include <map>
#include <tuple>

namespace fanwright::drawing {

/// Whether the pixels are as many as the picture says, and it has a size.
bool is_whole(const Image& image);

/// The pictures of one document; the same pixels are stored once however often they are placed.
class Pictures {
public:
  /// The pixels as an image XObject; `image` must be whole and its pixels outlive this.
  QPDFObjectHandle object(const Image& image, QPDF& document);

private:
  std::map<std::tuple<const void*, int, int>, QPDFObjectHandle> known_;
};

} // namespace fanwright::drawing
