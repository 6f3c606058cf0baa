// Line drawings of the steps of making, each drawn from the geometry of one size's own leaf and opened form. They hold
// no words, only tags (A, B, ... and leaf counts); what a tag points at is given as a Part, to be named in the reader's
// language. Page coordinates as in drawing: mm, x right, y down, origin in the top left corner of the sketch's own box.
#pragma once

#include "design/design.h"
#include "drawing/drawing.h"
#include "fan/fans.h"
#include "fan/seat.h"
#include "leaf/leaf.h"
#include "picture/solid.h"

#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::booklet {

/// In the order of the work.
enum class Scene {
  sheet_and_cut,  ///< leaves on the sheet, grain, cutting
  joining,        ///< the halves of a leaf cut in two glued together with the lap
  score_and_fold, ///< scoring the spine, folding the halves onto each other
  stencil_use,    ///< glue dabbed through the stencil's windows
  inside_rows,    ///< glue on the inner face of one half; the leaf closed on it
  between_rows,   ///< glue on the outer face; the next leaf laid on it, aligned
  packets,        ///< singles, pairs, fours ... by the gluing rounds of this leaf count
  press,          ///< packets between boards under a weight
  opening,        ///< block, a third, two thirds, opened
  seam,           ///< first leaf glued to last, held by clips (an opening of 360 degrees)
  backing,        ///< first and last leaf glued to a card (any smaller opening)
  stuck_cells,    ///< a cell that is glued shut freed with a blunt blade
  fan_pleating,   ///< a fan's strip scored and folded, its front to the viewer
  fan_spreading,  ///< the fan closed and spread
  foot,           ///< a disc under the foot
  hanger,         ///< thread and bead at the top
  finishing,      ///< glitter on the edges, clear sealer
  storing         ///< closed again, in a sleeve with a card, out of the sun
};

/// "sheet_and_cut" ...: stable, for catalogue keys and file names.
std::string_view name_of(Scene scene);

/// What a tag points at.
enum class Part {
  sheet,
  grain,
  leaf,
  knife,
  score,
  ruler,
  bone_folder,
  inner_face,
  outer_face,
  inside_row,
  between_row,
  free_edge, ///< paper kept free of glue beside the rows
  glue_tip,
  stencil,
  dauber,
  straight_edge, ///< what spines and feet are aligned on
  packet,
  board,
  weight,        ///< 2 to 5 kg
  parting_sheet, ///< baking paper that no glue sticks to
  first_leaf,
  last_leaf,
  seam,
  clip,
  backing_card,
  blunt_blade,
  stuck_cell,
  mountain,
  valley,
  flap,
  lap, ///< of a right half, beyond the spine
  gathered_end,
  last_pleat,
  seat, ///< where the gathered end sits on the ornament
  foot_disc,
  thread,
  bead,
  glitter_brush,
  open_edge,
  spray,
  sleeve,
  stiff_card,
  sun
};

/// "bone_folder" ...: stable, for catalogue keys.
std::string_view name_of(Part part);

/// A tag that stands in the drawing; every tag of a sketch points at a different part.
struct Callout {
  std::string tag; ///< "A", "B", ...
  Part part = Part::leaf;
  drawing::Point place; ///< middle of the tag, mm
};

/// A line drawing of the opened ornament and where its axis comes out of it, on the drawing's page.
struct OpenedView {
  drawing::Page page;
  drawing::Point spine_top, spine_foot;
};

/// The opened form as the sketches show it. Openings on the way are the whole one with its cells narrowed evenly, which
/// is how the paper moves but for the last tenth of its bend. Of many leaves only as many are drawn as lines can be
/// told apart.
struct OpenedViews {
  OpenedView third, two_thirds, whole; ///< seen from in front and above
  OpenedView nearly;                   ///< whole but for a gap at the seam, which faces the viewer
  OpenedView below;                    ///< whole, its foot turned to the viewer
};

/// Line drawings of `body`; the slow part, so make them once for a size and hand them to every sketch.
std::variant<OpenedViews, std::string> opened_views(const picture::Body& body);

/// The same, of a body fine enough for the sketches and no finer.
std::variant<OpenedViews, std::string> opened_views(const opened::Panel& panel, const opened::Form& form);

/// Whose making is drawn. Pointers must outlive the call.
struct Subject {
  const design::Design* design = nullptr; ///< never null
  const design::Size* size = nullptr;     ///< never null
  const leaf::Leaf* leaf = nullptr;       ///< never null; of that size
  const OpenedViews* views = nullptr;     ///< null: opened ornaments are drawn as their silhouette
  /// Whole leaves as they lie on the first sheet, in its coordinates (mm, z up); empty: one leaf amid the sheet.
  std::vector<leaf::Ring> on_sheet;
  double lap_mm = 0;                   ///< of leaves cut in two; 0: cut whole. Never 0 in Scene::joining
  const fan::SizedFan* fan = nullptr;  ///< null: the size has none; never null for scenes of fans
  const fan::Seated* seated = nullptr; ///< that fan in its seat; null where it has none
  const opened::Form* form = nullptr;  ///< what it sits on; null with `seated`
};

/// Scenes that leaves cut whole need, in order: foot or hanger by the design, seam or backing by the opening, fans and
/// finishing only where there are any; the others always.
std::vector<Scene> scenes_of(const design::Design& design, const design::Size& size);

struct Sketch {
  std::vector<drawing::Item> items; ///< all in Step::print, within the box
  double width_mm = 0, height_mm = 0;
  std::vector<Callout> callouts; ///< by tag
  int packets = 0;               ///< packets drawn, single leaves among them (Scene::packets)
};

/// The box that suits a scene best, mm; opening and packets are wider than the others.
struct Box {
  double width_mm = 84, height_mm = 58;
};
Box usual_box(Scene scene);

/// Draws the scene as large as the box allows, centred; a box of at least 40 x 30 mm stays readable. Deterministic.
Sketch sketch(Scene scene, const Subject& subject, double width_mm, double height_mm);
inline Sketch sketch(Scene scene, const Subject& subject) {
  return sketch(scene, subject, usual_box(scene).width_mm, usual_box(scene).height_mm);
}

/// Puts the sketch on a page with its top left corner at `corner`.
void place(const Sketch& sketch, drawing::Point corner, drawing::Page& page);

} // namespace fanwright::booklet
