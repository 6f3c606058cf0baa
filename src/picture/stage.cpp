#include "picture/stage.h"

#include "picture/sheet_edge.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::picture {
namespace {

constexpr std::size_t most_draft_triangles = 80'000; // of one ornament; built and marked in a tenth of a second
constexpr double to_rad = std::numbers::pi / 180;

Vec3 level(double azimuth_deg) {
  return {static_cast<float>(std::cos(azimuth_deg * to_rad)), static_cast<float>(std::sin(azimuth_deg * to_rad)), 0};
}

// White paper facing the window sends back 1.5 from the window; the sky adds up to 1 in the open and little in the
// depth of a cell. Together an outer face shows about the colour the maker chose while cells keep their shade.
Lighting studio_light(const Camera& camera, double azimuth_deg) {
  const float r = camera.radius();
  const Vec3 beside = level(azimuth_deg - 42); // window to the left of the viewer
  const Vec3 towards = unit({beside.x, beside.y, 0.8F});
  const Vec3 across = unit(cross({0, 0, 1}, towards));
  Window window;
  window.centre = camera.target() + towards * (4.5F * r);
  window.across = across * (0.95F * r);
  window.up = cross(towards, across) * (1.2F * r);
  // Irradiance / pi at the ornament = L * area / (pi d^2)
  const float share = 4 * 0.95F * 1.2F / (std::numbers::pi_v<float> * 4.5F * 4.5F);
  window.radiance = Vec3{1.0F, 0.95F, 0.87F} * (1.5F / share);
  Lighting light;
  light.sky = {{1.05F, 1.07F, 1.12F}, {0.92F, 0.90F, 0.88F}};
  light.window = window;
  light.table = Table{{0.62F, 0.57F, 0.50F}, {}, {0, 0, 1}};
  light.bounces = 3;
  light.remainder = 0.7F;
  return light;
}

// What comes through is coloured twice, by both halves of the sheet's thickness.
PaperLook look_of(const Paper& paper) {
  constexpr float whitest = 0.86F, blackest = 0.01F; // no paper keeps or sends back all
  const float most = std::max({paper.colour.x, paper.colour.y, paper.colour.z});
  const Vec3 kept = paper.colour * (most > whitest ? whitest / most : 1.0F);
  const Vec3 c{std::max(kept.x, blackest), std::max(kept.y, blackest), std::max(kept.z, blackest)};
  const float dull = 1 - 0.25F * paper.sheen; // a glossy layer keeps light from the paper
  return {c * ((1 - paper.through) * dull), c * c * (paper.through * dull)};
}

float reach(const Surface& surface) {
  float most = 0;
  for (Vec3 p : surface.points)
    most = std::max(most, std::hypot(p.x, p.y));
  return most;
}

int half_panels_of(const Piece& piece) {
  return piece.leaves > 0 ? 2 * piece.leaves : half_panels_of_full_circle(*piece.form);
}

std::variant<Surface, std::string> surface_of(const Piece& piece, const Style& style, std::size_t pieces) {
  const std::size_t most = style.draft ? most_draft_triangles : most_triangles / pieces;
  auto surface = flatten(*piece.form, half_panels_of(piece), most);
  if (auto* good = std::get_if<Surface>(&surface); good && piece.caliper_mm > 0 && !style.draft)
    add_sheet_edges(*piece.form, piece.cut_outs, half_panels_of(piece), piece.caliper_mm, *good);
  if (auto* good = std::get_if<Surface>(&surface)) {
    auto number = static_cast<unsigned>(half_panels_of(piece));
    for (const FanPaper& fan : piece.fans) {
      add(*good, fan, number, !style.draft);
      number += static_cast<unsigned>(fan.panel_count);
    }
  }
  return surface;
}

Ruler ruler_before(const Surface& row, double azimuth_deg) {
  const Vec3 towards = level(azimuth_deg), right = level(azimuth_deg + 90);
  float left = 1e9F, most_right = -1e9F, front = -1e9F;
  for (Vec3 p : row.points) {
    left = std::min(left, dot(p, right));
    most_right = std::max(most_right, dot(p, right));
    front = std::max(front, dot(p, towards));
  }
  const float room_mm = 12;
  return Ruler(right * left + towards * (front + room_mm), right, towards, most_right - left);
}

// A wall just behind the rearmost paper, square to the middle of the opening.
Table wall_behind(const Surface& surface, double middle_deg) {
  const Vec3 normal = level(middle_deg);
  float rearmost = 1e9F;
  for (Vec3 p : surface.points)
    rearmost = std::min(rearmost, dot(p, normal));
  const float room_mm = 0.5F;
  return {{0.72F, 0.70F, 0.66F}, normal * (rearmost - room_mm), normal};
}

} // namespace

std::variant<Placed, std::string> placed(const std::vector<Piece>& pieces, const Style& style,
                                         std::optional<double> azimuth_deg) {
  std::vector<Surface> surfaces;
  std::vector<float> places; // of the axes, along the row
  float edge = 0, highest = 0;
  for (const Piece& piece : pieces) {
    auto made = surface_of(piece, style, pieces.size());
    if (auto* sentence = std::get_if<std::string>(&made))
      return std::move(*sentence);
    surfaces.push_back(std::get<Surface>(std::move(made)));
    const float room = 1.3F * reach(surfaces.back());
    places.push_back(edge + room);
    edge += 2 * room;
    for (const Vec3 p : surfaces.back().points)
      highest = std::max(highest, p.z);
  }
  Placed all;
  const float eye_mm = eye_radii * std::hypot(edge / 2.6F, highest / 2); // about what the camera will choose
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const double wedge_deg = pieces[i].form->wedge_rad / to_rad;
    const double wanted = style.azimuth_deg + half_panels_of(pieces[i]) * wedge_deg / 2;
    const double best = azimuth_deg ? wanted : between_walls_deg(wanted, wedge_deg);
    if (i == 0)
      all.azimuth_deg = azimuth_deg.value_or(best);
    // Each piece faces the eye, which sees those at the row's ends from the side.
    const float beside = pieces.size() > 1 ? places[i] - edge / 2 : 0;
    const double turn = (all.azimuth_deg - best) * to_rad - std::atan(beside / eye_mm);
    add(all.surface, surfaces[i], turn, level(all.azimuth_deg + 90) * (places[i] - places[0]));
    surfaces[i] = {};
  }
  all.framed = all.surface.points;
  if (pieces.size() > 1 && (style.background == Background::table || style.background == Background::plain)) {
    all.ruler = ruler_before(all.surface, all.azimuth_deg);
    for (Vec3 corner : all.ruler->corners())
      all.framed.push_back(corner);
  }
  return all;
}

std::variant<Stage, std::string> staged(Placed pieces, const std::vector<Vec3>& framed, const Style& style,
                                        const Paper& paper) {
  Camera camera(framed, pieces.azimuth_deg, style.elevation_deg, style.width_px, style.height_px);
  camera.approach(style.zoom, style.look_right, style.look_up);
  Lighting light = studio_light(camera, pieces.azimuth_deg);
  light.seed = style.seed;
  if (style.background == Background::wall)
    light.table = wall_behind(pieces.surface, pieces.azimuth_deg - style.azimuth_deg);
  if (style.background == Background::plain)
    light.table->reflectance = {0.8F, 0.8F, 0.8F};
  if (style.draft)
    light.bounces = 2;
  // Few samples: a tree built sooner saves more than a better one would in searching.
  constexpr int few_samples = 9;
  auto scene = Scene::build(std::move(pieces.surface), style.draft || style.samples <= few_samples);
  if (!scene)
    return "The picture needs more memory than there is; draw fewer leaves.";
  if (style.blur > 0) {
    const Ray ray = camera.ray({static_cast<float>(style.width_px) / 2, static_cast<float>(style.height_px) / 2});
    const auto hit = scene->hit(ray);
    const float depth = hit ? hit->distance * dot(ray.direction, camera.forward()) : eye_radii * camera.radius();
    camera.focus(depth, static_cast<float>(style.blur) * camera.radius());
  }
  return Stage{camera, *scene, paper, look_of(paper), light, std::move(pieces.ruler)};
}

} // namespace fanwright::picture
