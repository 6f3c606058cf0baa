#include "studio/work_folder.h"

#include <fcntl.h>
#include <string>
#include <string_view>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace fanwright::studio {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view beginning = "fanwright-studio-";
/// Locked for as long as its studio lives: the system lets go of the lock however that ends.
constexpr const char* owner_file = "owner";

/// A directory of this user's own, not a link to one.
bool is_own(const fs::path& folder) {
  struct stat found {};
  return lstat(folder.c_str(), &found) == 0 && S_ISDIR(found.st_mode) && found.st_uid == geteuid();
}

} // namespace

std::optional<WorkFolder> WorkFolder::make(const fs::path& place) {
  std::string name = (place / (std::string(beginning) + "XXXXXX")).string();
  if (mkdtemp(name.data()) == nullptr)
    return std::nullopt;
  const fs::path folder = name, taking = folder / "taking";
  const int owner = open(taking.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0600);
  // Under its own name only once it is locked, so that nobody takes a folder just made for an abandoned one.
  if (owner < 0 || flock(owner, LOCK_EX | LOCK_NB) != 0 || rename(taking.c_str(), (folder / owner_file).c_str()) != 0) {
    if (owner >= 0)
      close(owner);
    std::error_code error;
    fs::remove_all(folder, error);
    return std::nullopt;
  }
  return WorkFolder(folder, owner);
}

void WorkFolder::clear_abandoned(const fs::path& place) {
  std::error_code error;
  for (fs::directory_iterator entry(place, error), end; !error && entry != end; entry.increment(error)) {
    const fs::path& folder = entry->path();
    if (!folder.filename().string().starts_with(beginning) || !is_own(folder))
      continue;
    const int owner = open((folder / owner_file).c_str(), O_RDWR | O_CLOEXEC | O_NOFOLLOW);
    if (owner < 0)
      continue;
    std::error_code kept;
    if (flock(owner, LOCK_EX | LOCK_NB) == 0)
      fs::remove_all(folder, kept);
    close(owner);
  }
}

WorkFolder::WorkFolder(WorkFolder&& other) noexcept
    : path_(std::exchange(other.path_, {})), owner_(std::exchange(other.owner_, -1)) {}

WorkFolder::~WorkFolder() {
  if (path_.empty())
    return;
  std::error_code error;
  fs::remove_all(path_, error);
  close(owner_);
}

} // namespace fanwright::studio
