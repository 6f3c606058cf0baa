// What is done to single leaves: cutting, folding, gluing their inside rows.
#include "booklet/sketch_scenes.h"
#include "booklet/sketch_tools.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::booklet {
namespace {

Shape box_of(double left, double low, double right, double high) {
  return {{left, low}, {right, low}, {right, high}, {left, high}};
}

/// Leaves lying on their side on the sheet are wider than high where the unfolded leaf is higher than wide, or the
/// other way round.
bool upright(const leaf::Ring& ring, const DrawnLeaf& leaf) {
  double left = 1e9, right = -1e9, low = 1e9, high = -1e9;
  for (const auto& point : ring) {
    left = std::min(left, point.x), right = std::max(right, point.x);
    low = std::min(low, point.z), high = std::max(high, point.z);
  }
  return std::abs(right - left - 2 * leaf.width) <= std::abs(right - left - leaf.height());
}

void draw_sheet(Easel& easel, const Subject& subject, const DrawnLeaf& leaf) {
  const auto& size = subject.size->sheet.size;
  easel.paper(box_of(0, 0, size.width_mm, -size.height_mm), pale);
  if (subject.on_sheet.empty()) {
    const Pose amid = flat_pose(false, {size.width_mm / 2, leaf.middle() - size.height_mm / 2});
    const Pose amid_left = flat_pose(true, {size.width_mm / 2, leaf.middle() - size.height_mm / 2});
    Shape whole = posed(leaf.half, amid), left = posed(leaf.half, amid_left);
    whole.insert(whole.end(), left.rbegin(), left.rend());
    easel.paper(whole);
  }
  for (const auto& ring : subject.on_sheet)
    easel.paper(posed(ring, flat_pose()), white, thin_line);
  const bool stands = subject.on_sheet.empty() || upright(subject.on_sheet.front(), leaf);
  const bool grain_up = (subject.size->paper.grain == paper::Grain::along_spine) == stands;
  const double length = 0.42 * size.height_mm;
  const drawing::Point beside{-0.3 * length, -size.height_mm / 2}, under{size.width_mm / 2, 0.3 * length};
  draw_grain(easel, grain_up ? beside : under, length, grain_up);
  easel.tag(Part::sheet, {size.width_mm, -size.height_mm * 0.97}, 4.5, 3);
  const double apart = 0.5 * length + 3.2 / easel.scale();
  easel.tag(Part::grain,
            grain_up ? drawing::Point{beside.x, beside.y + apart} : drawing::Point{under.x + apart, under.y}, 0, 0);
}

void draw_cut_leaf(Easel& easel, const DrawnLeaf& leaf) {
  draw_unfolded(easel, leaf);
  // The cut made so far, from the foot of the right half up to the knife.
  const std::size_t until = leaf.half.size() / 2;
  const leaf::Ring done(leaf.half.begin(), leaf.half.begin() + static_cast<std::ptrdiff_t>(until) + 1);
  const Shape cut = posed(done, flat_pose());
  easel.line(cut, {0.7, accent, {}});
  easel.tag(Part::leaf, {-edge_beyond(leaf, 1e-6, widest_at(leaf)) * 0.5, -widest_at(leaf)}, 0, 0);
  const Held knife{cut.back(), 318, 0.5 * leaf.measure()};
  draw_knife(easel, knife);
  easel.tag(Part::knife, knife.at(0.7, 0.045), 4, 4);
}

/// Across the fold from the left half's middle to the right half's, as an arc seen from above.
Shape folding_path(const DrawnLeaf& leaf, const Viewer& viewer, double from_deg, double to_deg) {
  constexpr int steps = 24;
  const double radius = leaf.width * 0.92, z = leaf.top + 0.04 * leaf.measure();
  Shape path;
  for (int k = 0; k <= steps; ++k) {
    const double angle = (from_deg + (to_deg - from_deg) * k / steps) * std::numbers::pi / 180;
    path.push_back(viewer.at(radius * std::cos(angle), radius * std::sin(angle), z));
  }
  return path;
}

constexpr Viewer folding_viewer{-12, 24};

/// The right half stays, the left half comes over.
void draw_folding(Easel& easel, const DrawnLeaf& leaf, bool glued) {
  const double half_way_deg = 232;
  draw_hinged(easel, leaf, hinged_pose(folding_viewer, 0), false);
  if (glued)
    draw_glue(easel, leaf.inside, hinged_pose(folding_viewer, 0));
  easel.line(posed(leaf.half, hinged_pose(folding_viewer, 180)), hidden_line);
  draw_hinged(easel, leaf, hinged_pose(folding_viewer, half_way_deg), true);
  const auto spine = hinged_pose(folding_viewer, 0);
  easel.line({spine({0, leaf.spine_foot}), spine({0, leaf.spine_top})}, bold_line);
  easel.arrow(folding_path(leaf, folding_viewer, 186, 300));
}

/// Folded: the outer face of the half that came over, its spine on the left.
void draw_folded(Easel& easel, const DrawnLeaf& leaf) {
  const double behind = 0.012 * leaf.measure();
  draw_half(easel, leaf, flat_pose(false, {behind, -behind}));
  draw_half(easel, leaf, flat_pose(), pale);
  easel.line({{0, -leaf.spine_foot}, {0, -leaf.spine_top}}, bold_line);
}

void draw_beads(Easel& easel, const std::vector<leaf::Ring>& strips, std::size_t upto) {
  for (std::size_t k = 0; k < upto && k < strips.size(); ++k) {
    const auto& s = strips[k];
    const auto middle = [&](std::size_t a, std::size_t b) {
      return drawing::Point{(s[a].x + s[b].x) / 2, -(s[a].z + s[b].z) / 2};
    };
    easel.line({middle(0, 3), middle(1, 2)}, {0.6, accent, {}});
  }
}

} // namespace

std::vector<Panel> sheet_and_cut(const Subject& subject, const DrawnLeaf& leaf) {
  const double magnified = 1.1 * leaf.measure() / subject.size->sheet.size.height_mm;
  return {{[&](Easel& easel) { draw_sheet(easel, subject, leaf); }, magnified},
          {[&](Easel& easel) { draw_cut_leaf(easel, leaf); }}};
}

std::vector<Panel> score_and_fold(const DrawnLeaf& leaf) {
  const auto scoring = [&](Easel& easel) {
    const double m = leaf.measure(), end = leaf.spine_foot + 0.42 * (leaf.spine_top - leaf.spine_foot);
    draw_unfolded(easel, leaf);
    draw_ruler(easel, {0, -leaf.bottom + 0.05 * m}, leaf.height() + 0.1 * m, 0.09 * m);
    easel.line({{0, -leaf.spine_top}, {0, -end}}, {0.7, accent, {}});
    const Held folder{{0, -end}, 330, 0.6 * m};
    draw_bone_folder(easel, folder);
    easel.arrow({{0.055 * m, -end + 0.04 * m}, {0.055 * m, -leaf.spine_foot - 0.06 * m}});
    easel.tag(Part::score, {0, -leaf.spine_top + 0.06 * m}, 6, -3);
    easel.tag(Part::ruler, {-0.06 * m, -leaf.top - 0.03 * m}, -5, -1);
    easel.tag(Part::bone_folder, folder.at(0.75, 0.0), 0, 7);
    easel.tag(Part::inner_face, {-(edge_beyond(leaf, 1e-6, widest_at(leaf)) + 0.09 * m) / 2, -widest_at(leaf)}, 0, 0);
  };
  const auto pressing = [&](Easel& easel) {
    const double m = leaf.measure(), z = leaf.middle();
    draw_folded(easel, leaf);
    const Held folder{{0.01 * m, -z}, 340, 0.6 * m};
    draw_bone_folder(easel, folder);
    easel.arrow({{-0.05 * m, -z - 0.18 * m}, {-0.05 * m, -z + 0.18 * m}}, true);
    const double low = leaf.bottom + 0.22 * leaf.height();
    easel.tag(Part::outer_face, {0.5 * edge_beyond(leaf, 1e-6, low), -low}, 0, 0);
  };
  return {{scoring}, {[&](Easel& easel) { draw_folding(easel, leaf, false); }}, {pressing}};
}

std::vector<Panel> inside_rows(const DrawnLeaf& leaf) {
  const auto gluing = [&](Easel& easel) {
    draw_unfolded(easel, leaf);
    draw_glue(easel, leaf.inside, flat_pose());
    const std::size_t now = leaf.inside.size() / 2;
    draw_beads(easel, leaf.inside, now);
    const auto& strip = leaf.inside[now];
    const drawing::Point from{(strip[0].x + strip[3].x) / 2, -(strip[0].z + strip[3].z) / 2},
        to{(strip[1].x + strip[2].x) / 2, -(strip[1].z + strip[2].z) / 2};
    const drawing::Point tip{from.x + 0.6 * (to.x - from.x), from.y + 0.6 * (to.y - from.y)};
    easel.line({from, tip}, {0.6, accent, {}});
    const Held bottle{tip, 318, 0.5 * leaf.measure()};
    draw_glue_bottle(easel, bottle);
    easel.tag(Part::glue_tip, bottle.at(0.02, 0.0), -6, -7);
    const auto& low = leaf.inside.front();
    easel.tag(Part::inside_row, {low[0].x * 0.5 + low[2].x * 0.5, -(low[0].z + low[2].z) / 2}, 0, 8);
    const auto& other = leaf.inside[now > 0 ? now - 1 : 0];
    easel.tag(Part::free_edge, {reach_at(leaf, (other[1].z + other[2].z) / 2), -(other[1].z + other[2].z) / 2}, 6, 3);
    easel.tag(Part::inner_face, {-edge_beyond(leaf, 1e-6, widest_at(leaf)) * 0.5, -widest_at(leaf)}, 0, 0);
  };
  return {{gluing}, {[&](Easel& easel) { draw_folding(easel, leaf, true); }}};
}

std::vector<Panel> stencil_use(const DrawnLeaf& leaf) {
  const auto card = [&](Easel& easel, drawing::Point spine) {
    const double m = leaf.measure(), beyond = 0.06 * m;
    std::vector<Shape> rings{box_of(spine.x, spine.y - leaf.bottom, spine.x + leaf.width + beyond, spine.y - leaf.top)};
    for (const auto& strip : leaf.between) {
      rings.push_back(posed(strip, flat_pose(false, spine)));
      std::reverse(rings.back().begin(), rings.back().end());
    }
    easel.paper(rings, white);
  };
  const auto dabbing = [&](Easel& easel) {
    const double m = leaf.measure();
    draw_half(easel, leaf, flat_pose(), pale);
    const std::size_t now = leaf.between.size() / 2;
    draw_glue(easel, {leaf.between.begin(), leaf.between.begin() + static_cast<std::ptrdiff_t>(now) + 1}, flat_pose());
    card(easel, {});
    draw_glue(easel, {leaf.between.begin(), leaf.between.begin() + static_cast<std::ptrdiff_t>(now)}, flat_pose());
    easel.line(posed(leaf.half, flat_pose()), hidden_line);
    easel.line({{0, -leaf.spine_foot}, {0, -leaf.spine_top}}, bold_line);
    const auto& strip = leaf.between[now];
    const Held dauber{{(strip[0].x + strip[2].x) / 2, -(strip[0].z + strip[2].z) / 2}, 310, 0.5 * m};
    draw_dauber(easel, dauber);
    easel.tag(Part::stencil, {leaf.width + 0.04 * m, -leaf.bottom - 0.12 * m}, 6, -3);
    easel.tag(Part::dauber, dauber.at(0.6, 0.05), 6, 2);
  };
  const auto lifted = [&](Easel& easel) {
    draw_half(easel, leaf, flat_pose(), pale);
    draw_glue(easel, leaf.between, flat_pose());
    easel.line({{0, -leaf.spine_foot}, {0, -leaf.spine_top}}, bold_line);
    const auto& low = leaf.between.front();
    easel.tag(Part::between_row, {low[2].x, -(low[1].z + low[2].z) / 2}, 8, 3);
  };
  return {{dabbing}, {lifted}};
}

} // namespace fanwright::booklet
