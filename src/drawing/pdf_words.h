// Text set by Cairo, placed on the pages of a PDF. For the PDF files of this folder only.
#pragma once

#include "drawing/drawing.h"
#include "drawing/lettering.h"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageObjectHelper.hh>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace fanwright::drawing {

/// Sets of lines on their way into one document: first all are handed in, then set at once, then placed.
class PlacedWords {
public:
  /// Takes lines of one page; gives the number to place them by.
  std::size_t take(LetteredPage lines);

  /// Sets everything taken. Fails when the font is not installed.
  std::optional<Failure> set();

  /// Set number `index` as a form XObject of `document`, with its own colours or taking the placer's.
  QPDFObjectHandle form(std::size_t index, bool own_colours, QPDF& document);

private:
  std::vector<LetteredPage> taken_;
  std::string bytes_; ///< must outlive `lettering_`, which reads from it until the document is written
  QPDF lettering_;
  std::vector<QPDFPageObjectHelper> pages_;
};

} // namespace fanwright::drawing
