#include "picture/solid.h"

#include "picture/colour.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace fanwright::picture {
namespace {

constexpr double wider = 1.25;              // two thirds of the triangles at each step
constexpr double widest_spacing_mm = 100.0; // beyond it no shape is left

double lowest(const Solid& solid) {
  double z = std::numeric_limits<double>::infinity();
  for (const auto& p : solid.points)
    z = std::min(z, p[2]);
  return z;
}

/// Lets the lowest point be at Z = 0.
void stand(Body& body) {
  double low = lowest(thickened(body.half, body.thickness_mm));
  for (const FanPaper& fan : body.fans)
    low = std::min(low, lowest(thickened(fan)));
  const auto lift = [low](HalfPanel& piece) {
    for (auto& point : piece.points)
      point[2] -= low;
  };
  lift(body.half);
  for (FanPaper& fan : body.fans)
    std::ranges::for_each(fan.panels, lift);
}

} // namespace

Solid thickened(const HalfPanel& half, double thickness_mm) {
  Solid solid;
  const int count = static_cast<int>(half.points.size());
  for (const double side : {0.5, -0.5})
    for (std::size_t i = 0; i < half.points.size(); ++i) {
      opened::Point3 p = half.points[i];
      for (std::size_t k = 0; k < 3; ++k)
        p[k] += side * thickness_mm * half.normals[i][k];
      solid.points.push_back(p);
    }
  for (const auto& [a, b, c] : half.triangles) {
    solid.triangles.push_back({a, b, c});
    solid.triangles.push_back({a + count, c + count, b + count});
  }
  for (const auto& [a, b] : half.edge) {
    solid.triangles.push_back({b, a, a + count});
    solid.triangles.push_back({b, a + count, b + count});
  }
  return solid;
}

Solid thickened(const FanPaper& fan) {
  Solid all;
  for (const HalfPanel& piece : fan.panels) {
    const int first = static_cast<int>(all.points.size());
    const Solid one = thickened(piece, fan.caliper_mm);
    all.points.insert(all.points.end(), one.points.begin(), one.points.end());
    for (const auto& [a, b, c] : one.triangles)
      all.triangles.push_back({first + a, first + b, first + c});
  }
  return all;
}

std::variant<Body, std::string> body_of(const opened::Panel& panel, const opened::Form& form, const std::string& title,
                                        const std::string& colour, std::size_t most, std::vector<FanPaper> fans) {
  if (!(panel.sheet.thickness_mm > 0) || panel.leaves < 1)
    return "A mesh needs at least one leaf of paper with a caliper above zero.";
  if (!linear_colour(colour))
    return "The paper's colour is \"" + colour + "\"; write it as # and six hexadecimal digits, like #c8563c.";
  Body body{{}, panel.sheet.thickness_mm, form.wedge_rad, 2 * panel.leaves, title, colour, std::move(fans)};
  std::size_t of_fans = 0;
  for (const FanPaper& fan : body.fans)
    of_fans += fan.triangle_count();
  for (double spacing = finest_spacing_mm; spacing < widest_spacing_mm; spacing *= wider) {
    auto half = half_panel(panel, form, spacing);
    if (auto* sentence = std::get_if<std::string>(&half))
      return std::move(*sentence);
    body.half = std::get<HalfPanel>(std::move(half));
    const std::size_t each = 2 * (body.half.triangles.size() + body.half.edge.size());
    if (each * static_cast<std::size_t>(body.half_panels) + of_fans > most)
      continue;
    stand(body);
    return body;
  }
  return "The ornament has too many leaves for a mesh of " + std::to_string(most) + " triangles; use fewer leaves.";
}

double turn_rad(const Body& body, int k) { return (k % 2 != 0 ? k + 1 : k) * body.wedge_rad; }

Solid mirrored(Solid solid) {
  for (auto& p : solid.points)
    p[1] = -p[1];
  for (auto& t : solid.triangles)
    std::swap(t[1], t[2]);
  return solid;
}

Solid in_wedge(const Body& body, const Solid& solid, int k) {
  opened::Form place; // the wedge alone decides where a copy lies
  place.wedge_rad = body.wedge_rad;
  Solid copy = solid;
  for (auto& p : copy.points)
    p = opened::in_wedge(place, k, p);
  if (k % 2 != 0)
    for (auto& t : copy.triangles)
      std::swap(t[1], t[2]);
  return copy;
}

} // namespace fanwright::picture
