// What was changed, shown over the original.
#pragma once

#include "traced/traced.h"

#include <string>

namespace fanwright::traced {

/// An SVG page in mm: the figure as it was found, faint; the outline that was made of it, both halves; what was added
/// and what was dropped; a ring round each place that is finer than a knife cuts.
std::string overlay(const Figure& figure, const std::string& title);

} // namespace fanwright::traced
