// The texts of each language; catalogue.cpp joins them.
#pragma once

#include "booklet/catalogue.h"

namespace fanwright::booklet {

std::span<const MessageText> english_labels();
std::span<const MessageText> english_guidance();
std::span<const MessageText> german_labels();
std::span<const MessageText> german_guidance();

} // namespace fanwright::booklet
