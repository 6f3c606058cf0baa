#include "cli/bounded_file.h"

#include "cli/terminal.h"

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <fstream>

namespace fanwright::cli {

namespace fs = std::filesystem;

std::optional<std::string> read_bounded(const std::string& file, std::size_t most_bytes,
                                        const std::string& what_to_name) {
  std::error_code error;
  const auto status = fs::status(file, error);
  if (!fs::exists(status)) {
    complain(file + ": There is no such file; check its name and folder.");
    return std::nullopt;
  }
  // Pipes and devices might never end.
  if (!fs::is_regular_file(status)) {
    complain(file + ": This is not a file; " + what_to_name + ".");
    return std::nullopt;
  }
  std::ifstream stream(file, std::ios::binary);
  const auto size = fs::file_size(file, error);
  std::string bytes((error ? most_bytes : std::min<std::uintmax_t>(size, most_bytes)) + 1, '\0');
  if (stream)
    stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!stream.is_open() || stream.bad()) {
    complain(file + ": The file cannot be read; check its permissions.");
    return std::nullopt;
  }
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  return bytes;
}

} // namespace fanwright::cli
