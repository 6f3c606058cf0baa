#include "kit/leaf_cuts.h"

#include "kit/starting_point.h"
#include "leaf/contour.h"

#include <algorithm>
#include <cmath>

namespace fanwright::kit {

namespace {

double distance(const leaf::Point& p, const leaf::Point& a, const leaf::Point& b) {
  const double dx = b.x - a.x, dz = b.z - a.z, length2 = dx * dx + dz * dz;
  const double t = length2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / length2, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - t * dx, p.z - a.z - t * dz);
}

/// Every curve that is cut all round, as chords.
std::vector<leaf::Ring> rings_of(const leaf::Marks& marks) {
  std::vector<leaf::Ring> rings = {leaf::flatten(marks.cut, leaf::flatten_tolerance_mm)};
  for (const leaf::Contour& cut_out : marks.cut_outs)
    rings.push_back(leaf::flatten(cut_out, leaf::flatten_tolerance_mm));
  return rings;
}

/// Clear of a cut by the bridge at both ends and in the middle; a nick is too short for a cut to come between these.
bool clear_of(const std::vector<leaf::Ring>& rings, const Slit& slit) {
  const leaf::Point middle{(slit.from.x + slit.to.x) / 2, (slit.from.z + slit.to.z) / 2};
  for (const leaf::Point& p : {slit.from, middle, slit.to})
    for (const leaf::Ring& ring : rings)
      for (std::size_t i = 0; i < ring.size(); ++i)
        if (distance(p, ring[i], ring[(i + 1) % ring.size()]) < least_bridge_mm)
          return false;
  return true;
}

std::vector<Slit> nicks_of(const leaf::GlueRow& row) {
  const auto across = [](double z) { return Slit{{-nick_mm / 2, z}, {nick_mm / 2, z}}; };
  if (row.side == design::Side::inside)
    return {across(row.from.z)};
  return {across(row.from.z - nick_pair_mm / 2), across(row.from.z + nick_pair_mm / 2)};
}

void add_nicks(LeafCuts& cuts, const leaf::Leaf& leaf, const std::vector<leaf::Ring>& rings) {
  for (std::size_t i = 0; i < leaf.rows.size(); ++i) {
    const std::vector<Slit> nicks = nicks_of(leaf.rows[i]);
    const bool room = std::all_of(nicks.begin(), nicks.end(), [&](const Slit& nick) {
      const bool apart = std::all_of(cuts.nicks.begin(), cuts.nicks.end(), [&](const Slit& other) {
        return std::abs(other.from.z - nick.from.z) >= least_bridge_mm;
      });
      return apart && nick.from.z >= leaf.spine_foot_z + least_bridge_mm &&
             nick.from.z <= leaf.spine_top_z - least_bridge_mm && clear_of(rings, nick);
    });
    if (room)
      cuts.nicks.insert(cuts.nicks.end(), nicks.begin(), nicks.end());
    else
      cuts.rows_not_nicked.push_back(i);
  }
  std::sort(cuts.nicks.begin(), cuts.nicks.end(), [](const Slit& a, const Slit& b) { return a.from.z < b.from.z; });
}

/// The spine between its ends and the nicks, so that the first dash of each stretch keeps the bridge (dashes leave half
/// a gap at either end of what they fill).
void add_dashed_spine(LeafCuts& cuts, const leaf::Leaf& leaf, const design::Making& making) {
  cuts.dash_mm = making.score_dash_mm;
  cuts.gap_mm = making.score_gap_mm;
  const double clear = std::max(0.0, least_bridge_mm - making.score_gap_mm / 2);
  const auto add = [&](double foot, double top) {
    if (top - clear > foot + clear)
      cuts.dashed.push_back({{0, foot + clear}, {0, top - clear}});
  };
  double foot = leaf.spine_foot_z;
  for (const Slit& nick : cuts.nicks) {
    add(foot, nick.from.z);
    foot = nick.from.z;
  }
  add(foot, leaf.spine_top_z);
}

} // namespace

LeafCuts plain_cuts(const leaf::Marks& marks) {
  LeafCuts cuts;
  cuts.outline = marks.cut; // leaf::marks() begins it at the spine's foot
  for (const leaf::Contour& cut_out : marks.cut_outs)
    cuts.cut_outs.push_back(begun_nearest_spine(cut_out));
  std::stable_sort(cuts.cut_outs.begin(), cuts.cut_outs.end(), [](const leaf::Contour& a, const leaf::Contour& b) {
    return std::abs(leaf::signed_area(a)) < std::abs(leaf::signed_area(b));
  });
  return cuts;
}

LeafCuts leaf_cuts(const leaf::Leaf& leaf, const leaf::Marks& marks, const design::Making& making) {
  LeafCuts cuts = plain_cuts(marks);
  if (making.marks == design::MarkStyle::nicks)
    add_nicks(cuts, leaf, rings_of(marks));
  if (making.score == design::ScoreStyle::line)
    cuts.score.push_back({marks.score_foot, marks.score_top});
  else
    add_dashed_spine(cuts, leaf, making);
  return cuts;
}

} // namespace fanwright::kit
