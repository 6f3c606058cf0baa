#include "picture/camera.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::picture {
namespace {

constexpr float filled_width = 0.76F; // share of the frame; the rest is room for the shadow
constexpr float filled_height = 0.80F;

struct Extent {
  Vec3 low{1e30F, 1e30F, 1e30F}, high{-1e30F, -1e30F, -1e30F};
  void take(Vec3 p) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
};

} // namespace

double between_walls_deg(double azimuth_deg, double wedge_deg) {
  return (std::floor(azimuth_deg / wedge_deg) + 0.5) * wedge_deg;
}

Camera::Camera(const std::vector<Vec3>& points, double azimuth_deg, double elevation_deg, int width_px, int height_px) {
  Extent box;
  for (Vec3 p : points)
    box.take(p);
  target_ = (box.low + box.high) * 0.5F;
  float reach = 0;
  for (Vec3 p : points)
    reach = std::max(reach, length(p - target_));
  radius_ = std::max(reach, 1e-3F);

  const double azimuth = azimuth_deg * std::numbers::pi / 180, elevation = elevation_deg * std::numbers::pi / 180;
  const Vec3 towards_eye{static_cast<float>(std::cos(elevation) * std::cos(azimuth)),
                         static_cast<float>(std::cos(elevation) * std::sin(azimuth)),
                         static_cast<float>(std::sin(elevation))};
  forward_ = -towards_eye;
  eye_ = target_ + towards_eye * (eye_radii * radius_);
  right_ = unit(cross(forward_, {0, 0, 1}));
  up_ = cross(right_, forward_);

  Extent seen;
  for (Vec3 p : points) {
    const Vec3 d = p - eye_;
    const float depth = dot(d, forward_);
    seen.take({dot(d, right_) / depth, dot(d, up_) / depth, 0});
  }
  const auto width = static_cast<float>(width_px), height = static_cast<float>(height_px);
  const float least = 1e-6F;
  scale_ = std::min(filled_width * width / std::max(seen.high.x - seen.low.x, least),
                    filled_height * height / std::max(seen.high.y - seen.low.y, least));
  slope_x_ = (seen.low.x + seen.high.x) / 2;
  slope_y_ = (seen.low.y + seen.high.y) / 2;
  middle_x_ = width / 2;
  middle_y_ = height / 2;
}

Ray Camera::ray(PixelPlace place) const {
  const float sx = slope_x_ + (place.x - middle_x_) / scale_;
  const float sy = slope_y_ - (place.y - middle_y_) / scale_;
  return {eye_, unit(forward_ + right_ * sx + up_ * sy)};
}

void Camera::approach(double zoom, double right_share, double up_share) {
  scale_ *= static_cast<float>(zoom);
  slope_x_ += static_cast<float>(right_share) * 2 * middle_x_ / scale_;
  slope_y_ += static_cast<float>(up_share) * 2 * middle_y_ / scale_;
}

void Camera::focus(float distance, float radius) {
  focus_mm_ = distance;
  lens_mm_ = radius;
}

Ray Camera::lens_ray(PixelPlace place, float u, float v) const {
  if (lens_mm_ <= 0)
    return ray(place);
  const float sx = slope_x_ + (place.x - middle_x_) / scale_;
  const float sy = slope_y_ - (place.y - middle_y_) / scale_;
  const Vec3 sharp = (forward_ + right_ * sx + up_ * sy) * focus_mm_;
  const float r = lens_mm_ * std::sqrt(u), angle = 2 * std::numbers::pi_v<float> * v;
  const Vec3 off = right_ * (r * std::cos(angle)) + up_ * (r * std::sin(angle));
  return {eye_ + off, unit(sharp - off)};
}

float Camera::widest_blur_px() const {
  const float nearest = (eye_radii - 1) * radius_, farthest = (eye_radii + 1) * radius_;
  return 2 * lens_mm_ * scale_ *
         std::max(std::abs(1 / nearest - 1 / focus_mm_), std::abs(1 / focus_mm_ - 1 / farthest));
}

float Camera::pixel_mm() const { return eye_radii * radius_ / scale_; }

PixelPlace Camera::project(Vec3 point) const {
  const Vec3 d = point - eye_;
  const float depth = dot(d, forward_);
  return {middle_x_ + (dot(d, right_) / depth - slope_x_) * scale_,
          middle_y_ - (dot(d, up_) / depth - slope_y_) * scale_};
}

} // namespace fanwright::picture
