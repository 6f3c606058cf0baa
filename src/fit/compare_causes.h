// The inputs that may explain a prototype, each with its range and how usual its values are.
#pragma once

#include "design/design.h"
#include "fit/compare.h"
#include "fit/compare_neighbours.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace fanwright::fit {

/// One cause that can be tried.
struct Trial {
  Cause cause = Cause::cut_scale;
  double none = 0;          ///< the value that changes nothing
  double low = 0, high = 0; ///< values worth trying; equal when only one is
  double step = 0;          ///< first distance from `none` to look at
  bool whole = false;       ///< whole numbers only
  std::function<std::optional<Extent>(double)> open;
  std::function<double(double)> doubt; ///< as in Explanation
  std::function<std::string(double)> sentence;
  std::function<std::string(double)> check;
};

/// All causes that apply to this size. The functions call `neighbours` and `size`, which must outlive them.
std::vector<Trial> trials(Neighbours& neighbours, const design::Size& size);

} // namespace fanwright::fit
