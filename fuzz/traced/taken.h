// One file taken over as the command and the studio do it: read, cleaned, made a design, its changes drawn.
#pragma once

#include "traced/first_design.h"
#include "traced/overlay.h"
#include "traced/traced.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace fanwright::fuzz {

/// Whatever the bytes, figures or one sentence come out; the process is aborted when neither does.
inline void take(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto result = traced::silhouettes(bytes);
  if (const auto* sentence = std::get_if<std::string>(&result)) {
    if (sentence->empty() || sentence->find('\n') != std::string::npos)
      std::abort();
    return;
  }
  const auto& found = std::get<traced::Found>(result);
  if (found.figures.empty())
    std::abort();
  for (const traced::Figure& figure : found.figures) {
    const std::string text = traced::first_design(figure, "Pear", design::Shows::opened);
    if (!std::holds_alternative<design::Design>(design::parse(text)) || traced::overlay(figure, "Pear").empty())
      std::abort();
  }
}

} // namespace fanwright::fuzz
