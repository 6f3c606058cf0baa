// README.txt: the kit in plain words, for the maker.
#pragma once

#include "kit/numbers.h"
#include "kit/staging.h"

#include <string>
#include <vector>

namespace fanwright::kit {

/// `files`: what the kit holds, each with what it is for.
std::string maker_notes(const design::Design& design, const std::vector<DrawnPart>& parts,
                        const std::vector<Written>& files);

} // namespace fanwright::kit
