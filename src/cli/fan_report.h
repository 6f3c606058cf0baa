// The fans of opened sizes, flat and in their seats, as a person and as a program read them.
#pragma once

#include "cli/open_report.h"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <vector>

namespace fanwright::cli {

/// One entry for each fan, with its "seat" where it has one; docs/commands.md describes the keys.
nlohmann::ordered_json fans_json(const OpenedSize& opened);

/// How large the ornament is with its fans, and how it stands.
nlohmann::ordered_json figure_json(const fan::Figure& figure);

/// Tables of fans, of seats, and of what they are glued to; empty without fans.
std::string fan_tables(const std::vector<OpenedSize>& sizes);

} // namespace fanwright::cli
