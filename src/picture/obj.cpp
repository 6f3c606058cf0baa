#include "drawing/decimal.h"
#include "picture/mesh_files.h"

#include <cctype>

namespace fanwright::picture {
namespace {

constexpr int places = 5; // 0.00001 mm, far below the paper's own accuracy and enough to keep thin triangles apart

/// Letters and digits, joined by '_': readers end a name at the first space, or do not.
std::string plain(const std::string& name) {
  std::string text;
  for (const char letter : name) {
    const bool kept = std::isalnum(static_cast<unsigned char>(letter)) != 0;
    if (kept)
      text += letter;
    else if (!text.empty() && text.back() != '_')
      text += '_';
  }
  return text;
}

/// `before`: points of the file so far, counted from 1.
void put(const Solid& solid, const std::string& name, std::size_t& before, std::string& text) {
  text += "o " + name + "\n";
  for (const auto& p : solid.points)
    text += "v " + drawing::decimal(p[0], places) + " " + drawing::decimal(p[1], places) + " " +
            drawing::decimal(p[2], places) + "\n";
  for (const auto& t : solid.triangles) {
    text += "f";
    for (const int corner : t)
      text += " " + std::to_string(before + static_cast<std::size_t>(corner));
    text += "\n";
  }
  before += solid.points.size();
}

} // namespace

std::string obj(const Body& body) {
  const Solid solid = thickened(body.half, body.thickness_mm);
  std::string text = "# Fanwright, opened ornament; millimetres, Z up\n";
  std::size_t before = 1;
  for (int k = 0; k < body.half_panels; ++k)
    put(in_wedge(body, solid, k), "half_" + std::to_string(k + 1), before, text);
  for (std::size_t i = 0; i < body.fans.size(); ++i)
    put(thickened(body.fans[i]), "fan_" + std::to_string(i + 1) + "_" + plain(body.fans[i].name), before, text);
  return text;
}

} // namespace fanwright::picture
