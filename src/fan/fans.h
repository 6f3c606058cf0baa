// The fans of a design in one size: scaled with the silhouette, in the paper of the size or their own.
#pragma once

#include "fan/fan.h"
#include "fan/seat.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::fan {

struct SizedFan {
  const design::Fan* fan = nullptr; ///< of the design that was handed in
  paper::Paper paper;
  Made made;                ///< the fan; where it is a pair, the right one
  Fan wanted{};             ///< what it was made from
  std::optional<Seat> seat; ///< where it is to sit; empty: the file does not say
  double unit_mm = 1;       ///< what one unit of the file's lengths is in this size
  std::string called;       ///< what refusals call it: "Fan "wing", size small"
};

/// All fans of the design in one size. Refusals have their place in the file: "/fans/0/pleats".
std::variant<std::vector<SizedFan>, design::Refusal> fans_of(const design::Design& design, const design::Size& size);

/// The strips of a fan to be cut for one piece, by the name they go by: "wing", or "wing, right" and "wing, left".
struct NamedStrip {
  std::string name;
  Strip strip;
};
std::vector<NamedStrip> strips_of(const SizedFan& fan);

} // namespace fanwright::fan
