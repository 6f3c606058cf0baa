// cut.bridge, cut.hole, cut.radius: detail that a knife or a blade machine can cut.
#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "leaf/arc.h"
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

using leaf::Point;

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

struct Bend {
  double radius_mm = std::numeric_limits<double>::infinity();
  Point at;
};

/// Signed curvature, 1/mm, from first and second derivative; positive when turning left.
double curvature(Point first, Point second) {
  const double speed = std::hypot(first.x, first.z);
  return speed > 1e-9 ? (first.x * second.z - first.z * second.x) / (speed * speed * speed) : 0;
}

Point cubic_at(Point a, Point b, Point c, Point d, double t) {
  const double u = 1 - t;
  const double wa = u * u * u, wb = 3 * u * u * t, wc = 3 * u * t * t, wd = t * t * t;
  return {wa * a.x + wb * b.x + wc * c.x + wd * d.x, wa * a.z + wb * b.z + wc * c.z + wd * d.z};
}

/// Tightest right turn, that is round paper's inner corners: cut lines keep the paper on their left.
void tightest_of_cubic(Point a, Point b, Point c, Point d, Bend& tightest) {
  constexpr int steps = 48;
  for (int k = 0; k <= steps; ++k) {
    const double t = static_cast<double>(k) / steps;
    const double u = 1 - t;
    const auto first = [&](double p, double q, double r, double s) {
      return 3 * (u * u * (q - p) + 2 * u * t * (r - q) + t * t * (s - r));
    };
    const auto second = [&](double p, double q, double r, double s) {
      return 6 * (u * (r - 2 * q + p) + t * (s - 2 * r + q));
    };
    const double bend = curvature({first(a.x, b.x, c.x, d.x), first(a.z, b.z, c.z, d.z)},
                                  {second(a.x, b.x, c.x, d.x), second(a.z, b.z, c.z, d.z)});
    if (bend < 0 && -1 / bend < tightest.radius_mm)
      tightest = {-1 / bend, cubic_at(a, b, c, d, t)};
  }
}

void tightest_of_arc(Point from, const leaf::Arc& arc, Bend& tightest) {
  const auto centred = leaf::centred(from, arc);
  if (!centred || centred->turn_rad > 0)
    return;
  constexpr int steps = 48;
  for (int k = 0; k <= steps; ++k) {
    const double angle = centred->start_rad + centred->turn_rad * k / steps;
    const double speed = std::hypot(centred->radius_x * std::sin(angle), centred->radius_z * std::cos(angle));
    const double radius = speed * speed * speed / (centred->radius_x * centred->radius_z);
    if (radius < tightest.radius_mm)
      tightest = {radius, centred->at(angle)};
  }
}

void tightest_of(const leaf::Contour& contour, Bend& tightest) {
  Point from = contour.start;
  for (const leaf::Segment& segment : contour.segments) {
    if (const auto* cubic = std::get_if<leaf::Cubic>(&segment)) {
      tightest_of_cubic(from, cubic->control1, cubic->control2, cubic->to, tightest);
    } else if (const auto* quadratic = std::get_if<leaf::Quadratic>(&segment)) {
      const auto raised = [&](Point end) {
        return Point{end.x + (quadratic->control.x - end.x) * 2 / 3, end.z + (quadratic->control.z - end.z) * 2 / 3};
      };
      tightest_of_cubic(from, raised(from), raised(quadratic->to), quadratic->to, tightest);
    } else if (const auto* arc = std::get_if<leaf::Arc>(&segment)) {
      tightest_of_arc(from, *arc, tightest);
    }
    from = leaf::end_of(segment);
  }
}

void check_radius(const Subject& subject, Findings& findings) {
  Bend tightest;
  tightest_of(subject.leaf.outline, tightest);
  for (const leaf::Contour& hole : subject.leaf.cut_outs)
    tightest_of(hole, tightest);
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
