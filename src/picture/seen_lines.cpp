#include "picture/seen_lines.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace fanwright::picture {
namespace {

constexpr float sample_mm = 0.4F; // the narrowest gap between leaves that a reader can make out
constexpr float place_of_change_mm = 0.01F;
constexpr float shortest_mm = 0.15F; // shorter stretches are taken for what surrounds them
// A line is outermost when there is background this near to it, and still there a little further out: slits at the hub,
// as wide as a caliper or two, do not count.
constexpr std::array<float, 2> beside_mm = {0.2F, 0.6F};
constexpr float far_mm = 1e4F; // outside every ornament

LinePoint between(const LinePoint& a, const LinePoint& b, float t) {
  const auto mix = [t](Vec3 p, Vec3 q) { return p + (q - p) * t; };
  return {mix(a.place, b.place), {mix(a.starts[0], b.starts[0]), mix(a.starts[1], b.starts[1])}};
}

class Look {
public:
  Look(const Scene& scene, const Axes& axes) : scene_(scene), axes_(axes) {}

  Seen at(const LinePoint& point, Vec3 along) const {
    const float far = std::numeric_limits<float>::infinity();
    if (scene_.blocked({point.starts[0], axes_.towards}, far) && scene_.blocked({point.starts[1], axes_.towards}, far))
      return Seen::hidden;
    // Across the line as seen.
    const Vec3 seen = along - axes_.towards * dot(along, axes_.towards);
    const Vec3 across = unit(cross(seen, axes_.towards));
    return background(point.place, across) || background(point.place, -across) ? Seen::outermost : Seen::inside;
  }

private:
  bool background(Vec3 place, Vec3 across) const {
    return std::ranges::none_of(beside_mm, [&](float beside) {
      const Vec3 start = place + across * beside + axes_.towards * far_mm;
      return scene_.blocked({start, -axes_.towards}, std::numeric_limits<float>::infinity());
    });
  }
  const Scene& scene_;
  const Axes& axes_;
};

Line sampled(const Line& line) {
  Line fine;
  for (std::size_t k = 0; k + 1 < line.size(); ++k) {
    const int parts = std::max(1, static_cast<int>(std::ceil(length(line[k + 1].place - line[k].place) / sample_mm)));
    for (int p = 0; p < parts; ++p)
      fine.push_back(between(line[k], line[k + 1], static_cast<float>(p) / static_cast<float>(parts)));
  }
  fine.push_back(line.back());
  return fine;
}

/// Where between a and b, seen in different ways, the change lies.
Vec3 change(const Look& look, LinePoint a, LinePoint b, Seen seen_a, Vec3 along) {
  while (length(b.place - a.place) > place_of_change_mm) {
    const LinePoint middle = between(a, b, 0.5F);
    (look.at(middle, along) == seen_a ? a : b) = middle;
  }
  return (a.place + b.place) * 0.5F;
}

float length_of(const Stretch& stretch) {
  float sum = 0;
  for (std::size_t k = 0; k + 1 < stretch.places.size(); ++k)
    sum += length(stretch.places[k + 1] - stretch.places[k]);
  return sum;
}

void append(Stretch& to, const Stretch& more) {
  to.places.insert(to.places.end(), more.places.begin(), more.places.end());
}

/// Short stretches join the one before them, and neighbours seen alike become one.
std::vector<Stretch> settled(const std::vector<Stretch>& stretches) {
  std::vector<Stretch> result;
  for (const Stretch& stretch : stretches) {
    const bool joins = !result.empty() && (stretch.seen == result.back().seen || length_of(stretch) < shortest_mm);
    if (joins)
      append(result.back(), stretch);
    else
      result.push_back(stretch);
  }
  return result;
}

} // namespace

Axes axes_of(double azimuth_deg, double elevation_deg) {
  const double azimuth = azimuth_deg * std::numbers::pi / 180, elevation = elevation_deg * std::numbers::pi / 180;
  const auto vec = [](double x, double y, double z) {
    return Vec3{static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)};
  };
  return {vec(-std::sin(azimuth), std::cos(azimuth), 0),
          vec(-std::sin(elevation) * std::cos(azimuth), -std::sin(elevation) * std::sin(azimuth), std::cos(elevation)),
          vec(std::cos(elevation) * std::cos(azimuth), std::cos(elevation) * std::sin(azimuth), std::sin(elevation))};
}

std::vector<Stretch> seen_stretches(const Scene& scene, const Axes& axes, const Line& line) {
  if (line.size() < 2)
    return {};
  const Look look(scene, axes);
  const Line fine = sampled(line);
  std::vector<Stretch> stretches;
  for (std::size_t k = 0; k < fine.size(); ++k) {
    const Vec3 along = k + 1 < fine.size() ? fine[k + 1].place - fine[k].place : fine[k].place - fine[k - 1].place;
    const Seen seen = look.at(fine[k], along);
    if (stretches.empty()) {
      stretches.push_back({seen, {}});
    } else if (seen != stretches.back().seen) {
      const Vec3 place = change(look, fine[k - 1], fine[k], stretches.back().seen, fine[k].place - fine[k - 1].place);
      stretches.back().places.push_back(place);
      stretches.push_back({seen, {place}});
    }
    stretches.back().places.push_back(fine[k].place);
  }
  stretches = settled(stretches);
  std::erase_if(stretches, [](const Stretch& s) { return s.seen == Seen::hidden || length_of(s) < shortest_mm; });
  return stretches;
}

} // namespace fanwright::picture
