#include "studio/journal.h"

#include "studio/asked.h"
#include "studio/told.h"
#include "studio/whole_file.h"

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <fstream>
#include <sys/file.h>
#include <unistd.h>
#include <utility>

namespace fanwright::studio {
namespace {

constexpr const char* not_written =
    "The journal beside the design cannot be written; check the folder's permissions and that the disk is not full.";
constexpr const char* held = "This design is open in another studio; close it there, or work on it there.";
constexpr const char* too_long = "The journal has reached 64 MiB; it has to begin anew.";

/// Counts a line in.
void note(Recorded& recorded, const std::string& line) {
  const auto saved = asked::saved_in(line);
  if (saved)
    recorded.fingerprint = *saved;
  recorded.unsaved = !saved;
  recorded.lines.push_back(line);
}

/// The next line; false at the end, and for a line that broke off before its line feed.
bool next_line(std::istream& stream, std::string& line) { return std::getline(stream, line) && !stream.eof(); }

bool write_all(int descriptor, const std::string& bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t count = ::write(descriptor, bytes.data() + done, bytes.size() - done);
    if (count < 0 && errno != EINTR)
      return false;
    done += static_cast<std::size_t>(std::max<ssize_t>(count, 0));
  }
  return fdatasync(descriptor) == 0;
}

} // namespace

std::optional<Recorded> Journal::read(const std::filesystem::path& file) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(file, error) || std::filesystem::file_size(file, error) > most_bytes)
    return std::nullopt;
  std::ifstream stream(file, std::ios::binary);
  std::string line;
  if (!next_line(stream, line))
    return std::nullopt;
  const auto base = asked::journal_base(line);
  if (!base)
    return std::nullopt;
  Recorded recorded{base->text, base->fingerprint, {}, base->unsaved, line.size() + 1, line};
  while (next_line(stream, line) && asked::is_json(line)) {
    note(recorded, line);
    recorded.bytes += line.size() + 1;
  }
  return recorded;
}

std::variant<Journal, std::string> Journal::open(std::filesystem::path file, const std::string& base,
                                                 const std::string& fingerprint, bool unsaved) {
  Journal journal(std::move(file));
  journal.descriptor_ = ::open(journal.file_.c_str(), O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (journal.descriptor_ < 0)
    return not_written;
  if (flock(journal.descriptor_, LOCK_EX | LOCK_NB) != 0)
    return held;
  if (auto found = read(journal.file_)) {
    journal.recorded_ = *std::move(found);
    if (ftruncate(journal.descriptor_, static_cast<off_t>(journal.recorded_.bytes)) != 0)
      return not_written;
    return journal;
  }
  // What cannot be read as a journal is kept under another name; a begun one that broke off holds nothing.
  std::error_code error;
  if (std::filesystem::file_size(journal.file_, error) > 0)
    std::filesystem::copy_file(journal.file_, journal.file_.string() + ".unreadable",
                               std::filesystem::copy_options::overwrite_existing, error);
  if (auto trouble = journal.restart(base, fingerprint, unsaved))
    return *trouble;
  return journal;
}

Journal::Journal(Journal&& other) noexcept
    : file_(std::move(other.file_)), descriptor_(std::exchange(other.descriptor_, -1)),
      recorded_(std::move(other.recorded_)) {}

Journal& Journal::operator=(Journal&& other) noexcept {
  std::swap(file_, other.file_);
  std::swap(descriptor_, other.descriptor_);
  std::swap(recorded_, other.recorded_);
  return *this;
}

Journal::~Journal() {
  if (descriptor_ >= 0)
    close(descriptor_);
}

std::optional<std::string> Journal::append(const std::vector<std::string>& lines) {
  std::string bytes;
  for (const std::string& line : lines)
    bytes += line + "\n";
  if (recorded_.bytes + bytes.size() > most_bytes)
    return too_long;
  if (!write_all(descriptor_, bytes)) {
    static_cast<void>(ftruncate(descriptor_, static_cast<off_t>(recorded_.bytes)));
    return not_written;
  }
  recorded_.bytes += bytes.size();
  for (const std::string& line : lines)
    note(recorded_, line);
  return std::nullopt;
}

std::optional<std::string> Journal::saved(const std::string& fingerprint) {
  return append({told::journal_saved(fingerprint)});
}

std::optional<std::string> Journal::restart(const std::string& base, const std::string& fingerprint, bool unsaved,
                                            std::uint64_t number) {
  const std::string line = told::journal_base(base, fingerprint, unsaved, number);
  if (auto trouble = write_whole(file_.string(), line + "\n"))
    return not_written;
  const int fresh = ::open(file_.c_str(), O_RDWR | O_APPEND | O_CLOEXEC | O_NOFOLLOW);
  if (fresh < 0 || flock(fresh, LOCK_EX | LOCK_NB) != 0) {
    if (fresh >= 0)
      close(fresh);
    return not_written;
  }
  close(std::exchange(descriptor_, fresh));
  recorded_ = {base, fingerprint, {}, unsaved, line.size() + 1, line};
  return std::nullopt;
}

std::optional<std::string> Journal::rename(std::filesystem::path file) {
  std::error_code error;
  std::filesystem::rename(file_, file, error);
  if (error)
    return not_written;
  file_ = std::move(file);
  return std::nullopt;
}

void Journal::remove() {
  std::error_code error;
  std::filesystem::remove(file_, error);
}

} // namespace fanwright::studio
