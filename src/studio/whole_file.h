// A file that is there whole or not at all.
#pragma once

#include <optional>
#include <string>

namespace fanwright::studio {

/// Writes the bytes beside `file`, waits until they are on the disk, and renames; an older file is replaced, keeping
/// its permissions and, where `file` is a link, the link. Gives the sentence to complain with when that fails; the
/// older file is then untouched.
std::optional<std::string> write_whole(const std::string& file, const std::string& bytes);

} // namespace fanwright::studio
