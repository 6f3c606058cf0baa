#include "picture/fan_paper.h"

#include "fan/panel_paper.h"
#include "leaf/contour.h"
#include "picture/flat_ring.h"
#include "picture/sheet_layout.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fanwright::picture {
namespace {

constexpr double on_line_mm = 0.02; // straightening moves lines by less
constexpr std::size_t least_ring_points = 3;
// Rays start this far off the paper: beside a cut edge within its plane, before and behind a crease.
constexpr float beside_edge_mm = 0.02F, off_crease_mm = 0.05F;

Vec3 vec(const opened::Point3& p) {
  return {static_cast<float>(p[0]), static_cast<float>(p[1]), static_cast<float>(p[2])};
}

/// Spacing at which the fan has about as many triangles as it may: a point has about half a square of it, and there
/// are two triangles a point, on two faces.
double spacing_within(double area_mm2, double wanted_mm) {
  return std::max(wanted_mm, std::sqrt(4 * area_mm2 / static_cast<double>(most_fan_triangles)));
}

std::optional<HalfPanel> filled(const fan::PanelPaper& paper, int panel, const leaf::Ring& outline, double spacing_mm) {
  const leaf::Ring ring = evenly_spaced(outline, spacing_mm);
  if (ring.size() < least_ring_points)
    return HalfPanel{};
  const double left = panel * paper.depth_mm();
  SheetLayout layout(spacing_mm, {left, 0});
  std::vector<opened::Point3> places;
  for (const leaf::Point& p : ring)
    places.push_back(paper.place(panel, p));
  layout.add_ring(ring, places);
  const leaf::Box box = leaf::bounds(ring);
  const int across = std::max(2, static_cast<int>(std::lround(paper.depth_mm() / spacing_mm)));
  for (double z = box.bottom + spacing_mm; z < box.top; z += spacing_mm)
    for (int i = 1; i < across; ++i) {
      const leaf::Point p{left + paper.depth_mm() * i / across, z};
      layout.add(p, paper.place(panel, p));
    }
  return layout.filled();
}

/// What an edge of a panel's paper is.
enum class Border { cut, gathered, left_crease, right_crease };

/// Number of the panel that a piece belongs to.
int panel_of(const HalfPanel& piece, double depth_mm) {
  const auto& [a, b, c] = piece.triangles.front();
  double x = 0;
  for (const int corner : {a, b, c})
    x += piece.flat[static_cast<std::size_t>(corner)].x / 3;
  return static_cast<int>(std::floor(x / depth_mm));
}

Border border_of(const FanPaper& fan, const HalfPanel& piece, int panel, const std::array<int, 2>& edge) {
  const leaf::Point a = piece.flat[static_cast<std::size_t>(edge[0])];
  const leaf::Point b = piece.flat[static_cast<std::size_t>(edge[1])];
  const auto both_at = [&](double x) { return std::abs(a.x - x) < on_line_mm && std::abs(b.x - x) < on_line_mm; };
  if (a.z < on_line_mm && b.z < on_line_mm)
    return Border::gathered;
  if (panel > 0 && both_at(panel * fan.depth_mm))
    return Border::left_crease;
  if (panel + 1 < fan.panel_count && both_at((panel + 1) * fan.depth_mm))
    return Border::right_crease;
  return Border::cut;
}

float distance_to_cut(leaf::Point p, const HalfPanel& piece, const std::vector<std::array<int, 2>>& cut) {
  double least = 1e6;
  for (const auto& [i, j] : cut) {
    const leaf::Point a = piece.flat[static_cast<std::size_t>(i)], b = piece.flat[static_cast<std::size_t>(j)];
    const double dx = b.x - a.x, dz = b.z - a.z, squared = dx * dx + dz * dz;
    const double t = squared > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / squared, 0.0, 1.0) : 0.0;
    least = std::min(least, std::hypot(p.x - a.x - t * dx, p.z - a.z - t * dz));
  }
  return static_cast<float>(least);
}

std::vector<std::array<int, 2>> edges_that_are(Border wanted, const FanPaper& fan, const HalfPanel& piece) {
  const int panel = panel_of(piece, fan.depth_mm);
  std::vector<std::array<int, 2>> found;
  for (const auto& edge : piece.edge)
    if (border_of(fan, piece, panel, edge) == wanted)
      found.push_back(edge);
  return found;
}

/// Unit, out of the paper, in its plane.
Vec3 outward(const HalfPanel& piece, const std::array<int, 2>& edge) {
  const auto a = static_cast<std::size_t>(edge[0]), b = static_cast<std::size_t>(edge[1]);
  return unit(cross(vec(piece.points[b]) - vec(piece.points[a]), vec(piece.normals[a])));
}

void add_band(Surface& surface, const HalfPanel& piece, const std::array<int, 2>& edge, float half, unsigned number) {
  const auto first = static_cast<unsigned>(surface.points.size());
  const Vec3 out = outward(piece, edge);
  for (const int end : edge)
    for (const float side : {half, -half}) {
      const auto k = static_cast<std::size_t>(end);
      surface.points.push_back(vec(piece.points[k]) + vec(piece.normals[k]) * side);
      surface.normals.push_back(out);
      surface.flat.push_back({static_cast<float>(piece.flat[k].x), static_cast<float>(piece.flat[k].z), 0, number});
    }
  surface.edge_triangles.push_back({first, first + 1, first + 2});
  surface.edge_triangles.push_back({first + 2, first + 1, first + 3});
}

/// Edges joined to lines, each with the outward directions of its edges added up at every point.
std::vector<Line> chained(const std::vector<std::array<int, 2>>& edges, const auto& point_at) {
  std::map<int, int> next;
  std::map<int, bool> entered;
  for (const auto& [a, b] : edges)
    next[a] = b, entered[b] = true;
  std::vector<Line> lines;
  const auto follow = [&](int from) {
    Line line{point_at(from)};
    for (auto step = next.find(from); step != next.end(); step = next.find(from)) {
      from = step->second;
      next.erase(step);
      line.push_back(point_at(from));
    }
    lines.push_back(std::move(line));
  };
  for (const auto& [a, b] : edges)
    if (!entered.contains(a))
      follow(a);
  while (!next.empty())
    follow(next.begin()->first);
  return lines;
}

} // namespace

std::size_t FanPaper::triangle_count() const {
  std::size_t count = 0;
  for (const HalfPanel& piece : panels)
    count += 2 * (piece.triangles.size() + piece.edge.size());
  return count;
}

std::variant<FanPaper, std::string> fan_paper(const fan::Placed& placed, const std::string& name, double caliper_mm,
                                              double spacing_mm) {
  const fan::PanelPaper paper(placed);
  FanPaper made{name, caliper_mm, paper.depth_mm(), paper.count(), {}, vec(paper.facing())};
  const double spacing = spacing_within(paper.area_mm2(), spacing_mm);
  for (int panel = 0; panel < paper.count(); ++panel)
    for (const leaf::Ring& ring : paper.flat(panel)) {
      auto piece = filled(paper, panel, ring, spacing);
      if (!piece)
        return "The outer edge of the fan \"" + name +
               "\" comes too close to itself to be drawn; keep it 0.1 mm apart.";
      if (!piece->triangles.empty())
        made.panels.push_back(*std::move(piece));
    }
  return made;
}

void add(Surface& surface, const FanPaper& fan, unsigned half_panel, bool edges) {
  for (const HalfPanel& piece : fan.panels) {
    const auto first = static_cast<unsigned>(surface.points.size());
    const auto number = half_panel + static_cast<unsigned>(panel_of(piece, fan.depth_mm));
    const auto cut = edges_that_are(Border::cut, fan, piece);
    for (std::size_t k = 0; k < piece.points.size(); ++k) {
      surface.points.push_back(vec(piece.points[k]));
      surface.normals.push_back(vec(piece.normals[k]));
      surface.flat.push_back({static_cast<float>(piece.flat[k].x), static_cast<float>(piece.flat[k].z),
                              distance_to_cut(piece.flat[k], piece, cut), number});
    }
    for (const auto& [a, b, c] : piece.triangles)
      surface.triangles.push_back(
          {first + static_cast<unsigned>(a), first + static_cast<unsigned>(b), first + static_cast<unsigned>(c)});
    if (edges && fan.caliper_mm > 0)
      for (const auto& edge : cut)
        add_band(surface, piece, edge, static_cast<float>(fan.caliper_mm / 2), number);
  }
}

std::vector<Line> lines_of(const FanPaper& fan) {
  std::vector<Line> lines;
  const auto append = [&](std::vector<Line> more) { std::ranges::move(more, std::back_inserter(lines)); };
  for (const HalfPanel& piece : fan.panels) {
    const auto at = [&](int k) { return vec(piece.points[static_cast<std::size_t>(k)]); };
    for (const Border border : {Border::cut, Border::gathered}) {
      const auto edges = edges_that_are(border, fan, piece);
      std::map<int, Vec3> out;
      for (const auto& edge : edges)
        for (const int end : edge)
          out[end] = out[end] + outward(piece, edge);
      append(chained(edges, [&](int k) {
        const Vec3 beside = at(k) + unit(out[k]) * beside_edge_mm;
        return LinePoint{at(k), {beside, beside}};
      }));
    }
    append(chained(edges_that_are(Border::right_crease, fan, piece), [&](int k) {
      return LinePoint{at(k), {at(k) + fan.facing * off_crease_mm, at(k) - fan.facing * off_crease_mm}};
    }));
  }
  return lines;
}

} // namespace fanwright::picture
