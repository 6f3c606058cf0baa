// The fans that a design seats on its opened ornament, as paper.
#pragma once

#include "design/design.h"
#include "fan/seated_fans.h"
#include "picture/fan_paper.h"

#include <variant>
#include <vector>

namespace fanwright::picture {

/// Those that were seated, by the names of their strips.
std::variant<std::vector<FanPaper>, design::Refusal> paper_of(const std::vector<fan::SizedFan>& fans,
                                                              const std::vector<fan::SeatedFan>& seats,
                                                              double spacing_mm = fan_spacing_mm);

/// Makes and seats the fans of a size on its form, which must have its mesh. Fans without a seat are left out, and all
/// of them where the form is none that paper takes. A refusal has its place in the design file.
std::variant<std::vector<FanPaper>, design::Refusal> seated_paper(const design::Design& design,
                                                                  const design::Size& size, const opened::Form& form);

} // namespace fanwright::picture
