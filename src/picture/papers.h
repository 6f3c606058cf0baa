// Papers to draw with: a small set of our own names, each with its colour, translucency and shine.
#pragma once

#include "picture/vec3.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fanwright::picture {

/// How a paper looks. Colours are linear light 0..1; shares are of the light that falls on it.
struct Paper {
  Vec3 colour;           ///< facing the light
  float through = 0.16F; ///< share of the scattered light that leaves on the other side, 0..0.5
  float sheen = 0;       ///< strength of the broad metallic highlight, 0..1
  float glitter = 0;     ///< share of the outer edge's band covered with flakes, 0..1
};

struct NamedPaper {
  std::string_view name;   ///< as written on the command line
  std::string_view colour; ///< sRGB #rrggbb
  float through, sheen, glitter;
};

/// All named papers, lightest first.
const std::vector<NamedPaper>& named_papers();

/// The paper of that name, or a plain one of the colour "#rrggbb"; empty when the text is neither.
std::optional<Paper> paper_called(std::string_view name_or_colour);

/// The names separated by commas, for a sentence.
std::string paper_names();

} // namespace fanwright::picture
