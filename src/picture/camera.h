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

class Camera {
public:
  /// Looks at the middle of `points` (mm, not empty) from the stated side (degrees), six radii away.
  Camera(const std::vector<Vec3>& points, double azimuth_deg, double elevation_deg, int width_px, int height_px);

  /// The ray from the eye through a place in the picture.
  Ray ray(PixelPlace place) const;

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
};

} // namespace fanwright::picture
