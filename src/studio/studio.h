// The studio: a web server on this machine alone that serves its page and the engines behind it (docs/studio.md).
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

namespace fanwright::studio {

struct Options {
  std::filesystem::path folder;                            ///< of the design files
  std::optional<std::string> file;                         ///< name in the folder of the design to open first
  int port = 0;                                            ///< 0: any free one
  std::function<bool()> interrupted;                       ///< asked several times a second; true ends the studio
  std::function<void(const std::string& address)> started; ///< once it can be visited
};

/// Serves until interrupted. A sentence when it could not begin.
std::optional<std::string> run(const Options& options);

} // namespace fanwright::studio
