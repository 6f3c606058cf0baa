// closes.hub, closes.seam: whether the opened stack meets itself.
#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "leaf/leaf.h"
#include "leaf/marks.h"
#include "leaf/sentence.h"
#include "leaf/strip.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace fanwright::fit {
namespace {

using leaf::Point;
using leaf::Ring;

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Where a horizontal line first leaves the paper, seen from the spine; edges on the spine itself do not count.
double first_cut(const Ring& ring, double z) {
  double nearest = infinity;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i];
    const Point b = ring[(i + 1) % ring.size()];
    if ((a.x <= 0 && b.x <= 0) || (a.z > z) == (b.z > z))
      continue;
    nearest = std::min(nearest, a.x + (b.x - a.x) * (z - a.z) / (b.z - a.z));
  }
  return nearest;
}

struct Neck {
  double width_mm = infinity; ///< of paper beside the spine
  double z = 0;
};

/// The narrowest place between the lowest and the highest row, where they begin at the spine: sloping ones may end
/// below the foot.
Neck neck_of(const leaf::Leaf& leaf) {
  std::vector<Ring> rings{leaf::flatten(leaf.outline, leaf::flatten_tolerance_mm)};
  for (const leaf::Contour& hole : leaf.cut_outs)
    rings.push_back(leaf::flatten(hole, leaf::flatten_tolerance_mm));
  const double low = leaf.rows.front().from.z;
  const double high = leaf.rows.back().from.z;
  constexpr int steps = 400; // finds a neck to a few tenths of a mm of its height, and so its width far better
  Neck neck;
  for (int k = 0; k <= steps; ++k) {
    const double z = low + (high - low) * k / steps;
    for (const Ring& ring : rings)
      if (const double width = first_cut(ring, z); width < neck.width_mm)
        neck = {width, z};
  }
  return neck;
}

/// How far apart the corners of strips lie that must meet at the seam: the outer strip of the last leaf's right half
/// and that of the first leaf's left half, seen face to face.
double seam_mismatch(const leaf::Leaf& leaf) {
  double worst = 0;
  const auto marks = leaf::marks(leaf);
  for (const leaf::GlueMark& right : marks.glue) {
    if (right.face != leaf::Face::outer || right.half != leaf::Half::right)
      continue;
    double nearest = infinity;
    for (const leaf::GlueMark& left : marks.glue) {
      if (left.face != leaf::Face::outer || left.half != leaf::Half::left)
        continue;
      double apart = 0;
      for (std::size_t k = 0; k < 4; ++k) {
        // Mirrored, corner 1 comes first: the corners stay counter-clockwise.
        const Point met{-left.corners[(5 - k) % 4].x, left.corners[(5 - k) % 4].z};
        apart = std::max(apart, std::hypot(met.x - right.corners[k].x, met.z - right.corners[k].z));
      }
      nearest = std::min(nearest, apart);
    }
    worst = std::max(worst, nearest);
  }
  return worst;
}

} // namespace

// At any height one of the two sides of a leaf is glued: a leaf takes two calipers and one dry film of the hub's
// circumference, so r Theta = N (2 t + h).
void check_hub(const Subject& subject, Findings& findings) {
  const design::Size& size = subject.size;
  const double opening_rad = size.opening_deg * std::numbers::pi / 180;
  const double thick = 2 * size.paper.caliper_mm + limit::dry_film_mm;
  const double hub = size.leaves * thick / opening_rad;
  const Neck neck = neck_of(subject.leaf);
  Finding finding = measured("closes.hub", hub, "mm", limit::common_practice, pointer(subject, "/leaves"));
  finding.verdict = above(hub / neck.width_mm, limit::shown_hub_share, limit::widest_hub_share);
  const double share = finding.verdict == Finding::fails ? limit::widest_hub_share : limit::shown_hub_share;
  finding.limit = share * neck.width_mm;
  const std::string told = "Folds and glue of " + std::to_string(size.leaves) + " leaves leave a hole of radius " +
                           leaf::in_mm(hub) + " along the axis; the paper round it is " + leaf::in_mm(neck.width_mm) +
                           " wide at the narrowest neck, z " + decimal(neck.z, 0);
  if (finding.verdict == Finding::good) {
    finding.sentence = told + ".";
  } else {
    finding.sentence = told + (finding.verdict == Finding::fails ? ": the hole is wider than the paper round it."
                                                                 : ": it will be seen from above.");
    const int leaves = static_cast<int>(std::floor(limit::shown_hub_share * neck.width_mm * opening_rad / thick));
    finding.remedy = "Make the neck at least " + leaf::in_mm(std::ceil(10 * hub / limit::shown_hub_share) / 10) +
                     " wide on the leaf" +
                     (leaves >= 2 ? ", or use at most " + std::to_string(leaves) + " leaves" : "") +
                     (size.opening_deg < 360 ? ", or open it further" : "") + ", or take thinner paper.";
  }
  findings.push_back(std::move(finding));
}

void check_seam(const Subject& subject, Findings& findings) {
  if (subject.size.opening_deg < 360)
    return; // no seam
  const auto rows = std::ranges::count(subject.leaf.rows, design::Side::between, &leaf::GlueRow::side);
  const double mismatch = seam_mismatch(subject.leaf);
  Finding finding = measured("closes.seam", mismatch > limit::seam_mismatch_mm ? 0 : static_cast<double>(rows), "",
                             limit::common_practice, pointer(subject, "/rows"));
  finding.limit = limit::seam_rows;
  finding.verdict = finding.value < limit::seam_rows ? Finding::fails : Finding::good;
  if (finding.verdict == Finding::good) {
    finding.sentence = "At the seam " + std::to_string(rows) +
                       " between rows of the first leaf meet those of the last, within " + decimal(mismatch, 1) +
                       " mm.";
  } else {
    finding.sentence = "Only " + std::to_string(rows) +
                       " between row holds the seam: the first leaf turns on the last, and the circle gapes.";
    finding.remedy = "Add a between row near the other end of the spine.";
  }
  findings.push_back(std::move(finding));
}

} // namespace fanwright::fit
