// README.txt: the kit in plain words, for the maker.
#pragma once

#include "kit/numbers.h"

#include <string>
#include <vector>

namespace fanwright::kit {

std::string maker_notes(const design::Design& design, const std::vector<DrawnPart>& parts);

} // namespace fanwright::kit
