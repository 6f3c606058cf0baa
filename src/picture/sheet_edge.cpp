#include "picture/sheet_edge.h"

#include "leaf/contour.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace fanwright::picture {
namespace {

double distance_to_segment(leaf::Point p, const opened::EdgePoint& a, const opened::EdgePoint& b) {
  const double dx = b.x - a.x, dz = b.z - a.z, squared = dx * dx + dz * dz;
  const double along = squared > 0 ? std::clamp(((p.x - a.x) * dx + (p.z - a.z) * dz) / squared, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - along * dx, p.z - a.z - along * dz);
}

float distance_to_edge(leaf::Point p, const std::vector<opened::EdgePoint>& edge) {
  double least = 1e6;
  for (std::size_t i = 1; i < edge.size(); ++i)
    least = std::min(least, distance_to_segment(p, edge[i - 1], edge[i]));
  return static_cast<float>(least);
}

Vec3 point_of(const opened::Mesh& mesh, int corner) {
  const auto [x, y, z] = mesh.points[static_cast<std::size_t>(corner)];
  return {static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)};
}

// Area-weighted, in the wedge's frame.
std::vector<Vec3> normals_of(const opened::Mesh& mesh) {
  std::vector<Vec3> normals(mesh.points.size());
  for (const auto& triangle : mesh.triangles) {
    const Vec3 a = point_of(mesh, triangle[0]);
    const Vec3 n = cross(point_of(mesh, triangle[1]) - a, point_of(mesh, triangle[2]) - a);
    for (int corner : triangle)
      normals[static_cast<std::size_t>(corner)] = normals[static_cast<std::size_t>(corner)] + n;
  }
  std::ranges::transform(normals, normals.begin(), unit);
  return normals;
}

/// A flat place in the mesh: the triangle that holds it, or misses it least, and the corners' weights.
struct Found {
  std::size_t triangle = 0;
  std::array<double, 3> weights{};
};

Found find(const opened::Mesh& mesh, double x, double z) {
  Found best;
  double best_least = -std::numeric_limits<double>::infinity();
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const auto flat = [&](std::size_t corner) {
      return mesh.flat[static_cast<std::size_t>(mesh.triangles[t][corner])];
    };
    const auto a = flat(0), b = flat(1), c = flat(2);
    const double area = (b.x - a.x) * (c.z - a.z) - (b.z - a.z) * (c.x - a.x);
    if (area == 0)
      continue;
    const double v = ((x - a.x) * (c.z - a.z) - (z - a.z) * (c.x - a.x)) / area;
    const double w = ((b.x - a.x) * (z - a.z) - (b.z - a.z) * (x - a.x)) / area;
    // How far outside, mm and not shares, so that slivers do not reach far
    const double least = std::min({1 - v - w, v, w}) * std::sqrt(std::abs(area));
    if (least > best_least)
      best_least = least, best = {t, {1 - v - w, v, w}};
    if (least >= 0)
      break;
  }
  return best;
}

/// A cut edge of one half-panel in the wedge's frame.
struct Rim {
  std::vector<leaf::Point> flat;
  std::vector<Vec3> middle, across, outward; ///< across: the sheet's unit normal
};

Rim rim_of(const opened::Form& form) {
  const auto& mesh = form.mesh;
  const auto normals = normals_of(mesh);
  Rim rim;
  std::vector<Vec3> inside;
  for (const auto& place : form.edge) {
    const Found found = find(mesh, place.x, place.z);
    Vec3 point, normal, centre;
    for (std::size_t i = 0; i < 3; ++i) {
      const int corner = mesh.triangles[found.triangle][i];
      point = point + point_of(mesh, corner) * static_cast<float>(found.weights[i]);
      normal = normal + normals[static_cast<std::size_t>(corner)] * (1 / 3.0F);
      centre = centre + point_of(mesh, corner) * (1 / 3.0F);
    }
    rim.flat.push_back({place.x, place.z});
    rim.middle.push_back(point);
    rim.across.push_back(unit(normal));
    inside.push_back(centre);
  }
  for (std::size_t i = 0; i < rim.middle.size(); ++i) {
    const Vec3 along = rim.middle[std::min(i + 1, rim.middle.size() - 1)] - rim.middle[i > 0 ? i - 1 : 0];
    const Vec3 out = unit(cross(along, rim.across[i]));
    rim.outward.push_back(dot(out, rim.middle[i] - inside[i]) < 0 ? -out : out);
  }
  return rim;
}

Vec3 place_of(const opened::Form& form, double x, double z) {
  const auto [px, py, pz] = form.place({x, z});
  return {static_cast<float>(px), static_cast<float>(py), static_cast<float>(pz)};
}

// Outward of a cut-out's edge is into the cut-out.
Rim cut_out_rim(const opened::Form& form, const leaf::Ring& ring) {
  constexpr double step_mm = 0.05; // for differences; the sheet goes on just outside the paper
  const double turn = leaf::signed_area(ring) < 0 ? -1 : 1;
  Rim rim;
  for (std::size_t i = 0; i <= ring.size(); ++i) {
    const auto [x, z] = ring[i % ring.size()];
    const leaf::Point before = ring[(i + ring.size() - 1) % ring.size()], after = ring[(i + 1) % ring.size()];
    const double dx = after.x - before.x, dz = after.z - before.z, length = std::max(std::hypot(dx, dz), 1e-9);
    const double in_x = -turn * dz / length * step_mm, in_z = turn * dx / length * step_mm;
    const Vec3 outward = place_of(form, x + in_x, z + in_z) - place_of(form, x - in_x, z - in_z);
    const Vec3 right = place_of(form, x + step_mm, z) - place_of(form, x - step_mm, z);
    const Vec3 up = place_of(form, x, z + step_mm) - place_of(form, x, z - step_mm);
    rim.flat.push_back({x, z});
    rim.middle.push_back(place_of(form, x, z));
    rim.across.push_back(unit(cross(right, up)));
    rim.outward.push_back(unit(outward));
  }
  return rim;
}

Vec3 placed(const opened::Form& form, int k, Vec3 p) {
  const auto [x, y, z] = opened::in_wedge(form, k, {p.x, p.y, p.z});
  return {static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)};
}

void add_band(const opened::Form& form, int k, const Rim& rim, float half, Surface& surface) {
  const auto first = static_cast<unsigned>(surface.points.size());
  for (std::size_t i = 0; i < rim.middle.size(); ++i)
    for (float side : {1.0F, -1.0F}) {
      surface.points.push_back(placed(form, k, rim.middle[i] + rim.across[i] * (side * half)));
      surface.normals.push_back(placed(form, k, rim.outward[i]));
      surface.flat.push_back(
          {static_cast<float>(rim.flat[i].x), static_cast<float>(rim.flat[i].z), 0, static_cast<unsigned>(k)});
    }
  for (unsigned i = 0; i + 1 < rim.middle.size(); ++i) {
    const unsigned a = first + 2 * i;
    surface.edge_triangles.push_back({a, a + 1, a + 2});
    surface.edge_triangles.push_back({a + 2, a + 1, a + 3});
  }
}

} // namespace

std::vector<bool> on_outer_edge(const opened::Form& form) {
  constexpr double near_mm = 0.25; // chords of the edge and of the mesh differ by less
  // Only points in the same band of heights can be near: the search stays quick on fine meshes.
  constexpr double band_mm = 2;
  std::map<long, std::vector<const opened::EdgePoint*>> bands;
  const auto band_of = [](double z) { return std::lround(std::floor(z / band_mm)); };
  for (const auto& place : form.edge)
    bands[band_of(place.z)].push_back(&place);
  std::vector<bool> on_edge;
  for (const auto& flat : form.mesh.flat) {
    bool near = false;
    for (long band = band_of(flat.z) - 1; band <= band_of(flat.z) + 1 && !near; ++band)
      if (const auto found = bands.find(band); found != bands.end())
        for (const auto* place : found->second)
          near = near || (&form.edge.back() != place && std::abs(place->x - flat.x) < 2 &&
                          distance_to_segment(flat, *place, *(place + 1)) < near_mm);
    on_edge.push_back(near);
  }
  return on_edge;
}

void place_in_leaf(const opened::Form& form, const opened::Mesh& mesh, int half_panels, Surface& surface) {
  std::vector<FlatPlace> first;
  first.reserve(mesh.flat.size());
  for (const auto& place : mesh.flat)
    first.push_back({static_cast<float>(place.x), static_cast<float>(place.z), distance_to_edge(place, form.edge), 0});
  for (int k = 0; k < half_panels; ++k)
    for (FlatPlace place : first) {
      place.half_panel = static_cast<unsigned>(k);
      surface.flat.push_back(place);
    }
}

void add_sheet_edges(const opened::Form& form, const std::vector<leaf::Ring>& cut_outs, int half_panels,
                     double caliper_mm, Surface& surface) {
  if (form.edge.size() < 2)
    return;
  std::vector<Rim> rims{rim_of(form)};
  for (const auto& ring : cut_outs)
    if (ring.size() > 2 && form.place)
      rims.push_back(cut_out_rim(form, ring));
  for (int k = 0; k < half_panels; ++k)
    for (const Rim& rim : rims)
      add_band(form, k, rim, static_cast<float>(caliper_mm / 2), surface);
}

} // namespace fanwright::picture
