// A folder that is written beside its final place and put there whole.
#pragma once

#include "kit/file.h"
#include "kit/kit.h"

#include <filesystem>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::kit {

/// Name of the file that tells a kit from any other folder; lists what the kit holds under "files".
inline constexpr const char* numbers_file = "kit.json";

/// A file that is in the folder already.
struct Written {
  std::string name, about; ///< as in File
  bool shared = true;      ///< as in File
};

class Staging {
public:
  /// Opens an empty folder beside the one asked for; leftovers of an interrupted run are removed. Refuses a file,
  /// or a folder with anything in it that is not part of a kit.
  static std::variant<Staging, Problem> begin(const std::filesystem::path& asked);

  Staging(Staging&& other) noexcept;
  Staging& operator=(Staging&&) = delete;
  ~Staging(); ///< removes what was not put in place

  const std::filesystem::path& folder() const { return staged_; }

  /// Writes one file; folders on the way are made.
  std::optional<Problem> write(const File& file);

  /// Counts a file in that somebody else has written to folder().
  void note(Written file) { written_.push_back(std::move(file)); }

  /// All files so far, in the order they came.
  const std::vector<Written>& written() const { return written_; }

  /// The bytes of all files so far that are to be handed on, joined to a zip archive that unfolds to a folder of the
  /// name given.
  std::variant<std::string, Problem> zipped(const std::string& folder_name) const;

  /// Puts the folder in the place of `out`, in one step where the file system can.
  std::optional<Problem> put_in_place();

private:
  Staging(std::filesystem::path out, std::filesystem::path staged);
  std::filesystem::path out_, staged_;
  std::vector<Written> written_;
};

/// `name` as a folder name that every system takes: letters, digits, '-', '_' and '.' inside; "size" when nothing is
/// left. Two different names may become one.
std::string folder_name(std::string_view name);

} // namespace fanwright::kit
