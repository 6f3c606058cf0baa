// The design files of one folder, by plain names.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::studio {

inline constexpr std::string_view design_ending = ".ornament.json";

/// What tells one text from another: 64 bits of FNV-1a as hexadecimal digits (Fowler, Noll, Vo; from memory).
std::string fingerprint(std::string_view text);

/// What is wrong with `name` for a design file: one sentence; empty when nothing is.
std::optional<std::string> fault_of_name(const std::string& name);

/// A design file as the bench lists it.
struct Listed {
  std::string name;         ///< "pear.ornament.json"
  std::string title;        ///< empty when the file is not a sound design
  double height_mm = 0;     ///< of the last size; 0 when it is as drawn or unknown
  std::int64_t changed = 0; ///< seconds since 1970
};

/// Why a file cannot be had.
struct Trouble {
  int status = 400;
  std::string sentence;
};

/// When and how long a file is, to see that it may have changed.
struct Stamp {
  std::int64_t nanoseconds = 0, bytes = -1, inode = 0;
  friend bool operator==(const Stamp&, const Stamp&) = default;
};

class Folder {
public:
  explicit Folder(std::filesystem::path path) : path_(std::move(path)) {}

  const std::filesystem::path& path() const { return path_; }

  /// At most 300 design files, by name.
  std::vector<Listed> list() const;

  /// The text of a design file: at most 1 MiB.
  std::variant<std::string, Trouble> read(const std::string& name) const;

  /// Writes the file whole. A sentence when that fails.
  std::optional<std::string> write(const std::string& name, const std::string& text) const;

  bool has(const std::string& name) const;
  Stamp stamp(const std::string& name) const;

private:
  std::filesystem::path path_;
};

} // namespace fanwright::studio
