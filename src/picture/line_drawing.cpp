#include "picture/line_drawing.h"

#include "picture/contour_lines.h"
#include "picture/seen_lines.h"
#include "picture/straightened.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace fanwright::picture {
namespace {

constexpr double straight_mm = 0.02;                      // with the solver's own spacing this stays below 0.05 mm
constexpr double shortest_turn_mm = 1.0;                  // shorter turns of the paper are ripples of the triangles
constexpr double thin_pen_mm = 0.18, thick_pen_mm = 0.35; // steps of ISO 128-2

/// On the page before it is placed: x right, z up, mm of the ornament.
struct Seat {
  double x = 0, z = 0;
};

Vec3 placed(const opened::Form& wedge, int k, Vec3 p) {
  const auto [x, y, z] = opened::in_wedge(wedge, k, {p.x, p.y, p.z});
  return {static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)};
}

/// The view's direction in the frame of wedge 0 for what lies in wedge k: the copy undone.
opened::Point3 undone(const Body& body, int k, Vec3 towards) {
  const double turn = turn_rad(body, k), c = std::cos(turn), s = std::sin(turn);
  const double x = towards.x * c + towards.y * s, y = -towards.x * s + towards.y * c;
  return {x, k % 2 != 0 ? -y : y, towards.z};
}

/// All mid-surfaces, joined along their spines to a closed hub: the slits there are narrower than a pen.
Surface surface_of(const Body& body, const opened::Form& wedge) {
  Surface surface;
  const HalfPanel& half = body.half;
  const auto count = static_cast<unsigned>(half.points.size());
  const bool closed_round = std::abs(body.half_panels * body.wedge_rad - 2 * std::numbers::pi) < 1e-6;
  for (int k = 0; k < body.half_panels; ++k) {
    const unsigned here = static_cast<unsigned>(k) * count;
    for (const auto& p : half.points) {
      const auto [x, y, z] = opened::in_wedge(wedge, k, p);
      surface.points.push_back({static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)});
    }
    for (const auto& t : half.triangles)
      surface.triangles.push_back(
          {here + static_cast<unsigned>(t[0]), here + static_cast<unsigned>(t[1]), here + static_cast<unsigned>(t[2])});
    if (k == 0 && !closed_round)
      continue;
    const unsigned there = static_cast<unsigned>(k > 0 ? k - 1 : body.half_panels - 1) * count;
    for (const auto& [a, b] : half.edge)
      if (half.flat[static_cast<std::size_t>(a)].x <= 1e-6 && half.flat[static_cast<std::size_t>(b)].x <= 1e-6) {
        const auto from = static_cast<unsigned>(a), to = static_cast<unsigned>(b);
        surface.triangles.push_back({here + from, here + to, there + to});
        surface.triangles.push_back({here + from, there + to, there + from});
      }
  }
  for (const FanPaper& fan : body.fans)
    add(surface, fan, 0, false);
  surface.flat.clear();
  surface.normals.assign(surface.points.size(), Vec3{0, 0, 1}); // the scene wants some; only hits are asked for
  return surface;
}

double length_of(const Line& line) {
  double sum = 0;
  for (std::size_t k = 0; k + 1 < line.size(); ++k)
    sum += length(line[k + 1].place - line[k].place);
  return sum;
}

struct Drawn {
  Seen seen = Seen::inside;
  std::vector<Seat> seats;
};

void draw(const Scene& scene, const Axes& axes, const Line& line, std::vector<Drawn>& drawn) {
  for (const Stretch& stretch : seen_stretches(scene, axes, line)) {
    std::vector<Seat> seats;
    for (const Vec3 p : stretch.places)
      seats.push_back({dot(p, axes.right), dot(p, axes.up)});
    drawn.push_back({stretch.seen, straightened(seats, straight_mm)});
  }
}

void draw(const Scene& scene, const Axes& axes, const opened::Form& wedge, int k, const std::vector<Line>& lines,
          std::vector<Drawn>& drawn) {
  for (Line line : lines) {
    for (LinePoint& point : line)
      point = {placed(wedge, k, point.place), {placed(wedge, k, point.starts[0]), placed(wedge, k, point.starts[1])}};
    draw(scene, axes, line, drawn);
  }
}

/// Turns of the paper seen from there, without ripples of its triangles.
std::vector<Line> turns_of(const HalfPanel& half, const opened::Point3& towards) {
  std::vector<Line> turns = turning_lines(half, towards);
  std::erase_if(turns, [](const Line& line) { return length_of(line) < shortest_turn_mm; });
  return turns;
}

void draw_fan(const Scene& scene, const Axes& axes, const FanPaper& fan, std::vector<Drawn>& drawn) {
  for (const Line& line : lines_of(fan))
    draw(scene, axes, line, drawn);
  for (const HalfPanel& piece : fan.panels)
    for (const Line& line : turns_of(piece, {axes.towards.x, axes.towards.y, axes.towards.z}))
      draw(scene, axes, line, drawn);
}

drawing::Page page_of(const std::vector<Drawn>& drawn, const View& view) {
  double left = 1e9, right = -1e9, low = 1e9, high = -1e9;
  for (const Drawn& line : drawn)
    for (const Seat& seat : line.seats) {
      left = std::min(left, seat.x), right = std::max(right, seat.x);
      low = std::min(low, seat.z), high = std::max(high, seat.z);
    }
  drawing::Page page;
  if (drawn.empty())
    left = right = low = high = 0;
  page.width_mm = (right - left) * view.scale + 2 * view.margin_mm;
  page.height_mm = (high - low) * view.scale + 2 * view.margin_mm;
  for (const auto& [seen, width_mm] :
       {std::pair{Seen::inside, thin_pen_mm}, std::pair{Seen::outermost, thick_pen_mm}}) {
    drawing::Path path{drawing::Step::legend, {}, {width_mm, {}, false}};
    for (const Drawn& line : drawn) {
      if (line.seen != seen)
        continue;
      for (std::size_t k = 0; k < line.seats.size(); ++k) {
        const drawing::Point to{view.margin_mm + (line.seats[k].x - left) * view.scale,
                                view.margin_mm + (high - line.seats[k].z) * view.scale};
        if (k == 0)
          path.segments.emplace_back(drawing::Move{to});
        else
          path.segments.emplace_back(drawing::Line{to});
      }
    }
    if (!path.segments.empty())
      page.items.emplace_back(std::move(path));
  }
  return page;
}

/// Seen along the middle plane of a leaf, the ornament is its own mirror image.
double middle_of_leaf_deg(double azimuth_deg, double wedge_deg) {
  return std::round(azimuth_deg / (2 * wedge_deg)) * 2 * wedge_deg;
}

} // namespace

std::variant<drawing::Page, std::string> line_drawing(const Body& body, const View& view) {
  if (!(std::abs(view.elevation_deg) <= 90) || !(std::abs(view.azimuth_deg) <= 3600))
    return "The viewer looks down by -90 to 90 degrees and stands within ten turns; choose angles in those ranges.";
  if (!(view.scale >= 0.01 && view.scale <= 100) || !(view.margin_mm >= 0 && view.margin_mm <= 1000))
    return "A line drawing has a scale of 0.01 to 100 and a margin of 0 to 1000 mm; choose values in those ranges.";
  if (body.half_panels < 1 || body.half.triangles.empty() || !(body.wedge_rad > 0))
    return "There is no surface to draw; open the ornament first.";
  opened::Form wedge;
  wedge.wedge_rad = body.wedge_rad;
  const double wedge_deg = body.wedge_rad * 180 / std::numbers::pi;
  const double middle_deg = wedge_deg * body.half_panels / 2;
  const Axes axes = axes_of(middle_of_leaf_deg(view.azimuth_deg + middle_deg, wedge_deg), view.elevation_deg);
  const auto scene = Scene::build(surface_of(body, wedge));
  if (!scene)
    return "The line drawing needs more memory than there is; draw fewer leaves.";
  const std::vector<Line> edges = edge_lines(body.half);
  std::vector<Drawn> drawn;
  for (int k = 0; k < body.half_panels; ++k) {
    draw(*scene, axes, wedge, k, edges, drawn);
    draw(*scene, axes, wedge, k, turns_of(body.half, undone(body, k, axes.towards)), drawn);
  }
  for (const FanPaper& fan : body.fans)
    draw_fan(*scene, axes, fan, drawn);
  return page_of(drawn, view);
}

} // namespace fanwright::picture
