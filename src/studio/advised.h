// Advice for one size with the hours that go with each leaf count.
#pragma once

#include "design/design.h"
#include "fit/advice.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::studio {

/// Hours for one leaf count: work of the hands, and until the piece is done.
struct Hours {
  double hands_on = 0, finished = 0;
};

struct Advised {
  design::Size size;
  fit::Advice advice;
  std::vector<Hours> hours; ///< of each of advice.looks
};

std::variant<Advised, fit::Failure> advised(const design::Design& design, const design::Size& size,
                                            const fit::Options& options = {});

/// As a JSON object: lengths mm, moments N mm.
std::string json_of(const Advised& advised);

} // namespace fanwright::studio
