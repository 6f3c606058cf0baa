// What the maker typed for fanwright droop, as values.
#pragma once

#include "paper/droop.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::cli {

/// The options as they were typed; empty: not given. Numbers take a decimal point or comma, lengths a unit (mm, cm,
/// in).
struct DroopRequest {
  std::string grammage;            ///< g/m2
  std::string weigh;               ///< MASS:SHEET[:COUNT], mass in g
  std::vector<std::string> along;  ///< OVERHANG:DROP or OVERHANG:ANGLEdeg
  std::vector<std::string> across; ///< the same
  std::string stack;               ///< height of the stack
  std::string sheets = "10";       ///< in the stack
  std::string ruler;               ///< how far overhang and drop may be off
  std::string units = "mm";        ///< of lengths without a unit
  std::string paper_into;          ///< design file to write the paper into
  std::string size;                ///< its size of this name only
  std::string out;                 ///< write a copy of the design file instead
  bool json = false;
};

/// A stack of sheets and what it says of one; the reading may be off by 0.1 mm.
struct Stack {
  double height_mm = 0;
  int sheets = 10;
  [[nodiscard]] double caliper_mm() const { return height_mm / sheets; }
  [[nodiscard]] double uncertainty() const; ///< of the caliper, a share
};

struct DroopInput {
  double grammage_gsm = 0;
  bool weighed = false;
  std::optional<Stack> stack;
  std::vector<paper::DroopReading> along, across; ///< at least one in all
  paper::ReadingErrors errors;
};

/// The values, or one sentence about the first option that is wrong.
std::variant<DroopInput, std::string> droop_input(const DroopRequest& request);

} // namespace fanwright::cli
