// What takes long and is asked for again: orders of stocks, and what is left of a job, bring the same pieces back.
#pragma once

#include "sheets/keep_out.h"
#include "sheets/room.h"

#include <functional>
#include <map>
#include <vector>

namespace fanwright::sheets {

class Known {
public:
  /// Where `moving` may not be, relative to `fixed`, grown by `reach_um`; the answer stays as long as this does.
  const KeepOut& region(const Shape& fixed, const Shape& moving, double reach_um);

  /// A piece in a stance (and its half turn) that a room is filled with.
  struct Filled {
    const Profile& piece; ///< laid in the stance
    const Shape& outline; ///< the true one, as given
    Stance stance;
    Extent room;
    std::int64_t gap_um = 0;
  };

  /// How the room is filled; `fill` is asked the first time, and again only
  /// where what is kept has grown too large.
  std::vector<Laid> pattern(const Filled& filled, const std::function<std::vector<Laid>()>& fill);

private:
  using Key = std::vector<std::int64_t>;
  std::map<Key, KeepOut> regions_;
  std::map<Key, std::vector<Laid>> patterns_;
  std::size_t pieces_ = 0; ///< in all patterns
};

} // namespace fanwright::sheets
