// fold.score, fold.grain, paper.core, sheet.fits, weight: what the paper is in for.
#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "leaf/contour.h"
#include "leaf/leaf.h"
#include "leaf/sentence.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>

namespace fanwright::fit {
namespace {

void check_score(const Subject& subject, Findings& findings) {
  const double grammage = subject.size.paper.grammage_gsm;
  Finding finding =
      measured("fold.score", grammage, "g/m2", "common practice: scored above 150 g/m2, coated paper sooner",
               pointer(subject, "/paper/grammage"));
  finding.limit = limit::score_needed_gsm;
  const std::string paper = "Paper of " + decimal(grammage, 0) + " g/m2 ";
  if (grammage > limit::springs_open_gsm) {
    finding.verdict = Finding::warning;
    finding.limit = limit::springs_open_gsm;
    finding.sentence = paper + "must be scored, and its folds spring open again.";
    finding.remedy = "Take at most " + decimal(limit::springs_open_gsm, 0) + " g/m2.";
  } else if (grammage > limit::score_needed_gsm) {
    finding.verdict = Finding::note;
    finding.sentence = paper + "must be scored before it is folded, or the fold cracks.";
    finding.remedy = "Score every leaf along the spine, not more than a third through.";
  } else if (grammage >= limit::score_advised_gsm) {
    finding.verdict = Finding::note;
    finding.sentence = paper + "folds cleaner when it is scored first.";
    finding.remedy = "Score every leaf along the spine with a blunt point.";
  } else {
    finding.sentence = paper + "folds without scoring.";
  }
  findings.push_back(std::move(finding));
}

void check_grain(const Subject& subject, Findings& findings) {
  const bool across = subject.size.paper.grain == paper::Grain::across_spine;
  Finding finding =
      measured("fold.grain", across ? 90 : 0, "deg", limit::common_practice, pointer(subject, "/paper/grain"));
  finding.limit = 0;
  if (!across) {
    finding.sentence = "The spine is folded along the grain.";
  } else {
    const bool light = subject.size.paper.grammage_gsm < limit::score_advised_gsm;
    finding.verdict = light ? Finding::note : Finding::warning;
    finding.sentence = std::string("The spine is folded across the grain: the fold is rougher") +
                       (light ? "." : " and the paper may crack.");
    finding.remedy = "Lay the leaves with the grain along the spine (\"grain\": \"along spine\"), or score well.";
  }
  findings.push_back(std::move(finding));
}

/// Relative luminance of "#rrggbb", 0..1 (IEC 61966-2-1).
double luminance(const std::string& colour) {
  constexpr std::array<double, 3> weights{0.2126, 0.7152, 0.0722};
  double sum = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    int value = 0;
    std::from_chars(colour.data() + 1 + 2 * k, colour.data() + 3 + 2 * k, value, 16);
    const double share = value / 255.0;
    sum += weights[k] * (share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4));
  }
  return sum;
}

void check_core(const Subject& subject, Findings& findings) {
  const double light = luminance(subject.design.colour);
  Finding finding = measured("paper.core", light, "", limit::common_practice, "/paper/core");
  finding.limit = limit::dark_luminance;
  const bool dark = light < limit::dark_luminance;
  switch (subject.size.paper.core) {
  case paper::Core::dyed:
    finding.sentence = "The paper is dyed through: folds and edges show its own colour.";
    break;
  case paper::Core::white:
    finding.verdict = dark ? Finding::warning : Finding::note;
    finding.sentence = "The paper is white inside: fold and cut edges show white lines.";
    finding.remedy = "Take paper that is dyed through, or cover the edges.";
    break;
  case paper::Core::unknown:
    finding.verdict = dark ? Finding::note : Finding::good;
    finding.sentence = dark ? "In so dark a colour a white core would show at every fold and edge."
                            : "The colour is light: a white core would hardly show.";
    if (dark)
      finding.remedy = "Tear a corner: take paper that is dyed through, and say so (\"core\": \"dyed\").";
    break;
  }
  findings.push_back(std::move(finding));
}

/// How much too large the leaf is for a sheet, as a ratio; at most 1 when it fits. Sheets are long grain as a rule, so
/// the grain the leaf asks for says how it lies; a square sheet can be turned (common practice, no source).
double filling(const leaf::Box& box, paper::Grain grain, const paper::SheetSize& size, double margin) {
  const double narrow = std::max(size.width_mm - 2 * margin, 1e-3);
  const double wide = std::max(size.height_mm - 2 * margin, 1e-3);
  const bool upright = grain == paper::Grain::along_spine;
  return std::max(2 * box.right / (upright ? narrow : wide), box.height() / (upright ? wide : narrow));
}

/// The smallest of the common sheets that the leaf fits; empty when none.
std::string larger_sheet(const leaf::Box& box, paper::Grain grain, double margin) {
  for (const char* name : {"A4", "12x12in", "A3", "A2", "A1", "A0"})
    if (filling(box, grain, *paper::sheet_size(name), margin) <= 1)
      return name;
  return "";
}

void check_sheet(const Subject& subject, Findings& findings) {
  const leaf::Box box = leaf::bounds(subject.leaf.outline);
  const design::Sheet& sheet = subject.size.sheet;
  const paper::Grain grain = subject.size.paper.grain;
  const double over = filling(box, grain, sheet.size, sheet.margin_mm);
  Finding finding =
      measured("sheet.fits", 100 * over, "%", "the sheet less its margins, in this design", pointer(subject, "/sheet"));
  finding.limit = 100;
  finding.verdict = over > 1 ? Finding::fails : Finding::good;
  finding.sentence = "A leaf, unfolded, is " + leaf::in_mm(2 * box.right) + " wide and " + leaf::in_mm(box.height()) +
                     " high; " + sheet.name + ", with its grain " +
                     (grain == paper::Grain::along_spine ? "along" : "across") + " the spine, has room for it.";
  if (over > 1) {
    finding.sentence.replace(finding.sentence.rfind(" has room"), std::string::npos, " is too small for it.");
    const std::string larger = larger_sheet(box, grain, sheet.margin_mm);
    finding.remedy = "Make the leaf at most " + leaf::in_mm(std::floor(10 * box.height() / over) / 10) + " high" +
                     (larger.empty() ? "." : ", or use the sheet " + larger + ".");
  }
  findings.push_back(std::move(finding));
}

} // namespace

double mass_g(const Subject& subject) {
  double area = leaf::signed_area(subject.leaf.outline);
  for (const leaf::Contour& hole : subject.leaf.cut_outs)
    area += leaf::signed_area(hole); // clockwise, so negative
  double bead = 0;                   // mm on one leaf: inside rows once, between rows once a joint
  for (const leaf::GlueRow& row : subject.leaf.rows)
    bead += std::hypot(row.to.x - row.from.x, row.to.z - row.from.z);
  const double section_mm2 = std::numbers::pi * subject.design.making.bead_mm * subject.design.making.bead_mm / 4;
  constexpr double mm2_per_m2 = 1e6, mm3_per_cm3 = 1e3;
  const double glue_g = bead * section_mm2 / mm3_per_cm3 * limit::glue_density_g_cm3 * limit::dry_glue_share;
  return subject.size.leaves * (2 * area / mm2_per_m2 * subject.size.paper.grammage_gsm + glue_g);
}

void check_paper(const Subject& subject, Findings& findings) {
  check_score(subject, findings);
  check_grain(subject, findings);
  check_core(subject, findings);
  check_sheet(subject, findings);
}

void check_weight(const Subject& subject, Findings& findings) {
  Finding finding = measured("weight", mass_g(subject), "g", "told only", pointer(subject, "/paper/grammage"));
  const bool hangs = subject.design.making.display == design::Display::hangs;
  finding.sentence = "The finished piece weighs about " + decimal(finding.value, finding.value < 10 ? 1 : 0) +
                     " g, paper and dry glue" + (hangs ? "; thread and hook must carry that." : ".");
  findings.push_back(std::move(finding));
}

} // namespace fanwright::fit
