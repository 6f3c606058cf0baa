// The ornament's soft shadow on the table, gathered on a coarse grid over the picture and interpolated: the shadow is
// smooth, so this costs a tenth of gathering it in every pixel and leaves no grain.
#pragma once

#include "picture/camera.h"
#include "picture/parallel.h"
#include "picture/trace.h"

#include <vector>

namespace fanwright::picture {

class Shadow {
public:
  Shadow(int width_px, int height_px);

  /// Gathers `samples` at every place of the grid. False when cancelled.
  bool gather(const Camera& camera, const Tracer& tracer, const Crew& crew, int samples);

  /// Share of the light that is left behind a place in the picture, per channel.
  Vec3 at(PixelPlace place) const;

private:
  const Vec3& node(int column, int row) const;
  void smooth();

  int columns_, rows_;
  std::vector<Vec3> light_;
};

} // namespace fanwright::picture
