// Sizes of a design by the names the page gives.
#pragma once

#include "design/design.h"

#include <algorithm>
#include <string>

namespace fanwright::studio {

/// The size of this name, the last one when the name is empty; null when there is none.
inline const design::Size* size_of(const design::Design& design, const std::string& name) {
  if (name.empty())
    return &design.sizes.back();
  const auto found = std::ranges::find(design.sizes, name, &design::Size::name);
  return found == design.sizes.end() ? nullptr : &*found;
}

} // namespace fanwright::studio
