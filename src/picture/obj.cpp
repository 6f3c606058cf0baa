#include "drawing/decimal.h"
#include "picture/mesh_files.h"

namespace fanwright::picture {
namespace {

constexpr int places = 5; // 0.00001 mm, far below the paper's own accuracy and enough to keep thin triangles apart

} // namespace

std::string obj(const Body& body) {
  const Solid solid = thickened(body.half, body.thickness_mm);
  std::string text = "# Fanwright, opened ornament; millimetres, Z up\n";
  std::size_t before = 1; // points are counted from 1 through the whole file
  for (int k = 0; k < body.half_panels; ++k) {
    const Solid copy = in_wedge(body, solid, k);
    text += "o half_" + std::to_string(k + 1) + "\n";
    for (const auto& p : copy.points)
      text += "v " + drawing::decimal(p[0], places) + " " + drawing::decimal(p[1], places) + " " +
              drawing::decimal(p[2], places) + "\n";
    for (const auto& t : copy.triangles) {
      text += "f";
      for (const int corner : t)
        text += " " + std::to_string(before + static_cast<std::size_t>(corner));
      text += "\n";
    }
    before += copy.points.size();
  }
  return text;
}

} // namespace fanwright::picture
