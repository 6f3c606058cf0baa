// The journal beside a design file: every gesture, one JSON value a line, on the disk before it is answered for.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::studio {

/// What a journal holds.
struct Recorded {
  std::string base;               ///< text of the design that the gestures begin from
  std::string fingerprint;        ///< of the file as it was last read or saved; empty: never saved
  std::vector<std::string> lines; ///< JSON values: gestures, and {"saved": fingerprint}
  bool unsaved = false;           ///< gestures since the last save
  std::size_t bytes = 0;          ///< of the file, as far as it is sound
  std::string first;              ///< the line that holds the base
};

class Journal {
public:
  static constexpr std::size_t most_bytes = 64 * 1'048'576;

  /// Takes the journal at `file`. An existing one is read, a last line that broke off is dropped; else it is begun with
  /// `base`, itself saved or not. A sentence when it cannot be had, or when another studio holds it.
  static std::variant<Journal, std::string> open(std::filesystem::path file, const std::string& base,
                                                 const std::string& fingerprint, bool unsaved);

  /// What stood in `file`; nothing when there is no sound journal.
  static std::optional<Recorded> read(const std::filesystem::path& file);

  Journal(Journal&& other) noexcept;
  Journal& operator=(Journal&& other) noexcept;
  ~Journal();

  const Recorded& recorded() const { return recorded_; }

  /// Appends JSON values, each without line feeds, and waits for the disk. A sentence when that fails; then nothing was
  /// added.
  std::optional<std::string> append(const std::vector<std::string>& lines);

  /// Notes that the present state has been saved.
  std::optional<std::string> saved(const std::string& fingerprint);

  /// Begins anew with another base, itself saved or not; the gestures before are gone. `number` is kept
  /// with it for the page.
  std::optional<std::string> restart(const std::string& base, const std::string& fingerprint, bool unsaved,
                                     std::uint64_t number = 0);

  /// Moves the file. A sentence when that fails.
  std::optional<std::string> rename(std::filesystem::path file);

  /// Takes the file away.
  void remove();

private:
  explicit Journal(std::filesystem::path file) : file_(std::move(file)) {}
  std::filesystem::path file_;
  int descriptor_ = -1;
  Recorded recorded_;
};

} // namespace fanwright::studio
