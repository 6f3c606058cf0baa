// Binary STL as 3D Systems' StereoLithography Interface Specification (1989) laid it down: 80 bytes of heading, the
// number of triangles, then for each its normal, its three corners and two unused bytes.
#include "picture/little_endian.h"
#include "picture/mesh_files.h"

#include <cmath>

namespace fanwright::picture {
namespace {

constexpr std::size_t heading_bytes = 80, triangle_bytes = 50;

opened::Point3 normal(const opened::Point3& a, const opened::Point3& b, const opened::Point3& c) {
  opened::Point3 n{};
  for (std::size_t k = 0; k < 3; ++k) {
    const std::size_t i = (k + 1) % 3, j = (k + 2) % 3;
    n[k] = (b[i] - a[i]) * (c[j] - a[j]) - (b[j] - a[j]) * (c[i] - a[i]);
  }
  const double length = std::hypot(n[0], n[1], n[2]);
  return length > 0 ? opened::Point3{n[0] / length, n[1] / length, n[2] / length} : opened::Point3{0, 0, 0};
}

void put(const Solid& solid, std::string& bytes) {
  for (const auto& t : solid.triangles) {
    const std::array<opened::Point3, 3> corner{solid.points[static_cast<std::size_t>(t[0])],
                                               solid.points[static_cast<std::size_t>(t[1])],
                                               solid.points[static_cast<std::size_t>(t[2])]};
    for (const double x : normal(corner[0], corner[1], corner[2]))
      put_float(bytes, x);
    for (const auto& p : corner)
      for (const double x : p)
        put_float(bytes, x);
    put_whole(bytes, std::uint16_t{0});
  }
}

} // namespace

std::string stl(const Body& body) {
  const Solid solid = thickened(body.half, body.thickness_mm);
  std::vector<Solid> fans;
  std::size_t count = solid.triangles.size() * static_cast<std::size_t>(body.half_panels);
  for (const FanPaper& fan : body.fans) {
    fans.push_back(thickened(fan));
    count += fans.back().triangles.size();
  }
  std::string bytes = "Fanwright, opened ornament, mm"; // must not begin with "solid", which marks the text form
  bytes.reserve(heading_bytes + 4 + triangle_bytes * count);
  bytes.resize(heading_bytes, ' ');
  put_whole(bytes, static_cast<std::uint32_t>(count));
  for (int k = 0; k < body.half_panels; ++k)
    put(in_wedge(body, solid, k), bytes);
  for (const Solid& fan : fans)
    put(fan, bytes);
  return bytes;
}

} // namespace fanwright::picture
