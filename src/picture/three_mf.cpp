// Based on the 3MF Core Specification 1.3 (3MF Consortium): sections 3 (document), 4 (objects), 5 (materials).
#include "drawing/decimal.h"
#include "drawing/xml_text.h"
#include "picture/mesh_files.h"
#include "picture/package.h"

#include <cctype>
#include <cmath>

namespace fanwright::picture {
namespace {

constexpr int places = 5;      // of a coordinate in mm
constexpr int turn_places = 9; // of a sine: 1e-9 of 1 m is below any coordinate's last place

constexpr const char* content_types =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
 <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
 <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
)";

constexpr const char* relationships =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
 <Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
)";

std::string upper_case(std::string text) {
  for (char& letter : text)
    letter = static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
  return text;
}

std::string coordinate(double mm) { return drawing::decimal(mm, places); }

std::string object(int id, const std::string& name, const Solid& solid) {
  std::string text = "  <object id=\"" + std::to_string(id) + "\" type=\"model\" name=\"" + drawing::xml_text(name) +
                     "\" pid=\"1\" pindex=\"0\">\n   <mesh>\n    <vertices>\n";
  for (const auto& p : solid.points)
    text +=
        "     <vertex x=\"" + coordinate(p[0]) + "\" y=\"" + coordinate(p[1]) + "\" z=\"" + coordinate(p[2]) + "\"/>\n";
  text += "    </vertices>\n    <triangles>\n";
  for (const auto& t : solid.triangles)
    text += "     <triangle v1=\"" + std::to_string(t[0]) + "\" v2=\"" + std::to_string(t[1]) + "\" v3=\"" +
            std::to_string(t[2]) + "\"/>\n";
  return text + "    </triangles>\n   </mesh>\n  </object>\n";
}

/// Turned about Z, then shifted alike along X and Y. Places are rows in 3MF: (x y z 1) times the matrix, whose rows
/// follow one another here.
std::string turned(double radians, const std::string& shift) {
  const std::string c = drawing::decimal(std::cos(radians), turn_places);
  const std::string s = drawing::decimal(std::sin(radians), turn_places);
  const std::string minus_s = drawing::decimal(-std::sin(radians), turn_places);
  return c + " " + s + " 0 " + minus_s + " " + c + " 0 0 0 1 " + shift + " " + shift + " 0";
}

double reach(const Solid& solid) {
  double radius = 0;
  for (const auto& p : solid.points)
    radius = std::max(radius, std::hypot(p[0], p[1]));
  return radius;
}

std::string model(const Body& body) {
  const Solid right = thickened(body.half, body.thickness_mm);
  std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<model unit=\"millimeter\" xml:lang=\"en\" "
                     "xmlns=\"http://schemas.microsoft.com/3dmanufacturing/core/2015/02\">\n"
                     " <metadata name=\"Title\">" +
                     drawing::xml_text(body.title) +
                     "</metadata>\n <metadata name=\"Application\">Fanwright</metadata>\n <resources>\n"
                     "  <basematerials id=\"1\">\n   <base name=\"Paper\" displaycolor=\"" +
                     upper_case(body.colour) + "\"/>\n  </basematerials>\n";
  // Mirror images are objects of their own: a transform that mirrors would turn them inside out.
  text += object(2, "right half", right) + object(3, "left half", mirrored(right));
  constexpr int first_fan = 4;
  double room = reach(right);
  int id = first_fan;
  for (const FanPaper& fan : body.fans) {
    const Solid solid = thickened(fan);
    room = std::max(room, reach(solid));
    text += object(id++, fan.name, solid);
  }
  // The shift stands in the components, not in the build item: readers differ in the order of nested transforms.
  const std::string shift = coordinate(std::ceil(room)), whole = std::to_string(id);
  text += "  <object id=\"" + whole + "\" type=\"model\" name=\"ornament\">\n   <components>\n";
  for (int k = 0; k < body.half_panels; ++k)
    text += std::string("    <component objectid=\"") + (k % 2 == 0 ? "2" : "3") + "\" transform=\"" +
            turned(turn_rad(body, k), shift) + "\"/>\n";
  for (int fan = first_fan; fan < id; ++fan)
    text += "    <component objectid=\"" + std::to_string(fan) + "\" transform=\"" + turned(0, shift) + "\"/>\n";
  return text + "   </components>\n  </object>\n </resources>\n <build>\n  <item objectid=\"" + whole +
         "\"/>\n </build>\n</model>\n";
}

} // namespace

std::string three_mf(const Body& body) {
  return package(
      {{"[Content_Types].xml", content_types}, {"_rels/.rels", relationships}, {"3D/3dmodel.model", model(body)}});
}

} // namespace fanwright::picture
