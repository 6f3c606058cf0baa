#include "studio/folder.h"

#include "design/design.h"
#include "studio/whole_file.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <fstream>
#include <sys/stat.h>

namespace fanwright::studio {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_bytes = 1'048'576; ///< longer texts are no designs (design::parse)
constexpr std::size_t most_listed = 300;
constexpr std::size_t longest_name = 120;

Listed listed(const Folder& folder, const std::string& name) {
  Listed entry{name, {}, 0, folder.stamp(name).nanoseconds / 1'000'000'000};
  const auto text = folder.read(name);
  if (!std::holds_alternative<std::string>(text))
    return entry;
  const auto parsed = design::parse(std::get<std::string>(text));
  if (const auto* design = std::get_if<design::Design>(&parsed)) {
    entry.title = design->title;
    entry.height_mm = design->sizes.back().height_mm.value_or(0);
  }
  return entry;
}

} // namespace

std::string fingerprint(std::string_view text) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const unsigned char byte : text)
    hash = (hash ^ byte) * 1099511628211ULL;
  std::array<char, 17> digits{};
  std::snprintf(digits.data(), digits.size(), "%016llx", static_cast<unsigned long long>(hash));
  return digits.data();
}

std::optional<std::string> fault_of_name(const std::string& name) {
  const auto bad = [](unsigned char c) { return c < 0x20 || c == 0x7F || c == '/' || c == '\\' || c == ':'; };
  if (name.size() > longest_name || name.size() <= design_ending.size() || !name.ends_with(design_ending) ||
      name.front() == '.' || std::ranges::any_of(name, bad))
    return "A design is kept under a plain file name that ends in .ornament.json, without folders, at most 120 letters "
           "long and not beginning with a dot.";
  return std::nullopt;
}

std::vector<Listed> Folder::list() const {
  std::vector<std::string> names;
  std::error_code error;
  for (fs::directory_iterator entry(path_, fs::directory_options::skip_permission_denied, error), end;
       !error && entry != end && names.size() < most_listed; entry.increment(error)) {
    std::error_code unreadable;
    const std::string name = entry->path().filename().string();
    if (!fault_of_name(name) && entry->is_regular_file(unreadable))
      names.push_back(name);
  }
  std::ranges::sort(names);
  std::vector<Listed> files;
  files.reserve(names.size());
  for (const std::string& name : names)
    files.push_back(listed(*this, name));
  return files;
}

std::variant<std::string, Trouble> Folder::read(const std::string& name) const {
  if (const auto fault = fault_of_name(name))
    return Trouble{400, *fault};
  std::error_code error;
  const fs::path file = path_ / name;
  if (!fs::is_regular_file(file, error)) // pipes and devices might never end
    return Trouble{404, "There is no design file of this name in the folder; choose one from the list."};
  std::ifstream stream(file, std::ios::binary);
  std::string text(most_bytes + 1, '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (!stream.is_open() || stream.bad())
    return Trouble{409, "The file cannot be read; check its permissions."};
  text.resize(static_cast<std::size_t>(stream.gcount()));
  if (text.size() > most_bytes)
    return Trouble{409, "The file is longer than 1 MiB, so it is no design file."};
  return text;
}

std::optional<std::string> Folder::write(const std::string& name, const std::string& text) const {
  return write_whole((path_ / name).string(), text);
}

bool Folder::has(const std::string& name) const {
  std::error_code error;
  return fs::exists(fs::symlink_status(path_ / name, error));
}

Stamp Folder::stamp(const std::string& name) const {
  struct stat found {};
  if (::stat((path_ / name).c_str(), &found) != 0)
    return {};
  return {found.st_mtim.tv_sec * 1'000'000'000LL + found.st_mtim.tv_nsec, found.st_size,
          static_cast<std::int64_t>(found.st_ino)};
}

} // namespace fanwright::studio
