#include "picture/shadow.h"

#include <algorithm>
#include <cmath>

namespace fanwright::picture {
namespace {

constexpr int step_px = 4; // the foot's contact shadow is the finest thing that must be held

// 1 where the ray leaves over the table's far edge.
Vec3 shade(const Camera& camera, const Tracer& tracer, int column, int row, std::uint32_t samples) {
  const Ray ray = camera.ray({static_cast<float>(column * step_px), static_cast<float>(row * step_px)});
  const auto distance = tracer.table_distance(ray);
  if (!distance)
    return {1, 1, 1};
  const Vec3 point = ray.origin + ray.direction * *distance;
  Vec3 sum;
  for (std::uint32_t sample = 0; sample < samples; ++sample) {
    Chance chance(static_cast<std::uint32_t>(column), static_cast<std::uint32_t>(row), sample, tracer.seed());
    sum = sum + tracer.table_shade(point, chance);
  }
  return sum * (1 / static_cast<float>(samples));
}

} // namespace

Shadow::Shadow(int width_px, int height_px)
    : columns_(width_px / step_px + 2), rows_(height_px / step_px + 2),
      light_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_)) {}

const Vec3& Shadow::node(int column, int row) const {
  const auto c = static_cast<std::size_t>(std::clamp(column, 0, columns_ - 1));
  const auto r = static_cast<std::size_t>(std::clamp(row, 0, rows_ - 1));
  return light_[r * static_cast<std::size_t>(columns_) + c];
}

// One pass with the binomial weights 1 2 1 in both directions.
void Shadow::smooth() {
  std::vector<Vec3> smoothed;
  smoothed.reserve(light_.size());
  for (int row = 0; row < rows_; ++row)
    for (int column = 0; column < columns_; ++column) {
      Vec3 sum;
      for (int dr = -1; dr <= 1; ++dr)
        for (int dc = -1; dc <= 1; ++dc)
          sum = sum + node(column + dc, row + dr) * static_cast<float>((2 - std::abs(dr)) * (2 - std::abs(dc)));
      smoothed.push_back(sum * (1 / 16.0F));
    }
  light_ = std::move(smoothed);
}

bool Shadow::gather(const Camera& camera, const Tracer& tracer, const Crew& crew, int samples) {
  const auto job = [&](int row) {
    for (int column = 0; column < columns_; ++column)
      light_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(column)] =
          shade(camera, tracer, column, row, static_cast<std::uint32_t>(samples));
  };
  if (!work_through(rows_, crew, job))
    return false;
  smooth();
  smooth();
  return true;
}

Vec3 Shadow::at(PixelPlace place) const {
  const float x = place.x / step_px, y = place.y / step_px;
  const int column = static_cast<int>(x), row = static_cast<int>(y);
  const float u = x - static_cast<float>(column), v = y - static_cast<float>(row);
  return (node(column, row) * (1 - u) + node(column + 1, row) * u) * (1 - v) +
         (node(column, row + 1) * (1 - u) + node(column + 1, row + 1) * u) * v;
}

} // namespace fanwright::picture
