#include "studio/whole_file.h"

#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <unistd.h>

namespace fanwright::studio {

namespace fs = std::filesystem;

namespace {

/// Without this a power cut after the rename may leave an empty file.
void wait_for_disk(const fs::path& file) {
  const int opened = open(file.c_str(), O_RDONLY | O_CLOEXEC);
  if (opened < 0)
    return;
  fdatasync(opened);
  close(opened);
}

} // namespace

std::optional<std::string> write_whole(const std::string& file, const std::string& bytes) {
  std::error_code error;
  const fs::file_status old = fs::status(file, error);
  if (fs::exists(old) && !fs::is_regular_file(old))
    return file + ": There is already something of this name that is not a file; choose another name.";
  const fs::path path = fs::is_symlink(file, error) ? fs::canonical(file, error) : fs::path(file);
  const fs::path beside = path.parent_path() / ("." + path.filename().string() + ".fanwright-new");
  std::ofstream stream(beside, std::ios::binary | std::ios::trunc);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  stream.close();
  wait_for_disk(beside);
  error.clear();
  if (stream && fs::exists(old))
    fs::permissions(beside, old.permissions(), error);
  if (stream && !error)
    fs::rename(beside, path, error);
  if (stream && !error)
    return std::nullopt;
  std::error_code left_behind;
  fs::remove(beside, left_behind);
  return file + ": The file cannot be written; check that there is such a folder and room on the disk.";
}

} // namespace fanwright::studio
