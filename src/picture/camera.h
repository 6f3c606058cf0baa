// A long lens in front of the ornament, its frame shifted and sized so that the ornament fills it.
#pragma once

#include "picture/vec3.h"

#include <vector>

namespace fanwright::picture {

/// Pixel coordinates: x right, y down, (0, 0) the outer corner of the top left pixel.
struct PixelPlace {
  float x = 0, y = 0;
};

/// The middle of the wedge that holds an azimuth, both degrees. Looking along a wall one would see through the whole
/// ornament, between panels that are glued to each other: they stand a caliper apart and have no thickness here.
double between_walls_deg(double azimuth_deg, double wedge_deg);

/// The eye's distance in radii of what is seen: far enough that a tall piece does not look tilted, near enough to keep
/// depth.
inline constexpr float eye_radii = 6;

class Camera {
public:
  /// Looks at the middle of `points` (mm, not empty) from the stated side (degrees), six radii away.
  Camera(const std::vector<Vec3>& points, double azimuth_deg, double elevation_deg, int width_px, int height_px);

  /// The ray from the eye through a place in the picture.
  Ray ray(PixelPlace place) const;

  /// Enlarges the picture about its middle, which then moves by a share of the seen width and height.
  void approach(double zoom, double right_share, double up_share);

  /// Sets the lens: everything `distance` mm in front of the eye is sharp. `radius` 0 mm: all is.
  void focus(float distance, float radius);

  /// The ray through a place in the picture from a place on the lens; `u`, `v` in 0..1 spread over the lens.
  Ray lens_ray(PixelPlace place, float u, float v) const;

  /// Widest blur of the ornament, pixels.
  float widest_blur_px() const;

  /// Size of a pixel at the ornament's middle, mm.
  float pixel_mm() const;

  Vec3 right() const { return right_; }
  Vec3 up() const { return up_; }
  Vec3 forward() const { return forward_; }

  /// Where a point in front of the eye is seen.
  PixelPlace project(Vec3 point) const;

  Vec3 target() const { return target_; }  ///< middle of the ornament, mm
  float radius() const { return radius_; } ///< of the sphere about target() that holds all points, mm

private:
  Vec3 target_, eye_, right_, up_, forward_;
  float radius_ = 1;
  float scale_ = 1;                   // pixels per unit of slope
  float slope_x_ = 0, slope_y_ = 0;   // slope seen at the picture's middle
  float middle_x_ = 0, middle_y_ = 0; // pixels
  float focus_mm_ = 1, lens_mm_ = 0;
};

} // namespace fanwright::picture
