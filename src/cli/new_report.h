// What fanwright new found, as a person and as a program read it.
#pragma once

#include "traced/traced.h"

#include <string>

namespace fanwright::cli {

/// `chosen` counts from 1.
std::string new_text(const traced::Found& found, int chosen, const std::string& out);

/// One object; docs/new.md lists its keys.
std::string new_json(const traced::Found& found, int chosen, const std::string& out, const std::string& design);

std::string starter_report(const std::string& name, const std::string& out, bool json);

} // namespace fanwright::cli
