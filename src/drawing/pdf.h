// Pages as PDF with processing steps: each step an optional layer that a printer's or cutter's software can pick out.
#pragma once

#include "drawing/drawing.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::drawing {

/// The bytes of a PDF 1.6 file: pages of true size (never larger than asked), one optional content group per used step
/// with the metadata of ISO 19593-1, one overprinting separation colour per step, no scaling when printed, `about` as
/// Info, XMP and language, no dates. Printed matter lies under the layers in sRGB, pictures without loss. Same pages,
/// same bytes. Fails without pages, when the font is not installed or when a picture's pixels do not match its size.
std::variant<std::string, Failure> pdf(const std::vector<Page>& pages, const About& about);

} // namespace fanwright::drawing
