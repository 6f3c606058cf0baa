// The strips of the fans of one size on sheets: which pieces there are, and where they lie.
#pragma once

#include "fan/fans.h"
#include "making/making.h"
#include "sheets/job.h"

#include <string>
#include <variant>
#include <vector>

namespace fanwright::kit {

/// One piece of paper to cut.
struct FanPiece {
  std::string code;  ///< "A1": strip A, its first part from the left; stands on the piece
  std::string strip; ///< "wing, left"
  fan::StripPart part;
};

/// All pieces of one paper, laid out.
struct FanLayout {
  paper::Paper paper;
  std::vector<FanPiece> pieces;
  sheets::Job job;      ///< kind k is pieces[k]
  sheets::JobPlan plan; ///< of the job, or of one whose sheet is shorter by what the notes take
};

/// The strips in parts that this sheet takes, and their layout: pleats upright, so that the grain of long-grain sheets
/// runs along them. One layout for each paper. `sheet` is upright or square. Refusals have no place.
std::variant<std::vector<FanLayout>, design::Refusal> fan_layouts(const std::vector<fan::SizedFan>& fans,
                                                                  const design::Sheet& sheet);

/// Sheets in all, of layouts in `paper` alone: what is cut from the same paper as the leaves.
int sheets_in(const std::vector<FanLayout>& layouts, const paper::Paper& paper);

/// What it takes to make them, once.
making::FanWork work_of(const std::vector<FanLayout>& layouts);

} // namespace fanwright::kit
