// What a PDF says of itself. For the PDF files of this folder only.
#pragma once

#include "drawing/drawing.h"

#include <qpdf/QPDF.hh>

namespace fanwright::drawing {

/// Title, author, subject and language, for old readers (Info) and new (XMP); no dates.
void add_about(QPDF& document, const About& about);

} // namespace fanwright::drawing
