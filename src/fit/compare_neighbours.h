// The opened ornament with one input changed, found beside the form as designed.
#pragma once

#include "opened/opened.h"
#include "opened/solver.h"

#include <functional>
#include <optional>

namespace fanwright::fit {

/// Outer measures of an opened ornament, mm.
struct Extent {
  double height_mm = 0, diameter_mm = 0;
};

/// Each call gives the extent with one input changed; nothing when no form is found or the caller asks to stop.
class Neighbours {
public:
  /// `solver`: the one that found the form, to go on from there.
  Neighbours(opened::Panel panel, opened::Form form, std::function<bool()> cancelled,
             opened::Solver solver = opened::Solver());

  const opened::Panel& panel() const { return panel_; }
  const opened::Form& form() const { return form_; }
  Extent designed() const { return {form_.height_mm, form_.diameter_mm}; }

  std::optional<Extent> with_leaves(int leaves);
  std::optional<Extent> with_opening(double opening_deg);
  std::optional<Extent> with_caliper(double caliper_mm);
  /// Leaf, rows and their widths at another scale, in the same paper.
  std::optional<Extent> scaled(double scale);
  /// Bending stiffness times `factor`, membrane stiffness as it is.
  std::optional<Extent> with_bending(double factor) const;
  /// `share` of the way (0..1) to sharp creases at the rows' edges; nothing when the paper takes no set there.
  std::optional<Extent> creased(double share);
  std::optional<Extent> with_rows_wider(double by_mm);
  std::optional<Extent> with_rows_moved(double up_mm);
  std::optional<Extent> with_rows_scaled(double scale);
  /// Paper grown by these shares away from the spine and along it after gluing, to first order.
  Extent grown(double across, double along) const;

private:
  std::optional<Extent> warm(const opened::Panel& panel);
  std::optional<Extent> other_rows(const opened::Panel& panel);
  std::optional<Extent> coarse(const opened::Panel& panel);

  opened::Panel panel_;
  opened::Form form_;
  std::function<bool()> cancelled_;
  opened::Solver solver_, coarse_solver_;
  std::optional<Extent> coarse_base_, creased_;
  bool creases_tried_ = false;
};

} // namespace fanwright::fit
