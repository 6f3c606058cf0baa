#include "cli/design_file.h"

#include "cli/terminal.h"

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <variant>

namespace fanwright::cli {
namespace {

/// design::parse() refuses longer texts; no more than this and one byte is read of any file.
constexpr std::size_t most_bytes = 1'048'576;

std::optional<std::string> read_text(const std::string& file) {
  std::error_code error;
  const auto status = std::filesystem::status(file, error);
  if (!std::filesystem::exists(status)) {
    complain(file + ": There is no such file; check its name and folder.");
    return std::nullopt;
  }
  // Pipes and devices might never end.
  if (!std::filesystem::is_regular_file(status)) {
    complain(file + ": This is not a file; name a design file (*.ornament.json).");
    return std::nullopt;
  }
  std::ifstream stream(file, std::ios::binary);
  std::string text(most_bytes + 1, '\0');
  if (stream) {
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  }
  if (!stream.is_open() || stream.bad()) {
    complain(file + ": The file cannot be read; check its permissions.");
    return std::nullopt;
  }
  text.resize(static_cast<std::size_t>(stream.gcount()));
  return text;
}

} // namespace

void complain_about(const std::string& file, const design::Refusal& refusal) {
  complain(file + ": " + (refusal.where.empty() ? "" : refusal.where + ": ") + refusal.sentence);
}

std::optional<DesignFile> read_design_file(const std::string& file) {
  auto text = read_text(file);
  if (!text) {
    return std::nullopt;
  }
  auto parsed = design::parse(*text);
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed)) {
    complain_about(file, *refusal);
    return std::nullopt;
  }
  return DesignFile{std::move(*text), std::get<design::Design>(std::move(parsed))};
}

std::optional<design::Design> read_design(const std::string& file) {
  auto read = read_design_file(file);
  return read ? std::optional(std::move(read->design)) : std::nullopt;
}

} // namespace fanwright::cli
