#include "kit/fan_sheets.h"

#include "kit/page_notes.h"
#include "kit/size_sheet.h"
#include "leaf/contour.h"
#include "leaf/leaf.h"

#include <algorithm>
#include <set>

namespace fanwright::kit {

namespace {

constexpr std::uint64_t seed = 1;

bool same(const paper::Paper& a, const paper::Paper& b) {
  return a.grammage_gsm == b.grammage_gsm && a.caliper_mm == b.caliper_mm && a.modulus_along_mpa == b.modulus_along_mpa;
}

/// Pieces of a strip; its letter goes on them.
std::variant<std::vector<FanPiece>, design::Refusal> pieces_of(const fan::NamedStrip& strip, char letter,
                                                               double longest_mm) {
  auto parts = fan::parts(strip.strip, longest_mm);
  if (auto* refusal = std::get_if<design::Refusal>(&parts))
    return std::move(*refusal);
  std::vector<FanPiece> pieces;
  for (fan::StripPart& part : std::get<std::vector<fan::StripPart>>(parts))
    pieces.push_back({std::string(1, letter) + std::to_string(pieces.size() + 1), strip.name, std::move(part)});
  return pieces;
}

sheets::Job job_of(const std::vector<FanPiece>& pieces, const design::Sheet& sheet) {
  sheets::Job job;
  job.stocks.push_back({sheet_of(sheet), false, 0, std::nullopt});
  for (const FanPiece& piece : pieces)
    job.kinds.push_back({piece.strip + ", part " + piece.code,
                         leaf::flatten(piece.part.cut, leaf::flatten_tolerance_mm),
                         {},
                         1,
                         sheets::Turns::upright,
                         false});
  return job;
}

/// Notes get a strip of their own where the pieces leave it.
std::variant<sheets::JobPlan, sheets::Refusal> planned(const sheets::Job& job) {
  const sheets::Effort effort{sheets::quick_work, seed, {}, {}};
  sheets::Job less = job;
  less.stocks.front().sheet = less_notes(less.stocks.front().sheet);
  auto with_band = sheets::plan(less, effort);
  return std::holds_alternative<sheets::JobPlan>(with_band) ? std::move(with_band) : sheets::plan(job, effort);
}

} // namespace

std::variant<std::vector<FanLayout>, design::Refusal> fan_layouts(const std::vector<fan::SizedFan>& fans,
                                                                  const design::Sheet& sheet) {
  const double longest_mm = sheet.size.width_mm - 2 * sheet.margin_mm - 4 * sheets::curve_allowance_mm;
  std::vector<FanLayout> layouts;
  char letter = 'A';
  for (const fan::SizedFan& fan : fans) {
    const auto known = std::find_if(layouts.begin(), layouts.end(),
                                    [&](const FanLayout& layout) { return same(layout.paper, fan.paper); });
    FanLayout& layout = known != layouts.end() ? *known : layouts.emplace_back(FanLayout{fan.paper, {}, {}, {}});
    for (const fan::NamedStrip& strip : fan::strips_of(fan)) {
      auto pieces = pieces_of(strip, letter++, longest_mm);
      if (auto* refusal = std::get_if<design::Refusal>(&pieces))
        return std::move(*refusal);
      for (FanPiece& piece : std::get<std::vector<FanPiece>>(pieces))
        layout.pieces.push_back(std::move(piece));
    }
  }
  for (FanLayout& layout : layouts) {
    layout.job = job_of(layout.pieces, sheet);
    auto plan = planned(layout.job);
    if (auto* refusal = std::get_if<sheets::Refusal>(&plan))
      return design::Refusal{"", std::move(refusal->sentence)};
    layout.plan = std::get<sheets::JobPlan>(std::move(plan));
  }
  return layouts;
}

int sheets_in(const std::vector<FanLayout>& layouts, const paper::Paper& paper) {
  int count = 0;
  for (const FanLayout& layout : layouts)
    count += same(layout.paper, paper) ? layout.plan.sheets_in_all : 0;
  return count;
}

making::FanWork work_of(const std::vector<FanLayout>& layouts) {
  constexpr double gathered_mm = 3; // of glue between two pleats
  making::FanWork work;
  std::set<std::string> strips;
  for (const FanLayout& layout : layouts)
    for (const FanPiece& piece : layout.pieces) {
      const leaf::Ring ring = leaf::flatten(piece.part.cut, leaf::flatten_tolerance_mm);
      strips.insert(piece.strip);
      ++work.parts;
      work.paper_g += leaf::signed_area(piece.part.cut) * layout.paper.grammage_gsm * 1e-6;
      std::set<int> creases;
      for (const fan::Score& score : piece.part.scores)
        creases.insert(score.crease);
      work.creases += static_cast<int>(creases.size());
      for (const fan::GlueStretch& glue : piece.part.glue) {
        const auto [low, high] = fan::paper_at(ring, (glue.from_x + glue.to_x) / 2);
        work.bead_mm += high - low;
      }
      work.bead_mm += gathered_mm * (piece.part.last_panel - piece.part.first_panel + 1);
    }
  work.strips = static_cast<int>(strips.size());
  return work;
}

} // namespace fanwright::kit
