#include "booklet/sketch.h"

#include "booklet/sketch_scenes.h"

#include <array>
#include <cmath>

namespace fanwright::booklet {
namespace {

bool closes(const design::Size& size) { return std::abs(size.opening_deg - 360) < 1e-6; }

std::vector<Panel> panels_of(Scene scene, const Subject& subject, const DrawnLeaf& leaf, double width_mm,
                             double height_mm) {
  switch (scene) {
  case Scene::sheet_and_cut:
    return sheet_and_cut(subject, leaf);
  case Scene::joining:
    return joining(subject, leaf);
  case Scene::score_and_fold:
    return score_and_fold(leaf);
  case Scene::stencil_use:
    return stencil_use(leaf);
  case Scene::inside_rows:
    return inside_rows(leaf);
  case Scene::between_rows:
    return between_rows(leaf);
  case Scene::packets:
    return packets(subject, width_mm, height_mm);
  case Scene::press:
    return press(subject, leaf);
  case Scene::opening:
    return opening(subject, leaf);
  case Scene::seam:
    return seam(subject, leaf);
  case Scene::backing:
    return backing(subject, leaf);
  case Scene::stuck_cells:
    return stuck_cells(subject, leaf);
  case Scene::fan_pleating:
    return fan_pleating(*subject.fan);
  case Scene::fan_spreading:
    return fan_spreading(subject);
  case Scene::foot:
    return foot(subject, leaf);
  case Scene::hanger:
    return hanger(subject, leaf);
  case Scene::finishing:
    return finishing(subject, leaf);
  case Scene::storing:
    break;
  }
  return storing(leaf);
}

} // namespace

std::string_view name_of(Scene scene) {
  static constexpr std::array<std::string_view, 18> names = {
      "sheet_and_cut", "joining",       "score_and_fold", "stencil_use", "inside_rows", "between_rows",
      "packets",       "press",         "opening",        "seam",        "backing",     "stuck_cells",
      "fan_pleating",  "fan_spreading", "foot",           "hanger",      "finishing",   "storing"};
  return names[static_cast<std::size_t>(scene)];
}

std::string_view name_of(Part part) {
  static constexpr std::array<std::string_view, 43> names = {
      "sheet",      "grain",         "leaf",          "knife",        "score",       "ruler",         "bone_folder",
      "inner_face", "outer_face",    "inside_row",    "between_row",  "free_edge",   "glue_tip",      "stencil",
      "dauber",     "straight_edge", "packet",        "board",        "weight",      "parting_sheet", "first_leaf",
      "last_leaf",  "seam",          "clip",          "backing_card", "blunt_blade", "stuck_cell",    "mountain",
      "valley",     "flap",          "lap",           "gathered_end", "last_pleat",  "seat",          "foot_disc",
      "thread",     "bead",          "glitter_brush", "open_edge",    "spray",       "sleeve",        "stiff_card",
      "sun"};
  return names[static_cast<std::size_t>(part)];
}

std::vector<Scene> scenes_of(const design::Design& design, const design::Size& size) {
  std::vector<Scene> scenes = {Scene::sheet_and_cut, Scene::score_and_fold, Scene::stencil_use,
                               Scene::inside_rows,   Scene::between_rows,   Scene::packets,
                               Scene::press,         Scene::opening,        Scene::stuck_cells};
  scenes.push_back(closes(size) ? Scene::seam : Scene::backing);
  if (!design.fans.empty()) {
    scenes.push_back(Scene::fan_pleating);
    scenes.push_back(Scene::fan_spreading);
  }
  scenes.push_back(design.making.display == design::Display::stands ? Scene::foot : Scene::hanger);
  if (design.making.glitter || design.making.sealer)
    scenes.push_back(Scene::finishing);
  scenes.push_back(Scene::storing);
  return scenes;
}

Box usual_box(Scene scene) {
  switch (scene) {
  case Scene::packets:
    return {176, 62};
  case Scene::opening:
    return {176, 70};
  case Scene::joining:
  case Scene::score_and_fold:
  case Scene::fan_pleating:
  case Scene::fan_spreading:
  case Scene::seam:
  case Scene::finishing:
    return {110, 58};
  default:
    return {};
  }
}

Sketch sketch(Scene scene, const Subject& subject, double width_mm, double height_mm) {
  const DrawnLeaf leaf = drawn_leaf(*subject.leaf);
  return side_by_side(panels_of(scene, subject, leaf, width_mm, height_mm), width_mm, height_mm);
}

} // namespace fanwright::booklet
