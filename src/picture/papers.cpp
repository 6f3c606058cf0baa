#include "picture/papers.h"

#include "picture/colour.h"

#include <algorithm>

namespace fanwright::picture {

// Colours and shares were chosen by eye; no maker's range is behind them.
const std::vector<NamedPaper>& named_papers() {
  static const std::vector<NamedPaper> papers = {
      {"blossom", "#f4ece4", 0.22F, 0, 0},    {"hoarfrost", "#e6ecee", 0.18F, 0.25F, 0.55F},
      {"quince", "#dcae3c", 0.14F, 0, 0},     {"windfall", "#c8563c", 0.12F, 0, 0},
      {"russet", "#a86b3c", 0.10F, 0.55F, 0}, {"heather", "#8c7a9e", 0.14F, 0, 0},
      {"orchard", "#5c8a4c", 0.12F, 0, 0},    {"bramble", "#6b2a48", 0.08F, 0.2F, 0.35F},
      {"spruce", "#2f5c4a", 0.08F, 0, 0.4F},  {"dusk", "#34466e", 0.08F, 0.15F, 0.45F},
  };
  return papers;
}

std::optional<Paper> paper_called(std::string_view name_or_colour) {
  const auto& papers = named_papers();
  const auto named = std::ranges::find(papers, name_or_colour, &NamedPaper::name);
  const auto colour = linear_colour(named == papers.end() ? name_or_colour : named->colour);
  if (!colour)
    return std::nullopt;
  Paper paper;
  paper.colour = *colour;
  if (named != papers.end()) {
    paper.through = named->through;
    paper.sheen = named->sheen;
    paper.glitter = named->glitter;
  }
  return paper;
}

std::string paper_names() {
  std::string names;
  for (const auto& paper : named_papers())
    names += (names.empty() ? "" : ", ") + std::string(paper.name);
  return names;
}

} // namespace fanwright::picture
