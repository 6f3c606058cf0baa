// flaps.droop, flaps.clash: paper beyond the rows.
#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "leaf/leaf.h"
#include "leaf/region.h"
#include "leaf/sentence.h"
#include "leaf/strip.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::fit {
namespace {

using leaf::Point;

constexpr double gravity = 9.80665; // m/s2

/// Nearest point of a row's centre line.
Point nearest_on(const leaf::GlueRow& row, Point p) {
  const double dx = row.to.x - row.from.x;
  const double dz = row.to.z - row.from.z;
  const double t = std::clamp(((p.x - row.from.x) * dx + (p.z - row.from.z) * dz) / (dx * dx + dz * dz), 0.0, 1.0);
  return {row.from.x + t * dx, row.from.z + t * dz};
}

/// Bending length (Sb / w)^(1/3) of the paper, mm, when it bends along the leaf's x or z.
double bending_length_mm(const paper::Paper& paper, bool along_spine) {
  const bool along_grain = along_spine == (paper.grain == paper::Grain::along_spine);
  const double modulus = along_grain ? paper.modulus_along_mpa : paper.modulus_across_mpa;
  const double stiffness_nm = paper::stiffness_from_modulus(modulus, paper.caliper_mm) / 1000;
  const double weight_n_m2 = paper.grammage_gsm / 1000 * gravity;
  return 1000 * std::cbrt(stiffness_nm / weight_n_m2);
}

struct Flap {
  double length_mm = 0; ///< from the nearest row to the cut edge
  double sag = 0;       ///< as a share of the length, held level at the row
  double limp_mm = 0;   ///< length at which the sag is `limit::stiff_sag`
  Point tip;
};

/// y / L = w L^3 / (8 Sb) = (L / c)^3 / 8: a cantilever under its own weight.
Flap flap_at(Point tip, const Subject& subject) {
  double length = std::numeric_limits<double>::infinity();
  bool along_spine = false;
  for (const leaf::GlueRow& row : subject.leaf.rows) {
    const Point at = nearest_on(row, tip);
    const double away = std::hypot(tip.x - at.x, tip.z - at.z);
    if (away < length) {
      length = away;
      along_spine = std::abs(tip.z - at.z) > std::abs(tip.x - at.x);
    }
  }
  const double bending_length = bending_length_mm(subject.size.paper, along_spine);
  const double ratio = length / bending_length;
  return {length, ratio * ratio * ratio / 8, bending_length * std::cbrt(8 * limit::stiff_sag), tip};
}

Flap longest_flap(const Subject& subject) {
  Flap longest;
  for (const Point tip : leaf::flatten(subject.leaf.outline, leaf::flatten_tolerance_mm))
    if (const Flap flap = flap_at(tip, subject); flap.sag > longest.sag)
      longest = flap;
  return longest;
}

} // namespace

void check_droop(const Subject& subject, Findings& findings) {
  const Flap flap = longest_flap(subject);
  Finding finding = measured("flaps.droop", flap.length_mm, "mm",
                             "common practice: held level it sags by 2 % of its length, by 6 % it is limp",
                             pointer(subject, "/rows"));
  finding.verdict = above(flap.sag, limit::stiff_sag, limit::limp_sag);
  finding.limit =
      flap.limp_mm * (finding.verdict == Finding::fails ? std::cbrt(limit::limp_sag / limit::stiff_sag) : 1);
  const std::string told = "The longest flap beyond a row, to " + leaf::place(flap.tip) + ", is " +
                           leaf::in_mm(flap.length_mm) + " long; this paper carries about " + leaf::in_mm(flap.limp_mm);
  if (finding.verdict == Finding::good) {
    finding.sentence = told + ".";
  } else {
    finding.sentence =
        told + (finding.verdict == Finding::fails ? ": it hangs limp and curls." : ": it may bend or curl.");
    finding.remedy = "Bring a row within " + leaf::in_mm(std::floor(flap.limp_mm)) + " of it, or take heavier paper.";
  }
  findings.push_back(std::move(finding));
}

namespace {

/// Two places of the open edge that face each other across air.
struct Notch {
  double gap_mm = std::numeric_limits<double>::infinity(); ///< once open; negative where they have passed each other
  Point lower, upper;                                      ///< on the flat leaf
};

/// Length along the edge that makes two places strangers to each other: shorter is the bottom of one notch.
constexpr double stranger_mm = 12;

/// The narrowest notch of the opened edge. Flaps on both sides of a notch sink by different heights when it opens.
Notch narrowest_notch(const leaf::Leaf& leaf, const opened::Form& form) {
  std::vector<leaf::Ring> holes;
  for (const leaf::Contour& hole : leaf.cut_outs)
    holes.push_back(leaf::flatten(hole, leaf::flatten_tolerance_mm));
  const leaf::Region paper(leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm), holes);
  const auto& edge = form.edge;
  std::vector<double> run(edge.size(), 0);
  for (std::size_t i = 1; i < edge.size(); ++i)
    run[i] = run[i - 1] + std::hypot(edge[i].x - edge[i - 1].x, edge[i].z - edge[i - 1].z);
  Notch narrowest;
  for (std::size_t i = 0; i < edge.size(); ++i)
    for (std::size_t k = i + 1; k < edge.size(); ++k) {
      const double x = edge[k].x - edge[i].x;
      const double z = edge[k].z - edge[i].z;
      const double flat = std::hypot(x, z);
      const leaf::Point middle{edge[i].x + x / 2, edge[i].z + z / 2};
      // Beyond the spine lies no air but the other half.
      if (run[k] - run[i] < stranger_mm + 2 * flat || flat < 1e-9 || middle.x < 0.1)
        continue;
      // How far they still are apart in the direction in which the flat leaf parts them.
      const double gap = ((edge[k].radius - edge[i].radius) * x + (edge[k].height - edge[i].height) * z) / flat;
      if (gap < narrowest.gap_mm && !paper.contains(middle))
        narrowest = {gap, {edge[i].x, edge[i].z}, {edge[k].x, edge[k].z}};
    }
  return narrowest;
}

} // namespace

void check_clash(const Subject& subject, const opened::Form& form, Findings& findings) {
  const Notch notch = narrowest_notch(subject.leaf, form);
  const double told_mm = std::min(notch.gap_mm, 100.0);
  Finding finding = measured("flaps.clash", told_mm, "mm", limit::common_practice, "/silhouette/path");
  finding.verdict = below(told_mm, limit::free_flap_mm, 0);
  finding.limit = finding.verdict == Finding::fails ? 0 : limit::free_flap_mm;
  const std::string where = leaf::place(notch.lower) + " and " + leaf::place(notch.upper);
  if (notch.gap_mm > told_mm) {
    finding.sentence = "No flap stands over another.";
  } else if (finding.verdict == Finding::good) {
    finding.sentence = "Flaps keep clear of each other once open: " + leaf::in_mm(told_mm) +
                       " at the narrowest notch, " + where + " on the leaf.";
  } else {
    finding.sentence =
        finding.verdict == Finding::fails
            ? "Once open, the flaps at " + where + " on the leaf run into each other by " + leaf::in_mm(-told_mm) + "."
            : "Once open, only " + leaf::in_mm(told_mm) + " stay between the flaps at " + where + " on the leaf.";
    finding.remedy = "Make the notch between them " +
                     leaf::in_mm(std::ceil(10 * (limit::free_flap_mm - told_mm) + 1) / 10) + " wider.";
  }
  findings.push_back(std::move(finding));
}

} // namespace fanwright::fit
