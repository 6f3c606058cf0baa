// One step of the work: its number, title, figure and text.
#pragma once

#include "booklet/edition.h"

namespace fanwright::booklet {

struct StepWords {
  std::string title;
  std::vector<std::string> paragraphs;
  std::optional<Scene> scene; ///< empty: no figure, text over the whole column
};

/// What a part of a figure is called.
Message name_of_part(Part part);

/// The figure stands beside its text; one too wide for that stands above it. Under the figure its tags are named.
Block step_block(const Edition& edition, int number, const StepWords& step);

/// The figure of a scene alone in the middle of the column, its tags named underneath.
Block figure_block(const Edition& edition, Scene scene, double height_mm);

} // namespace fanwright::booklet
