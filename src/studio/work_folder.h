// A folder for files on their way, gone with the studio that made it. One that a killed studio left behind is cleared
// away by the next.
#pragma once

#include <filesystem>
#include <optional>

namespace fanwright::studio {

class WorkFolder {
public:
  /// A new folder in `place`, which only this user may enter. Nothing when there is no room for one.
  static std::optional<WorkFolder> make(const std::filesystem::path& place);

  /// Removes folders of this user's in `place` whose studio has ended without doing so. Those of living studios, and
  /// whatever else lies there, are left alone.
  static void clear_abandoned(const std::filesystem::path& place);

  WorkFolder(WorkFolder&& other) noexcept;
  WorkFolder& operator=(WorkFolder&&) = delete;
  ~WorkFolder(); ///< removes it with all that it holds

  const std::filesystem::path& path() const { return path_; }

private:
  WorkFolder(std::filesystem::path path, int owner) : path_(std::move(path)), owner_(owner) {}
  std::filesystem::path path_; ///< empty: moved from
  int owner_;                  ///< descriptor that holds the lock
};

} // namespace fanwright::studio
