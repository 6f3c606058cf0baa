// Everything in front of the lens: pieces, what they stand on or hang at, light and camera.
#pragma once

#include "picture/camera.h"
#include "picture/papers.h"
#include "picture/picture.h"
#include "picture/ruler.h"
#include "picture/scene.h"
#include "picture/trace.h"

namespace fanwright::picture {

struct Stage {
  Camera camera;
  Scene scene;
  Paper paper;
  PaperLook look;
  Lighting light;
  std::optional<Ruler> ruler;
};

/// The pieces of one picture placed in the world, before camera and light.
struct Placed {
  Surface surface;
  std::optional<Ruler> ruler;
  std::vector<Vec3> framed; ///< points that the frame must hold
  double azimuth_deg = 0;   ///< where the viewer stands
};

/// Sets the pieces in a row; from `azimuth_deg`, when given, else from where the first piece is best seen.
std::variant<Placed, std::string> placed(const std::vector<Piece>& pieces, const Style& style,
                                         std::optional<double> azimuth_deg);

/// Sets up camera and light for the placed pieces, framing `framed`.
std::variant<Stage, std::string> staged(Placed pieces, const std::vector<Vec3>& framed, const Style& style,
                                        const Paper& paper);

} // namespace fanwright::picture
