#include "cli/design_file.h"

#include "cli/bounded_file.h"
#include "cli/terminal.h"

#include <cstddef>
#include <variant>

namespace fanwright::cli {
namespace {

/// design::parse() refuses longer texts; no more than this and one byte is read of any file.
constexpr std::size_t most_bytes = 1'048'576;

} // namespace

void complain_about(const std::string& file, const design::Refusal& refusal) {
  complain(file + ": " + (refusal.where.empty() ? "" : refusal.where + ": ") + refusal.sentence);
}

std::optional<DesignFile> read_design_file(const std::string& file) {
  auto text = read_bounded(file, most_bytes, "name a design file (*.ornament.json)");
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
