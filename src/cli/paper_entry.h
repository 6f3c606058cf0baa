// The "paper" of a design file as text, and putting it into a file that is otherwise left as its maker wrote it.
#pragma once

#include "design/design.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace fanwright::cli {

/// A paper that was measured.
struct PaperEntry {
  double grammage_gsm = 0;
  std::optional<double> caliper_mm;
  double along_mnm = 0, across_mnm = 0; ///< bending stiffness, ISO 5628
};

/// The entry as a JSON object on one line, four significant digits, for a file whose unit of length is `units_to_mm`
/// mm. `more` holds further members, each with a comma before it.
std::string paper_text(const PaperEntry& entry, double units_to_mm, std::string_view more = {});

/// Whether a design file takes the entry.
bool can_be_paper(const PaperEntry& entry);

/// The design file with the paper in it: of the whole family, or of the size of the given name. Grain, colour and
/// Poisson's ratio of an older entry stay; every byte outside the entry stays. `design` is what `text` says.
std::variant<std::string, design::Refusal> with_paper(std::string_view text, const design::Design& design,
                                                      const std::string& size, const PaperEntry& entry);

} // namespace fanwright::cli
