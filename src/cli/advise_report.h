// Advice as a person and as a program read it.
#pragma once

#include "design/design.h"
#include "fit/advice.h"

#include <string>
#include <vector>

namespace fanwright::cli {

/// Hours for one leaf count: work of the hands, and until the piece is done.
struct Hours {
  double hands_on = 0, finished = 0;
};

struct AdvisedSize {
  design::Size size;
  fit::Advice advice;
  std::vector<Hours> hours; ///< of each of advice.looks
};

std::string advise_json(const std::string& title, const std::vector<AdvisedSize>& sizes);
std::string advise_text(const std::string& title, const std::vector<AdvisedSize>& sizes);

} // namespace fanwright::cli
