#include "picture/seated_paper.h"

#include "fit/check_limits.h"

#include <algorithm>
#include <utility>

namespace fanwright::picture {

std::variant<std::vector<FanPaper>, design::Refusal>
paper_of(const std::vector<fan::SizedFan>& fans, const std::vector<fan::SeatedFan>& seats, double spacing_mm) {
  std::vector<FanPaper> papers;
  for (const fan::SeatedFan& seat : seats) {
    const fan::SizedFan& sized = fans[seat.fan];
    const auto strips = fan::strips_of(sized);
    for (std::size_t k = 0; k < seat.seated.fans.size(); ++k) {
      auto paper = fan_paper(seat.seated.fans[k], strips[k].name, sized.paper.caliper_mm, spacing_mm);
      if (const auto* sentence = std::get_if<std::string>(&paper))
        return design::Refusal{sized.fan->where + "/outline", *sentence};
      papers.push_back(std::get<FanPaper>(std::move(paper)));
    }
  }
  return papers;
}

std::variant<std::vector<FanPaper>, design::Refusal> seated_paper(const design::Design& design,
                                                                  const design::Size& size, const opened::Form& form) {
  // Of a fan without a seat nothing is drawn, so that nothing can be wrong with it here.
  const bool real = form.lock_ratio <= fit::limit::opens_lock && form.peak_strain <= fit::limit::torn_strain;
  if (!real || std::ranges::none_of(design.fans, [](const design::Fan& fan) { return fan.seat.has_value(); }))
    return std::vector<FanPaper>{};
  const auto fans = fan::fans_of(design, size);
  if (const auto* refusal = std::get_if<design::Refusal>(&fans))
    return *refusal;
  const auto& sized = std::get<std::vector<fan::SizedFan>>(fans);
  const auto seats =
      fan::seated_fans(sized, form, size.leaves, size.paper, design.making.display == design::Display::stands);
  if (const auto* unseated = std::get_if<fan::Unseated>(&seats))
    return unseated->why;
  return paper_of(sized, std::get<std::vector<fan::SeatedFan>>(seats));
}

} // namespace fanwright::picture
