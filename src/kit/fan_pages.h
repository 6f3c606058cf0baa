// Pages with the strips of fans: for cutting machines on the maker's own sheet, for printers on theirs.
#pragma once

#include "kit/fan_sheets.h"
#include "kit/print_files.h"

#include <optional>
#include <vector>

namespace fanwright::kit {

/// Every sheet of every layout, in their order. `hatched`: glue is hatched and pieces carry their codes, for print;
/// else glue is framed where the design prints its marks.
std::vector<MeasuredPage> fan_pages(const design::Design& design, const design::Size& size,
                                    const std::vector<FanLayout>& layouts, const design::Sheet& sheet, bool for_print);

/// All strips of the part's fans to print on a paper, a page to check first. Empty when a strip is too long in its
/// pleats for the page.
std::optional<PrintFile> fan_print_file(const design::Design& design, const Part& part, const PrintPaper& paper);

} // namespace fanwright::kit
