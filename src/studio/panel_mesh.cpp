#include "studio/panel_mesh.h"

#include "picture/half_panel.h"
#include "picture/little_endian.h"
#include "picture/occlusion.h"

#include <algorithm>
#include <cmath>

namespace fanwright::studio {
namespace {

/// Spacing that gives about so many triangles: two for each point, and a point has about spacing^2 / 2 of its own.
double spacing_for(const opened::Panel& panel, double triangles) {
  double area = 0;
  for (std::size_t k = 0; k < panel.outline.size(); ++k) {
    const leaf::Point a = panel.outline[k], b = panel.outline[(k + 1) % panel.outline.size()];
    area += 0.5 * (a.x * b.z - b.x * a.z);
  }
  return std::max(picture::finest_spacing_mm, std::sqrt(4 * std::abs(area) / triangles));
}

std::string bytes_of(const picture::HalfPanel& half, const std::vector<float>& open, const opened::Form& form,
                     int half_panels) {
  std::string bytes = "FWM1";
  picture::put_whole(bytes, static_cast<std::uint32_t>(half.points.size()));
  picture::put_whole(bytes, static_cast<std::uint32_t>(half.triangles.size()));
  picture::put_whole(bytes, static_cast<std::uint32_t>(half_panels));
  picture::put_float(bytes, form.wedge_rad);
  for (const auto& point : half.points)
    for (const double coordinate : point)
      picture::put_float(bytes, coordinate);
  for (const leaf::Point& flat : half.flat) {
    picture::put_float(bytes, flat.x);
    picture::put_float(bytes, flat.z);
  }
  for (std::size_t k = 0; k < half.points.size(); ++k)
    picture::put_whole(bytes, static_cast<std::uint8_t>(std::lround(255 * (k < open.size() ? open[k] : 1.0F))));
  while (bytes.size() % 4 != 0)
    bytes += '\0';
  for (const auto& triangle : half.triangles)
    for (const int corner : triangle)
      picture::put_whole(bytes, static_cast<std::uint32_t>(corner));
  return bytes;
}

} // namespace

std::variant<std::string, NoMesh> panel_mesh(const fit::Followed& followed, const opened::Form& form, bool fine) {
  constexpr double coarse_triangles = 4000, fine_triangles = 16'000;
  const double spacing = spacing_for(followed.panel, fine ? fine_triangles : coarse_triangles);
  auto made = picture::half_panel(followed.panel, followed.form, spacing);
  if (auto* sentence = std::get_if<std::string>(&made))
    return NoMesh{std::move(*sentence)};
  auto& half = std::get<picture::HalfPanel>(made);
  const std::vector<float> open = picture::openness(half, followed.form.wedge_rad);
  if (form.wedge_rad != followed.form.wedge_rad)
    std::ranges::transform(half.flat, half.points.begin(), form.place);
  return bytes_of(half, open, form, 2 * followed.panel.leaves);
}

} // namespace fanwright::studio
