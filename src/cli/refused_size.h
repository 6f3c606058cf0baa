// What a command says of a size that has no leaf: the reason, and changes that were tried and work.
#pragma once

#include "fit/leaf_of.h"

#include <string>

namespace fanwright::cli {

/// Says why on standard error, in one line, after looking for remedies; `json` tells them on standard output too, for
/// programs. Returns what the command exits with.
int refuse_size(const std::string& file, const design::Design& design, const design::Size& size,
                const fit::Failure& failure, bool json = false);

} // namespace fanwright::cli
