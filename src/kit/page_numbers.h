// Where things lie on the pages, as kit.json tells it.
#pragma once

#include "kit/measured_page.h"

#include <nlohmann/json.hpp>

namespace fanwright::kit {

/// Lengths mm, from the top left corner of the page, y down. A leaf is told by where the origin of leaf coordinates
/// lies (x from the spine, z up) and how it is turned, anticlockwise as seen, before it is mirrored.
nlohmann::ordered_json page_numbers(const MeasuredPage& measured);

} // namespace fanwright::kit
