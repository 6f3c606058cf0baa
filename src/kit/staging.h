// A folder that is written beside its final place and put there whole.
#pragma once

#include "kit/kit.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <variant>

namespace fanwright::kit {

/// Name of the file that tells a kit from any other folder; lists what the kit holds under "files".
inline constexpr const char* numbers_file = "kit.json";

class Staging {
public:
  /// Opens an empty folder beside the one asked for; leftovers of an interrupted run are removed. Refuses a file,
  /// or a folder with anything in it that is not part of a kit.
  static std::variant<Staging, Problem> begin(const std::filesystem::path& asked);

  Staging(Staging&& other) noexcept;
  Staging& operator=(Staging&&) = delete;
  ~Staging(); ///< removes what was not put in place

  const std::filesystem::path& folder() const { return staged_; }

  /// Writes one file, `name` relative to the folder; folders on the way are made.
  std::optional<Problem> write(const std::filesystem::path& name, std::string_view bytes) const;

  /// Puts the folder in the place of `out`, in one step where the file system can.
  std::optional<Problem> put_in_place();

private:
  Staging(std::filesystem::path out, std::filesystem::path staged);
  std::filesystem::path out_, staged_;
};

/// `name` as a folder name that every system takes: letters, digits, '-', '_' and '.' inside; "size" when nothing is
/// left. Two different names may become one.
std::string folder_name(std::string_view name);

} // namespace fanwright::kit
