// Pages as PDF with processing steps: each step an optional layer that a printer's or cutter's software can pick out.
#pragma once

#include "drawing/drawing.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::drawing {

/// The bytes of a PDF 1.6 file: pages of true size (never larger than asked), one optional content group per used step
/// with the metadata of ISO 19593-1, one overprinting separation colour per step, no scaling when printed, `title` as
/// its title, no dates. Same pages, same bytes. Fails without pages or when the font is not installed.
std::variant<std::string, Failure> pdf(const std::vector<Page>& pages, const About& about);

} // namespace fanwright::drawing
