#include "kit/staging.h"

#include "picture/package.h"

#include <nlohmann/json.hpp>

#include <fcntl.h>
#include <unistd.h>

#include <cstdio>
#include <fstream>
#include <set>

namespace fanwright::kit {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t longest_folder_name = 60; // bytes; file systems take 255, with room for whatever adds to it
constexpr std::uintmax_t largest_numbers_file = 16u << 20; // a kit.json of hundreds of sizes stays below 1 MiB

Problem trouble(const fs::path& place, const std::string& sentence) {
  return {Cause::folder, place.string(), sentence};
}

/// Files that the kit in `folder` says it holds; empty when there is no readable kit.json.
std::set<std::string> files_of_kit(const fs::path& folder) {
  std::error_code error;
  const std::uintmax_t size = fs::file_size(folder / numbers_file, error);
  if (error || size > largest_numbers_file)
    return {};
  std::ifstream stream(folder / numbers_file, std::ios::binary);
  const auto numbers = nlohmann::json::parse(stream, nullptr, false);
  if (!numbers.is_object() || !numbers.contains("fanwright") || !numbers.contains("files") ||
      !numbers["files"].is_array())
    return {};
  std::set<std::string> files = {numbers_file};
  for (const auto& file : numbers["files"])
    if (file.is_string())
      files.insert(file.get<std::string>());
  return files;
}

/// Replacing a folder deletes what is in it, so it must hold nothing that Fanwright did not write.
std::optional<Problem> refusal_to_replace(const fs::path& out) {
  std::error_code error;
  const fs::file_status status = fs::status(out, error);
  if (status.type() == fs::file_type::not_found)
    return std::nullopt;
  if (!fs::is_directory(status))
    return trouble(out, "There is already something of this name that is not a folder; choose another --out.");
  const bool empty = fs::is_empty(out, error);
  if (error)
    return trouble(out, "The folder cannot be read: " + error.message() + ".");
  if (empty)
    return std::nullopt;
  const std::set<std::string> files = files_of_kit(out);
  if (files.empty())
    return trouble(out, "The folder is not empty and holds no kit (no kit.json of Fanwright), so it is left as it is; "
                        "choose another --out or empty it first.");
  auto entry = fs::recursive_directory_iterator(out, error);
  for (; !error && entry != fs::recursive_directory_iterator(); entry.increment(error)) {
    const std::string name = entry->path().lexically_relative(out).generic_string();
    std::error_code type_error;
    if (!entry->is_directory(type_error) && files.count(name) == 0)
      return trouble(out, "The folder also holds \"" + name +
                              "\", which is not part of the kit and would be lost; move it away first.");
  }
  if (error)
    return trouble(out, "The folder cannot be read: " + error.message() + ".");
  return std::nullopt;
}

fs::path beside(const fs::path& out, const char* ending) {
  return out.parent_path() / (std::string(".") + out.filename().string() + ending);
}

/// Where two names are exchanged in one step, the kit is whole at every moment.
bool exchanged(const fs::path& a, const fs::path& b) {
  return renameat2(AT_FDCWD, a.c_str(), AT_FDCWD, b.c_str(), RENAME_EXCHANGE) == 0;
}

/// A run killed between the two renames of the fallback left the old kit under its resting name: bring it back.
void restore_interrupted(const fs::path& out) {
  std::error_code error;
  const fs::path resting = beside(out, ".fanwright-old");
  if (!fs::exists(out, error) && fs::exists(resting, error))
    fs::rename(resting, out, error);
  else
    fs::remove_all(resting, error);
}

} // namespace

Staging::Staging(fs::path out, fs::path staged) : out_(std::move(out)), staged_(std::move(staged)) {}

Staging::Staging(Staging&& other) noexcept
    : out_(std::move(other.out_)), staged_(std::move(other.staged_)), written_(std::move(other.written_)) {
  other.staged_.clear();
}

Staging::~Staging() {
  std::error_code error;
  if (!staged_.empty())
    fs::remove_all(staged_, error);
}

std::variant<Staging, Problem> Staging::begin(const fs::path& asked) {
  std::error_code error;
  fs::path out = fs::weakly_canonical(fs::absolute(asked, error), error);
  if (!error && !out.has_filename())
    out = out.parent_path();
  if (error || !out.has_filename())
    return trouble(asked, "This is not the name of a folder that can be written; choose another --out.");
  restore_interrupted(out);
  if (auto refusal = refusal_to_replace(out))
    return *refusal;
  fs::create_directories(out.parent_path(), error);
  const fs::path staged = beside(out, ".fanwright-new");
  if (!error)
    fs::remove_all(staged, error);
  if (!error)
    fs::create_directory(staged, error);
  if (error)
    return trouble(out, "The folder beside it cannot be written: " + error.message() + ".");
  return Staging(out, staged);
}

std::optional<Problem> Staging::write(const File& file) {
  std::error_code error;
  fs::create_directories((staged_ / file.name).parent_path(), error);
  std::ofstream stream(staged_ / file.name, std::ios::binary | std::ios::trunc);
  stream.write(file.bytes.data(), static_cast<std::streamsize>(file.bytes.size()));
  stream.close();
  if (error || !stream)
    return trouble(out_ / file.name, "The file cannot be written; is the disk full?");
  written_.push_back({file.name, file.about, file.shared});
  return std::nullopt;
}

std::variant<std::string, Problem> Staging::zipped(const std::string& folder_name) const {
  std::vector<picture::PackagePart> parts;
  for (const Written& file : written_) {
    if (!file.shared)
      continue;
    std::ifstream stream(staged_ / file.name, std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(stream), {}};
    if (!stream)
      return trouble(staged_ / file.name, "The file cannot be read back; is the disk in order?");
    parts.push_back({folder_name + "/" + file.name, std::move(bytes)});
  }
  return picture::package(parts);
}

std::optional<Problem> Staging::put_in_place() {
  // Looked at again: whatever came into the folder while the kit was computed must not be lost either.
  if (auto refusal = refusal_to_replace(out_))
    return refusal;
  std::error_code error;
  const fs::path resting = beside(out_, ".fanwright-old");
  if (!fs::exists(out_, error)) {
    fs::rename(staged_, out_, error);
  } else if (!exchanged(staged_, out_)) {
    fs::rename(out_, resting, error);
    if (!error)
      fs::rename(staged_, out_, error);
    if (error) {
      std::error_code undo;
      if (!fs::exists(out_, undo))
        fs::rename(resting, out_, undo);
    }
  }
  if (error)
    return trouble(out_, "The finished kit cannot be put in its place: " + error.message() + ".");
  fs::remove_all(staged_, error);
  fs::remove_all(resting, error);
  staged_.clear();
  return std::nullopt;
}

std::string folder_name(std::string_view name) {
  std::string folder;
  for (const char letter : name) {
    const unsigned char byte = static_cast<unsigned char>(letter);
    const bool plain = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || (byte >= '0' && byte <= '9') ||
                       byte == '-' || byte == '_' || byte >= 0x80;
    const bool dot = byte == '.' && !folder.empty();
    if (plain || dot)
      folder += letter;
    else if (!folder.empty() && folder.back() != '-')
      folder += '-';
  }
  const auto continues = [&](std::size_t at) { return (static_cast<unsigned char>(folder[at]) & 0xC0) == 0x80; };
  if (folder.size() > longest_folder_name) {
    std::size_t end = longest_folder_name;
    while (end > 0 && continues(end)) // never within a UTF-8 character
      --end;
    folder.resize(end);
  }
  while (!folder.empty() && (folder.back() == '-' || folder.back() == '.'))
    folder.pop_back();
  return folder.empty() ? "size" : folder;
}

} // namespace fanwright::kit
