// stands.foot, stands.tips, hangs.straight: how the finished piece carries itself.
#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "fit/standing.h"
#include "leaf/sentence.h"

#include <cmath>
#include <numbers>

namespace fanwright::fit {
namespace {

using opened::Point3;

constexpr double deg = 180 / std::numbers::pi;

void check_foot(const Subject& subject, const opened::Form& form, Findings& findings) {
  Finding finding = measured("stands.foot", form.foot_lift_mm, "mm", limit::common_practice, "/silhouette/path");
  finding.verdict = above(form.foot_lift_mm, limit::seen_lift_mm, limit::rocking_lift_mm);
  finding.limit = finding.verdict == Finding::fails ? limit::rocking_lift_mm : limit::seen_lift_mm;
  if (finding.verdict == Finding::good) {
    finding.sentence = "The foot stands flat: its rim lifts " + leaf::in_mm(form.foot_lift_mm) + " off the table.";
  } else {
    finding.sentence = "The foot does not stand flat: once open, its rim stands " + leaf::in_mm(form.foot_lift_mm) +
                       " above the table.";
    finding.remedy = "Let the foot rise towards the spine by " +
                     leaf::in_mm(std::ceil(10 * (form.foot_lift_mm + limit::seen_lift_mm)) / 10) +
                     " on the leaf, or draw the opened outline (\"shows\": \"opened\"), which is given a flat foot.";
  }
  (void)subject;
  findings.push_back(std::move(finding));
}

/// What to do against tipping: a wider foot, or a weight in it.
std::string steadier(const Subject& subject, double reach, double height) {
  const double wanted = std::tan(limit::table_tip_deg / deg);
  std::string remedy = "Let it stand on feet " + leaf::in_mm(std::ceil(height * wanted)) + " from the axis";
  const double mass = mass_g(subject);
  const double sunk = reach / wanted;    // height at which the mass may be
  constexpr double weight_height_mm = 2; // a washer under the foot
  if (sunk > 2 * weight_height_mm) {
    const double weight = mass * (height - sunk) / (sunk - weight_height_mm);
    if (weight < 10 * mass)
      remedy += ", or fix a weight of " + decimal(std::ceil(weight), 0) + " g under the foot";
  }
  return remedy + ", or let it hang (making, \"display\": \"hangs\").";
}

void check_tips(const Subject& subject, const opened::Form& form, const Point3& centre, Findings& findings) {
  const double reach = reach_of_feet(footprint(form, subject.size.leaves), {centre[0], centre[1]});
  Finding finding = measured("stands.tips", std::atan2(reach, centre[2]) * deg, "deg",
                             "common practice: 15 degrees on a table, 10 on a shelf", "/silhouette/path");
  finding.verdict = below(finding.value, limit::table_tip_deg, limit::shelf_tip_deg);
  finding.limit = finding.verdict == Finding::fails ? limit::shelf_tip_deg : limit::table_tip_deg;
  if (reach <= 0) {
    finding.sentence = "It does not stand by itself: its mass lies " + leaf::in_mm(-reach) + " beside its feet.";
  } else {
    finding.sentence = "It may be tilted by " + decimal(finding.value, 1) +
                       " degrees before it falls: its feet reach " + leaf::in_mm(reach) +
                       " beyond its mass, which lies " + decimal(centre[2], 0) + " mm high";
    finding.sentence += finding.verdict == Finding::good      ? "."
                        : finding.verdict == Finding::warning ? "; enough on a shelf, not on a table."
                                                              : "; it does not stand safely anywhere.";
  }
  if (finding.verdict != Finding::good)
    finding.remedy = subject.size.opening_deg < 360
                         ? "Open it further, lean it against a wall, or let it hang (making, \"display\": \"hangs\")."
                         : steadier(subject, reach, centre[2]);
  findings.push_back(std::move(finding));
}

// Hung by the top of the spine, it leans until the mass lies under the hook: atan(e / h).
void check_hanging(const Subject& subject, const opened::Form& form, const Point3& centre, Findings& findings) {
  const double off = std::hypot(centre[0], centre[1]);
  const double below_hook = form.edge.back().height - centre[2];
  Finding finding = measured("hangs.straight", std::atan2(off, below_hook) * deg, "deg", limit::common_practice,
                             pointer(subject, "/opening"));
  finding.limit = limit::most_lean_deg;
  if (subject.size.opening_deg <= limit::wall_piece_deg) {
    finding.verdict = Finding::note;
    finding.sentence = "Opened through " + decimal(subject.size.opening_deg, 0) +
                       " degrees it hangs against a wall; free on a thread it would lean by " +
                       decimal(finding.value, 0) + " degrees.";
    finding.remedy = "Hang it on the wall by the top of the spine, its open side flat to the wall.";
  } else {
    finding.verdict = above(finding.value, limit::seen_lean_deg, limit::most_lean_deg);
    finding.sentence = "Hung by the top of its spine it leans by " + decimal(finding.value, 1) +
                       " degrees; its mass lies " + leaf::in_mm(off) + " off the axis and " + leaf::in_mm(below_hook) +
                       " below the hook.";
    if (finding.verdict != Finding::good)
      finding.remedy = "Open it all round (\"opening\": 360), or not beyond 180 and hang it against a wall.";
  }
  findings.push_back(std::move(finding));
}

} // namespace

void check_standing(const Subject& subject, const opened::Form& form, Findings& findings) {
  const Point3 centre = mass_centre(form, subject.size.leaves);
  if (subject.design.making.display == design::Display::hangs) {
    check_hanging(subject, form, centre, findings);
    return;
  }
  check_foot(subject, form, findings);
  check_tips(subject, form, centre, findings);
}

} // namespace fanwright::fit
