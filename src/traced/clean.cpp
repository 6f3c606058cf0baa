#include "traced/clean.h"

#include "fit/bends.h"
#include "fit/check_limits.h"
#include "leaf/contour.h"
#include "traced/along.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace fanwright::traced {
namespace {

constexpr double crumb_mm2 = 0.02; ///< what rounding leaves

std::string counted(std::size_t count, const char* one, const char* many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

Area largest(Areas areas) {
  return *std::max_element(areas.begin(), areas.end(),
                           [](const Area& a, const Area& b) { return area_of(a) < area_of(b); });
}

/// Whether the whole falls apart, or a hole of it opens, without the part.
bool is_link(const Area& part, const Area& whole) {
  // Grown a little, so that no thread of rounding stays where it joined.
  const Areas rest = without({whole}, grown({part}, 1e-4, Corners::sharp));
  std::size_t pieces = 0, holes = 0;
  for (const Area& area : rest)
    if (area_of(area) > crumb_mm2) {
      ++pieces;
      holes += area.holes.size();
    }
  return pieces > 1 || holes < whole.holes.size();
}

/// Whether to hold each of the parts against the whole would take longer than any drawing for paper needs.
bool too_many(const Areas& parts, double least_mm2, const Area& whole) {
  constexpr double most_work = 1e6; // parts times points: a fir of 200 tips in 5,000 points; about two seconds
  const auto count =
      std::count_if(parts.begin(), parts.end(), [&](const Area& part) { return area_of(part) >= least_mm2; });
  std::size_t points = whole.outline.size();
  for (const Ring& hole : whole.holes)
    points += hole.size();
  return static_cast<double>(count) * static_cast<double>(points) > most_work;
}

/// Mean width of a long thin piece: twice its area by its length all round.
double mean_width(const Area& area) { return 2 * area_of(area) / length_of(area.outline, true); }

double extent_of(const Area& area) {
  const leaf::Box box = leaf::bounds(area.outline);
  return std::hypot(box.width(), box.height());
}

} // namespace

Cleaned cleaned(const Area& half, double slit_mm, double bridge_mm, double speck_mm2) {
  // A tip that the offsets cut short is shorter than the one or wider than the other, whatever its angle.
  constexpr double hair_share = 0.25, least_hair = 4; // mean width and length, in bridges
  Cleaned result{half, {}, {}, {}};

  const auto specks = static_cast<std::size_t>(std::count_if(
      half.holes.begin(), half.holes.end(), [&](const Ring& hole) { return -leaf::signed_area(hole) < speck_mm2; }));
  if (specks > 0) {
    for (const Ring& hole : half.holes)
      if (-leaf::signed_area(hole) < speck_mm2)
        result.filled.push_back({Ring(hole.rbegin(), hole.rend()), {}});
    result.area.holes.erase(std::remove_if(result.area.holes.begin(), result.area.holes.end(),
                                           [&](const Ring& hole) { return -leaf::signed_area(hole) < speck_mm2; }),
                            result.area.holes.end());
    result.notes.push_back(counted(specks, "speck of a hole was", "specks of holes were") + " filled.");
  }

  const Areas closed = grown(grown({result.area}, slit_mm / 2, Corners::sharp), -slit_mm / 2, Corners::sharp);
  Areas gapless = {result.area};
  for (const Area& gap : without(closed, {result.area}))
    if (area_of(gap) > crumb_mm2 && leaf::bounds(gap.outline).left >= 0) {
      result.filled.push_back(gap);
      gapless.push_back(gap);
    }
  const std::size_t gaps = gapless.size() - 1;
  if (gaps > 0) {
    result.area = largest(united(std::vector<Areas>{gapless}));
    result.notes.push_back(counted(gaps, "gap", "gaps") + " narrower than a knife slit closed.");
  }

  const Areas opened = grown(grown({result.area}, -bridge_mm / 2, Corners::sharp), bridge_mm / 2, Corners::sharp);
  if (opened.empty())
    return result;
  // Seams of no width, left where both nearly agree, would lengthen the slivers.
  constexpr double seam_mm = 1e-3;
  const Areas thin = grown(grown(without({result.area}, opened), -seam_mm, Corners::sharp), seam_mm, Corners::sharp);
  if (too_many(thin, crumb_mm2, result.area)) {
    result.too_ragged = true;
    return result;
  }
  std::size_t hairs = 0;
  for (const Area& sliver : thin) {
    if (area_of(sliver) < crumb_mm2)
      continue;
    if ((mean_width(sliver) > hair_share * bridge_mm || extent_of(sliver) < least_hair * bridge_mm) &&
        !is_link(sliver, result.area))
      continue;
    const Areas rest = without({result.area}, grown({sliver}, 1e-4, Corners::sharp));
    if (rest.empty())
      continue;
    const Area kept = largest(rest);
    for (const Area& lost : without({result.area}, {kept}))
      if (area_of(lost) > crumb_mm2)
        result.dropped.push_back(lost);
    result.area = kept;
    ++hairs;
  }
  if (hairs > 0)
    result.notes.push_back(counted(hairs, "sliver of paper was", "slivers of paper were") +
                           " dropped: too narrow to hold.");
  return result;
}

namespace {

Point middle_of(const Ring& ring) {
  const leaf::Box box = leaf::bounds(ring);
  return {(box.left + box.right) / 2, (box.bottom + box.top) / 2};
}

Mark mark_at(Point place, double size_mm, const char* sentence, double told_mm, double limit_mm) {
  char text[160];
  std::snprintf(text, sizeof text, sentence, told_mm, limit_mm);
  return {place, size_mm, text};
}

/// Cut-outs that a knife can hardly cut out.
void mark_cut_outs(const Area& half, std::vector<Mark>& marks) {
  const double least = fit::limit::knife_hole_mm;
  for (const Ring& hole : half.holes) {
    const double width = widest_circle({Ring(hole.rbegin(), hole.rend()), {}});
    if (width < least)
      marks.push_back(mark_at(middle_of(hole), width,
                              "A cut-out is only %.1f mm wide; by hand at least %.0f mm can be cut.", width, least));
  }
}

/// Paper that hardly holds what hangs on it. False when there is too much of it.
bool mark_bridges(const Area& half, std::vector<Mark>& marks) {
  constexpr double worth_marking_mm2 = 0.5;
  const double bridge = fit::limit::knife_bridge_mm;
  const Areas opened = grown(grown({half}, -bridge / 2, Corners::round), bridge / 2 + 0.02, Corners::round);
  const Areas thin_parts = without({half}, opened);
  if (too_many(thin_parts, worth_marking_mm2, half))
    return false;
  for (const Area& thin : thin_parts) {
    // On the spine the other half holds on; a tip holds nothing.
    if (area_of(thin) < worth_marking_mm2 || leaf::bounds(thin.outline).left < 1e-3 || !is_link(thin, half))
      continue;
    const double width = mean_width(thin);
    marks.push_back(mark_at(middle_of(thin.outline), width,
                            "Paper is only %.1f mm wide here and tears easily; keep at least %.0f mm.", width, bridge));
  }
  return true;
}

/// Gaps from the edge that a knife can hardly cut. What is short beside its width is a corner.
void mark_gaps(const Area& half, std::vector<Mark>& marks) {
  constexpr double gap_length = 3;
  const double least = fit::limit::knife_gap_mm;
  const Areas closed = grown(grown({{half.outline, {}}}, least / 2, Corners::round), -least / 2 - 0.02, Corners::round);
  for (const Area& gap : without(closed, {{half.outline, {}}})) {
    if (extent_of(gap) < gap_length * least || leaf::bounds(gap.outline).left < 0)
      continue;
    const double width = mean_width(gap);
    marks.push_back(mark_at(middle_of(gap.outline), width,
                            "A gap is only %.1f mm wide here; by hand at least %.1f mm can be cut.", width, least));
  }
}

} // namespace

std::optional<std::vector<Mark>> fine_details(const Area& half) {
  std::vector<Mark> marks;
  mark_cut_outs(half, marks);
  if (!mark_bridges(half, marks))
    return std::nullopt;
  mark_gaps(half, marks);
  return marks;
}

std::vector<Mark> tight_curves(const std::vector<leaf::Contour>& lines) {
  // Less turn than this on so tight a curve is shorter than the tolerance of the outline.
  constexpr double least_turn_deg = 12;
  const double least = fit::limit::knife_radius_mm;
  std::vector<Mark> marks;
  for (const leaf::Contour& line : lines)
    for (const fit::Bend& bend : fit::bends_below(line, least, least_turn_deg))
      marks.push_back(mark_at(bend.at, bend.radius_mm,
                              "An inward curve has a radius of only %.1f mm; by hand round it to %.0f mm or make it a "
                              "corner.",
                              bend.radius_mm, least));
  return marks;
}

} // namespace fanwright::traced
