// Words as XML holds them.
#pragma once

#include <string>
#include <string_view>

namespace fanwright::drawing {

/// The words with &, < and > written as entities and control characters left out; not for quoted attributes.
std::string xml_text(std::string_view words);

} // namespace fanwright::drawing
