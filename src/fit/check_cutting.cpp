// cut.bridge, cut.hole, cut.radius: detail that a knife or a blade machine can cut.
#include "fit/bends.h"
#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "leaf/contour.h"
#include "leaf/leaf.h"
#include "leaf/marks.h"
#include "leaf/region.h"
#include "leaf/sentence.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace fanwright::fit {
namespace {

bool by_hand(const Subject& subject) { return subject.design.making.cutting == design::Cutting::by_hand; }

const char* source(const Subject& subject) {
  return by_hand(subject) ? "common practice, by knife" : "common practice, by blade machine";
}

/// Chords are enough here to a quarter of what a blade follows.
constexpr double chord_mm = 0.05;

/// Width of the narrowest bridge of the whole leaf, mm: the least width whose half, taken away along every cut, parts
/// the paper or joins two cuts. At most `widest_told`.
constexpr double widest_told = 20;
double narrowest_bridge_mm(const leaf::Marks& marks) {
  std::vector<leaf::Ring> holes;
  for (const leaf::Contour& hole : marks.cut_outs)
    holes.push_back(leaf::flatten(hole, chord_mm));
  const leaf::Region paper(leaf::flatten(marks.cut, chord_mm), holes);
  double good = 0;
  // Not monotone: a part that has been cut off may vanish when more is taken away. So from below, in small steps.
  for (double width = 0.25; width <= widest_told; width *= width < 2 ? std::numbers::sqrt2 : 1.25) {
    if (paper.keeps_together(width / 2)) {
      good = width;
      continue;
    }
    double bad = width;
    while (bad - good > 0.02) {
      const double middle = (good + bad) / 2;
      (paper.keeps_together(middle / 2) ? good : bad) = middle;
    }
    return good;
  }
  return widest_told;
}

void check_bridge(const Subject& subject, Findings& findings) {
  const bool heavy = subject.size.paper.grammage_gsm > limit::heavy_for_machine_gsm;
  const double least = by_hand(subject) ? limit::knife_bridge_mm : limit::machine_bridge_mm;
  const double safe = by_hand(subject) ? limit::knife_bridge_mm
                      : heavy          ? limit::machine_heavy_bridge_mm
                                       : limit::machine_bridge_mm;
  Finding finding =
      measured("cut.bridge", narrowest_bridge_mm(leaf::marks(subject.leaf)), "mm", source(subject), "/silhouette/path");
  finding.verdict = below(finding.value, safe, least);
  finding.limit = finding.verdict == Finding::fails ? least : safe;
  finding.sentence = finding.value >= widest_told
                         ? "No bridge of paper is narrower than " + leaf::in_mm(widest_told) + "."
                         : "The narrowest bridge of paper is " + leaf::in_mm(finding.value) + " wide.";
  if (finding.verdict != Finding::good)
    finding.remedy = "Make it at least " + leaf::in_mm(safe) + " wide, or leave out the smallest size.";
  findings.push_back(std::move(finding));
}

void check_hole(const Subject& subject, Findings& findings) {
  if (subject.leaf.cut_outs.empty())
    return;
  double narrowest = std::numeric_limits<double>::infinity();
  for (const leaf::Contour& hole : subject.leaf.cut_outs)
    narrowest = std::min(narrowest, leaf::widest_circle_mm(leaf::flatten(hole, chord_mm)));
  const double wanted = by_hand(subject) ? limit::knife_hole_mm : limit::machine_hole_mm;
  const double least = by_hand(subject) ? limit::knife_hole_mm / 2 : limit::machine_slot_mm;
  Finding finding = measured("cut.hole", narrowest, "mm", source(subject), "/silhouette/path");
  finding.verdict = below(narrowest, wanted, least);
  finding.limit = finding.verdict == Finding::fails ? least : wanted;
  finding.sentence = "The narrowest cut-out is " + leaf::in_mm(narrowest) + " wide.";
  if (finding.verdict != Finding::good)
    finding.remedy = "Make it at least " + leaf::in_mm(wanted) + " wide" +
                     (by_hand(subject) ? ", punch it, or cut by machine." : ", or punch it.");
  findings.push_back(std::move(finding));
}

/// A curve drawn at the limit is at the limit.
constexpr double rounding_mm = 1e-3;

void check_radius(const Subject& subject, Findings& findings) {
  Bend tightest = tightest_bend(subject.leaf.outline);
  for (const leaf::Contour& hole : subject.leaf.cut_outs)
    if (const Bend bend = tightest_bend(hole); bend.radius_mm < tightest.radius_mm)
      tightest = bend;
  Finding finding =
      measured("cut.radius", std::min(tightest.radius_mm, 1000.0), "mm", source(subject), "/silhouette/path");
  finding.limit = by_hand(subject) ? limit::knife_radius_mm : limit::machine_radius_mm;
  finding.verdict = finding.value < *finding.limit - rounding_mm ? Finding::warning : Finding::good;
  finding.sentence = tightest.radius_mm > 1000
                         ? "No cut curves inwards; corners are cut in two strokes."
                         : "The tightest inward curve has a radius of " + leaf::in_mm(tightest.radius_mm) + ", at " +
                               leaf::place(tightest.at) + "; corners are cut in two strokes.";
  if (finding.verdict != Finding::good)
    finding.remedy = "Round it to " + leaf::in_mm(*finding.limit) + ", or make it a corner, cut in two strokes.";
  findings.push_back(std::move(finding));
}

} // namespace

void check_cutting(const Subject& subject, Findings& findings) {
  check_bridge(subject, findings);
  check_hole(subject, findings);
  check_radius(subject, findings);
}

} // namespace fanwright::fit
