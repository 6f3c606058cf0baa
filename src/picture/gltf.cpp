// Based on the Khronos glTF 2.0 specification (ISO/IEC 12113:2022): sections 3 (concepts) and 4 (binary container).
#include "picture/colour.h"
#include "picture/little_endian.h"
#include "picture/mesh_files.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace fanwright::picture {
namespace {

using Json = nlohmann::ordered_json;

constexpr int type_float = 5126, type_unsigned = 5125;           // componentType
constexpr int target_vertices = 34962, target_triangles = 34963; // bufferView.target
constexpr double metres = 1e-3;
constexpr double roughness = 0.9; // uncoated paper, common practice, no source

/// Corners with their own normals: the two faces of the paper and the narrow walls at its edges meet sharply.
struct Shaded {
  std::vector<opened::Point3> points, normals; // mm, Z up
  Triangles triangles;
};

opened::Point3 opposite(const opened::Point3& n) { return {-n[0], -n[1], -n[2]}; }

/// Unit normal of a wall, outward: at right angles to the edge and to the sheet's normal.
opened::Point3 outward(const opened::Point3& a, const opened::Point3& b, const opened::Point3& sheet) {
  opened::Point3 n{};
  for (std::size_t k = 0; k < 3; ++k) {
    const std::size_t i = (k + 1) % 3, j = (k + 2) % 3;
    n[k] = (b[i] - a[i]) * sheet[j] - (b[j] - a[j]) * sheet[i];
  }
  const double length = std::hypot(n[0], n[1], n[2]);
  return length > 0 ? opened::Point3{n[0] / length, n[1] / length, n[2] / length} : sheet;
}

Shaded shaded(const HalfPanel& half, double thickness_mm) {
  const Solid solid = thickened(half, thickness_mm);
  const int count = static_cast<int>(half.points.size());
  Shaded all{solid.points, half.normals, {}};
  std::ranges::transform(half.normals, std::back_inserter(all.normals), opposite);
  const auto faces = static_cast<std::ptrdiff_t>(2 * half.triangles.size());
  all.triangles.assign(solid.triangles.begin(), solid.triangles.begin() + faces);
  for (const auto& [a, b] : half.edge) {
    const int first = static_cast<int>(all.points.size());
    const auto normal = outward(half.points[static_cast<std::size_t>(a)], half.points[static_cast<std::size_t>(b)],
                                half.normals[static_cast<std::size_t>(a)]);
    for (const int corner : {a, b, a + count, b + count}) {
      all.points.push_back(solid.points[static_cast<std::size_t>(corner)]);
      all.normals.push_back(normal);
    }
    all.triangles.push_back({first + 1, first, first + 2});
    all.triangles.push_back({first + 1, first + 2, first + 3});
  }
  return all;
}

Shaded shaded(const FanPaper& fan) {
  Shaded all;
  for (const HalfPanel& piece : fan.panels) {
    const Shaded one = shaded(piece, fan.caliper_mm);
    const int first = static_cast<int>(all.points.size());
    all.points.insert(all.points.end(), one.points.begin(), one.points.end());
    all.normals.insert(all.normals.end(), one.normals.begin(), one.normals.end());
    for (const auto& [a, b, c] : one.triangles)
      all.triangles.push_back({first + a, first + b, first + c});
  }
  return all;
}

Shaded mirrored(Shaded all) {
  for (auto* list : {&all.points, &all.normals})
    for (auto& p : *list)
      p[1] = -p[1];
  for (auto& t : all.triangles)
    std::swap(t[1], t[2]);
  return all;
}

/// Y up: Z becomes Y, and Y points away from the viewer.
opened::Point3 y_up(const opened::Point3& p) { return {p[0], p[2], -p[1]}; }

class File {
public:
  /// Adds an accessor of vectors; `scale` is applied to each. Gives its index.
  int vectors(const std::vector<opened::Point3>& list, double scale, bool bounds) {
    std::array<float, 3> low{}, high{};
    low.fill(std::numeric_limits<float>::max());
    high.fill(std::numeric_limits<float>::lowest());
    const std::size_t from = bytes_.size();
    for (const auto& p : list) {
      const auto turned = y_up(p);
      for (std::size_t k = 0; k < 3; ++k) {
        const auto x = static_cast<float>(scale * turned[k]);
        low[k] = std::min(low[k], x);
        high[k] = std::max(high[k], x);
        put_float(bytes_, x);
      }
    }
    Json accessor = {{"bufferView", view(from, target_vertices)},
                     {"componentType", type_float},
                     {"count", list.size()},
                     {"type", "VEC3"}};
    if (bounds) {
      accessor["min"] = low;
      accessor["max"] = high;
    }
    return add(std::move(accessor));
  }

  int indices(const Triangles& triangles) {
    const std::size_t from = bytes_.size();
    for (const auto& t : triangles)
      for (const int corner : t)
        put_whole(bytes_, static_cast<std::uint32_t>(corner));
    return add({{"bufferView", view(from, target_triangles)},
                {"componentType", type_unsigned},
                {"count", 3 * triangles.size()},
                {"type", "SCALAR"}});
  }

  Json accessors = Json::array(), views = Json::array();
  const std::string& bytes() const { return bytes_; }

private:
  int view(std::size_t from, int target) {
    views.push_back({{"buffer", 0}, {"byteOffset", from}, {"byteLength", bytes_.size() - from}, {"target", target}});
    return static_cast<int>(views.size()) - 1;
  }
  int add(Json accessor) {
    accessors.push_back(std::move(accessor));
    return static_cast<int>(accessors.size()) - 1;
  }
  std::string bytes_;
};

Json mesh(File& file, const std::string& name, const Shaded& all) {
  const int points = file.vectors(all.points, metres, true);
  const int normals = file.vectors(all.normals, 1, false);
  return {{"name", name},
          {"primitives", Json::array({{{"attributes", {{"POSITION", points}, {"NORMAL", normals}}},
                                       {"indices", file.indices(all.triangles)},
                                       {"material", 0}}})}};
}

Json material(const Body& body) {
  const Vec3 colour = linear_colour(body.colour).value_or(Vec3{1, 1, 1});
  return {
      {"name", "Paper"},
      {"pbrMetallicRoughness",
       {{"baseColorFactor", {colour.x, colour.y, colour.z, 1}}, {"metallicFactor", 0}, {"roughnessFactor", roughness}}},
      {"doubleSided", true}};
}

/// One node for each half-panel, one for each fan, then the ornament that holds them.
Json nodes(const Body& body) {
  Json list = Json::array(), children = Json::array();
  for (int k = 0; k < body.half_panels; ++k) {
    const double half_turn = turn_rad(body, k) / 2;
    children.push_back(k);
    list.push_back({{"name", "half " + std::to_string(k + 1)},
                    {"mesh", k % 2},
                    {"rotation", {0, std::sin(half_turn), 0, std::cos(half_turn)}}});
  }
  for (const FanPaper& fan : body.fans) {
    const std::size_t mesh_of_fan = 2 + list.size() - static_cast<std::size_t>(body.half_panels);
    children.push_back(list.size());
    list.push_back({{"name", fan.name}, {"mesh", mesh_of_fan}});
  }
  list.push_back({{"name", body.title.empty() ? "Ornament" : body.title}, {"children", children}});
  return list;
}

void put_chunk(std::string& glb, std::uint32_t type, std::string chunk, char filling) {
  chunk.resize((chunk.size() + 3) / 4 * 4, filling); // chunks end on four bytes
  put_whole(glb, static_cast<std::uint32_t>(chunk.size()));
  put_whole(glb, type);
  glb += chunk;
}

} // namespace

std::string gltf(const Body& body) {
  File file;
  const Shaded right = shaded(body.half, body.thickness_mm);
  Json meshes = Json::array();
  meshes.push_back(mesh(file, "right half", right));
  meshes.push_back(mesh(file, "left half", mirrored(right)));
  for (const FanPaper& fan : body.fans)
    meshes.push_back(mesh(file, fan.name, shaded(fan)));
  const Json list = nodes(body);
  const Json document = {{"asset", {{"version", "2.0"}, {"generator", "Fanwright"}}},
                         {"scene", 0},
                         {"scenes", Json::array({{{"nodes", Json::array({list.size() - 1})}}})},
                         {"nodes", list},
                         {"meshes", meshes},
                         {"materials", Json::array({material(body)})},
                         {"accessors", file.accessors},
                         {"bufferViews", file.views},
                         {"buffers", Json::array({{{"byteLength", file.bytes().size()}}})}};
  std::string chunks;
  put_chunk(chunks, 0x4E4F534A, document.dump(-1, ' ', false, Json::error_handler_t::replace), ' '); // "JSON"
  put_chunk(chunks, 0x004E4942, file.bytes(), '\0');                                                 // "BIN"
  constexpr std::uint32_t heading = 12;
  std::string glb = "glTF";
  put_whole(glb, std::uint32_t{2});
  put_whole(glb, static_cast<std::uint32_t>(heading + chunks.size()));
  return glb + chunks;
}

} // namespace fanwright::picture
