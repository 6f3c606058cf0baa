// Lines that stand for outlines: joined where their ends meet, nested ones taken as cut-outs.
#pragma once

#include "traced/plane.h"

#include <optional>
#include <vector>

namespace fanwright::traced {

struct DrawnLine {
  std::vector<Point> points;
  bool closed = false;
};

struct Joined {
  std::vector<Ring> rings;
  int joints = 0;              ///< gaps that were closed, ends that met apart
  double widest_gap = 0;       ///< of those
  int left_open = 0;           ///< lines that enclose nothing
  double straight_closing = 0; ///< length of the line that closes an outline whose ends are far apart; 0 without one
};

/// Joins open lines whose ends lie within `reach` of each other. When nothing closes, the longest line is closed by a
/// straight one: half an outline, from the spine's top to its foot.
Joined joined(std::vector<DrawnLine> lines, double reach);

/// The areas that outlines bound: one inside another is a cut-out of it, ones that overlap are united. Empty when they
/// meet in more places than those of a leaf do.
std::optional<Areas> nested(const std::vector<Areas>& outlines);

} // namespace fanwright::traced
