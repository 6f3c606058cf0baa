// A file that the maker named, read within bounds.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

namespace fanwright::cli {

/// The bytes of a file, of a longer one `most_bytes` and one more. Empty, after complaining, when there is no such
/// file, it is a folder, pipe or device, or it cannot be read. `what_to_name` ends the sentence about what is no file.
std::optional<std::string> read_bounded(const std::string& file, std::size_t most_bytes,
                                        const std::string& what_to_name);

} // namespace fanwright::cli
