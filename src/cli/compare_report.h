// A comparison as a person and as a program read it.
#pragma once

#include "fit/compare.h"

#include <optional>
#include <string>

namespace fanwright::cli {

struct ComparedSize {
  std::string title, name;
  fit::Comparison comparison;
  std::optional<fit::Correction> correction;
  double unit_mm = 1; ///< lengths are shown in this unit
};

std::string compare_json(const ComparedSize& compared);
std::string compare_text(const ComparedSize& compared);

} // namespace fanwright::cli
