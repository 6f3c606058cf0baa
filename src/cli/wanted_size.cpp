#include "cli/wanted_size.h"

#include "cli/design_file.h"
#include "cli/terminal.h"

namespace fanwright::cli {

std::vector<design::Size> sizes_named(const design::Design& design, const std::string& name, const std::string& file) {
  if (name.empty()) {
    return design.sizes;
  }
  std::string names;
  for (const auto& size : design.sizes) {
    if (size.name == name) {
      return {size};
    }
    names += (names.empty() ? "\"" : ", \"") + size.name + "\"";
  }
  complain(file + ": There is no size \"" + name + "\"; the file has " + names + ".");
  return {};
}

std::optional<design::Size> size_named(const design::Design& design, const std::string& name, const std::string& file) {
  auto sizes = sizes_named(design, name, file);
  return sizes.empty() ? std::nullopt : std::optional(std::move(sizes.back()));
}

int exit_for(const std::string& file, const fit::Failure& failure) {
  complain_about(file, {failure.where, failure.sentence});
  return failure.fails_check ? Exit::check_failed : Exit::refused;
}

} // namespace fanwright::cli
