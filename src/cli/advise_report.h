// Advice as a person and as a program read it.
#pragma once

#include "studio/advised.h"

#include <string>
#include <vector>

namespace fanwright::cli {

std::string advise_json(const std::string& title, const std::vector<studio::Advised>& sizes);
std::string advise_text(const std::string& title, const std::vector<studio::Advised>& sizes);

} // namespace fanwright::cli
