#include "picture/contour_lines.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace fanwright::picture {
namespace {

// Rays start this far off the paper: beside an edge, within its plane; above and below a turn, where the triangles
// stand up to 0.1 mm off the smooth surface.
constexpr float beside_edge_mm = 0.02F;
constexpr float off_turn_mm = 0.12F;

using Edge = std::pair<int, int>;

Vec3 vec(const opened::Point3& p) {
  return {static_cast<float>(p[0]), static_cast<float>(p[1]), static_cast<float>(p[2])};
}

/// Follows steps from -> to until the chain ends or closes. Takes the steps used out of the map.
template <class Key> std::vector<Key> chain(std::map<Key, Key>& steps, Key start) {
  std::vector<Key> keys{start};
  for (auto step = steps.find(start); step != steps.end(); step = steps.find(keys.back())) {
    keys.push_back(step->second);
    steps.erase(step);
  }
  return keys;
}

/// All chains; those with a beginning first, so that none is entered in its middle.
template <class Key> std::vector<std::vector<Key>> chains(std::map<Key, Key> steps) {
  std::vector<std::vector<Key>> all;
  std::map<Key, int> entered;
  for (const auto& [from, to] : steps)
    ++entered[to];
  std::vector<Key> starts;
  for (const auto& [from, to] : steps)
    if (!entered.contains(from))
      starts.push_back(from);
  all.reserve(starts.size());
  for (const Key& start : starts)
    all.push_back(chain(steps, start));
  while (!steps.empty())
    all.push_back(chain(steps, steps.begin()->first));
  return all;
}

} // namespace

std::vector<Line> edge_lines(const HalfPanel& half) {
  const auto place = [&](int i) { return vec(half.points[static_cast<std::size_t>(i)]); };
  std::map<int, int> steps;
  std::vector<Vec3> outward(half.points.size());
  for (const auto& [a, b] : half.edge) {
    steps[a] = b;
    const Vec3 out = unit(cross(place(b) - place(a), vec(half.normals[static_cast<std::size_t>(a)])));
    for (const int end : {a, b})
      outward[static_cast<std::size_t>(end)] = outward[static_cast<std::size_t>(end)] + out;
  }
  std::vector<Line> lines;
  for (const auto& keys : chains(std::move(steps))) {
    Line line;
    for (const int i : keys) {
      const Vec3 beside = place(i) + unit(outward[static_cast<std::size_t>(i)]) * beside_edge_mm;
      line.push_back({place(i), {beside, beside}});
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<Line> turning_lines(const HalfPanel& half, const opened::Point3& towards) {
  std::vector<double> facing;
  for (const auto& n : half.normals)
    facing.push_back(n[0] * towards[0] + n[1] * towards[1] + n[2] * towards[2]);
  const auto front = [&](int i) { return facing[static_cast<std::size_t>(i)] >= 0; };
  // Each triangle with both signs is crossed once, from the side it enters the front to the side it leaves it.
  std::map<Edge, Edge> steps;
  for (const auto& t : half.triangles) {
    Edge in{-1, -1}, out{-1, -1};
    for (std::size_t c = 0; c < 3; ++c) {
      const int a = t[c], b = t[(c + 1) % 3];
      if (front(a) != front(b))
        (front(b) ? in : out) = std::minmax(a, b);
    }
    if (in.first >= 0)
      steps[in] = out;
  }
  std::vector<Line> lines;
  for (const auto& keys : chains(std::move(steps))) {
    Line line;
    for (const auto& [i, j] : keys) {
      const auto a = static_cast<std::size_t>(i), b = static_cast<std::size_t>(j);
      const auto t = static_cast<float>(facing[a] / (facing[a] - facing[b]));
      const Vec3 place = vec(half.points[a]) * (1 - t) + vec(half.points[b]) * t;
      const Vec3 off = unit(vec(half.normals[a]) * (1 - t) + vec(half.normals[b]) * t) * off_turn_mm;
      line.push_back({place, {place + off, place - off}});
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

} // namespace fanwright::picture
