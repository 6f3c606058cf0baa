// One leaf as a template to trace or cut along: whole or half, on one page where it fits, else in parts.
#pragma once

#include "kit/print_files.h"

namespace fanwright::kit {

enum class TemplateShape { whole, half, whole_and_half };

/// A page to check first (with a map when there are parts), then the template's pages. One-sided.
std::vector<MeasuredPage> template_pages(const design::Design& design, const Part& part, const PrintPaper& paper,
                                         TemplateShape shape);

} // namespace fanwright::kit
