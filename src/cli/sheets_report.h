// A layout of leaves on sheets as a person and as a program read it.
#pragma once

#include "sheets/job.h"

#include <string>
#include <vector>

namespace fanwright::cli {

/// Sizes that are cut from the same paper, laid out together.
struct LaidPaper {
  sheets::Job job;
  sheets::JobPlan plan;
  double seconds = 0;
};

/// One JSON object with the keys always in the same order; lengths mm to 0.001, docs/sheets.md describes them.
std::string sheets_json(const std::string& title, const std::vector<LaidPaper>& papers);

std::string sheets_table(const std::string& title, const std::vector<LaidPaper>& papers);

} // namespace fanwright::cli
