#include "picture/gathered.h"

#include <algorithm>
#include <atomic>

namespace fanwright::picture {
namespace {

// Samples at each side of a point: fewer where points lie close, for smoothing then averages as many over each mm2.
constexpr std::size_t most_samples = 64, least_samples = 4;
constexpr std::size_t points_a_job = 256; // long enough to hide the cost of handing out jobs

std::size_t record_of(std::size_t point, int side) { return 2 * point + static_cast<std::size_t>(side); }

} // namespace

GatheredLight::GatheredLight(const Scene& scene)
    : scene_(scene), wanted_(2 * scene.surface().points.size(), 0), light_(wanted_.size()) {}

void GatheredLight::want(const Hit& hit) {
  for (unsigned corner : scene_.corners(hit))
    std::atomic_ref(wanted_[record_of(corner, hit.side)]).store(1, std::memory_order_relaxed);
}

void GatheredLight::gather_point(const Tracer& tracer, std::size_t record, std::uint32_t samples) {
  const std::size_t point = record / 2;
  const Vec3 normal = scene_.surface().normals[point] * (record % 2 == 0 ? 1.0F : -1.0F);
  Vec3 sum;
  for (std::uint32_t sample = 0; sample < samples; ++sample) {
    Chance chance(static_cast<std::uint32_t>(record), 0x5eedU, sample, tracer.seed());
    sum = sum + tracer.gathered(scene_.surface().points[point], normal, normal, chance);
  }
  light_[record] = sum * (1 / static_cast<float>(samples));
}

// One pass of averaging over the triangles around each point; only records that were gathered take part.
void GatheredLight::smooth() {
  std::vector<Vec3> sum(light_.size());
  std::vector<float> count(light_.size(), 0);
  for (const auto& triangle : scene_.surface().triangles)
    for (int side = 0; side < 2; ++side) {
      Vec3 mean;
      const bool whole = std::ranges::all_of(triangle, [&](unsigned c) { return wanted_[record_of(c, side)] != 0; });
      if (!whole)
        continue;
      for (unsigned corner : triangle)
        mean = mean + light_[record_of(corner, side)] * (1 / 3.0F);
      for (unsigned corner : triangle) {
        const auto record = record_of(corner, side);
        sum[record] = sum[record] + mean;
        ++count[record];
      }
    }
  for (std::size_t record = 0; record < light_.size(); ++record)
    if (count[record] > 0)
      light_[record] = light_[record] * 0.25F + sum[record] * (0.75F / count[record]);
}

bool GatheredLight::gather(const Tracer& tracer, const Crew& crew, std::size_t samples_in_all) {
  std::vector<std::size_t> records;
  for (std::size_t record = 0; record < wanted_.size(); ++record)
    if (wanted_[record])
      records.push_back(record);
  const auto samples = static_cast<std::uint32_t>(
      std::clamp(samples_in_all / std::max<std::size_t>(records.size(), 1), least_samples, most_samples));
  const auto job = [&](int number) {
    const std::size_t from = static_cast<std::size_t>(number) * points_a_job;
    for (std::size_t i = from; i < std::min(from + points_a_job, records.size()); ++i)
      gather_point(tracer, records[i], samples);
  };
  if (!work_through(static_cast<int>((records.size() + points_a_job - 1) / points_a_job), crew, job))
    return false;
  smooth();
  return true;
}

Vec3 GatheredLight::at(const Tracer& tracer, const Ray& ray, const Hit& hit, Chance& chance) const {
  const auto& corners = scene_.corners(hit);
  Vec3 light;
  for (std::size_t i = 0; i < 3; ++i) {
    const auto record = record_of(corners[i], hit.side);
    if (!wanted_[record])
      return tracer.gathered(ray.origin + ray.direction * hit.distance, hit.normal, hit.facet_normal, chance);
    light = light + light_[record] * hit.weights[i];
  }
  return light;
}

} // namespace fanwright::picture
