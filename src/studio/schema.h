// The design file's JSON schema, embedded by CMake from schema/ornament.schema.json.
#pragma once

#include <string_view>

namespace fanwright::studio {

std::string_view design_schema();

} // namespace fanwright::studio
