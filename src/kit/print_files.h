// Files for a printer, on A4 and letter whatever the maker's own sheet is: the leaves to cut by hand, and one master
// leaf to trace. Every page carries its measures; the first page of a file is there to be checked before paper is
// spent.
#pragma once

#include "kit/measured_page.h"
#include "kit/part.h"

#include <string>
#include <vector>

namespace fanwright::kit {

struct PrintFile {
  std::string name;  ///< "print-A4.pdf"
  std::string sheet; ///< "A4", "letter"
  std::string about; ///< one clause
  std::vector<MeasuredPage> pages;
};

/// A page size that printers at home take; both have their grain along the longer side as a rule.
struct PrintPaper {
  const char* name;
  paper::SheetSize size;
};

std::vector<PrintPaper> print_papers();

/// All leaves: a page to check first, then a front for each layout. With printed marks every front has its back, which
/// carries the rows of the outer face, mirrored for turning over on the long edge. A leaf larger than the page is
/// printed in parts, once, as a template.
PrintFile print_file(const design::Design& design, const Part& part, const PrintPaper& paper);

/// One leaf to trace: whole, and half on a fold; in parts where the page is too small.
PrintFile master_leaf(const design::Design& design, const Part& part, const PrintPaper& paper);

} // namespace fanwright::kit
