// A pleated strip spread about its centre: where every point of the flat strip comes to lie.
//
// Fan frame (mm): the centre, where the creases would meet, is the origin; X and Y lie in the fan's plane; Z points to
// whoever looks at the strip's front face. As she sees it, X is right and Y is up.
// Strip coordinates (mm): x (called u) along the strip from its first side, z (called v) along the pleats from the
// gathered end, the front face seen. Crease k (0 .. panels) is the line u = k p; creases 0 and `panels` are the sides.
// The first side is the left one: the creases follow each other clockwise. Odd creases are mountains on the front face
// and lie above the plane (Z > 0), even ones are valleys and lie below it; so the two sides lie alike.
//
// The surface. By symmetry crease k stays in the half-plane through the Z axis at its azimuth. Neighbouring creases
// are at one radius r and heights +-z, joined by a straight line as long as the panel is wide, p:
//   (2 r sin(a/2))^2 + (2 z)^2 = p^2        a: angle of a panel
// so a crease is an arc of an ellipse. With sin y = 2 r sin(a/2) / p, where y is the slope of the panel across itself,
// its length is v = p / (2 sin(a/2)) (E(y, k) - E(y_i, k)), k = cos(a/2), E the elliptic integral of the second kind.
// Widths and crease lengths are those of the flat strip, and there is no shear; only the panel's middle comes out
// shorter than its creases, locally by (y' p)^2 / 8. Paper takes that by stretching along its creases by two thirds of
// it, by being pressed together in the middle by one third, and by a little bow.
#pragma once

#include "leaf/outline.h"

#include <array>
#include <optional>

namespace fanwright::fan {

using Point3 = std::array<double, 3>;

/// The pleats of a strip, whatever its outline.
struct Pleats {
  double depth_mm = 10;       ///< width of a panel, between neighbouring creases
  int panels = 24;            ///< even; two make one pleat
  double length_mm = 60;      ///< along the pleats, of the longest crease
  double inner_radius_mm = 2; ///< of the gathered end
};

/// Widest spread the creases allow, degrees; may be above 360. The panels lie flat at the rim there.
double largest_spread_deg(const Pleats& pleats);

/// Widest spread at which no panel is stretched by more than `most_stretch` (a share), degrees; may be above 360.
double largest_spread_deg(const Pleats& pleats, double most_stretch);

class Spread {
public:
  /// `spread_deg` above 0 and at most largest_spread_deg(pleats). The fan's middle points to azimuth `middle_deg`,
  /// counter-clockwise from X.
  Spread(const Pleats& pleats, double spread_deg, double middle_deg = 90);

  const Pleats& pleats() const { return pleats_; }
  double spread_deg() const;
  double spread_rad() const { return pleats_.panels * panel_rad_; }
  double panel_deg() const;
  double first_side_deg() const; ///< azimuth of crease 0, counter-clockwise from X
  double last_side_deg() const { return first_side_deg() - spread_deg(); }

  double outer_radius_mm() const { return radius_at(pleats_.length_mm); }
  /// Radius of all creases at `v_mm` from the gathered end, 0 .. length.
  double radius_at(double v_mm) const;
  /// Height between neighbouring creases at `v_mm`, mm: twice a crease's distance from the fan's plane.
  double relief_at(double v_mm) const;

  /// Crease k (0 .. panels) at `v_mm`.
  Point3 crease(int k, double v_mm) const;
  /// Place of a point of the flat strip, u in 0 .. panels p, v in 0 .. length.
  Point3 place(leaf::Point flat) const;
  /// The flat point seen at distance `distance_mm` from the centre and `turned_rad` clockwise from the first side,
  /// looking along Z; empty beyond the sides, within the gathered end or where the paper cannot reach.
  std::optional<leaf::Point> flat(double distance_mm, double turned_rad) const;

  /// Stretch of the creases when the panels' forces balance, mean along a crease, as a share.
  double stretch() const;
  /// Farthest that a crease bows from the straight line between its ends, mm.
  double bow_mm() const;

private:
  double slope_at_radius(double radius_mm) const;
  double slope_at(double v_mm) const;
  double azimuth_rad(double k) const;

  Pleats pleats_;
  double panel_rad_ = 0, middle_rad_ = 0;
  double half_sine_ = 0, modulus_ = 0; ///< sin(a/2), cos(a/2)
  double inner_slope_ = 0;             ///< y at the gathered end, radians
};

} // namespace fanwright::fan
