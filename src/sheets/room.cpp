#include "sheets/room.h"

#include "leaf/contour.h"

#include <algorithm>
#include <cmath>

namespace fanwright::sheets {

namespace {

constexpr double um_per_mm = 1000;
constexpr double noise_um = 1e-3;         // a sum of lengths written in mm carries far less
constexpr std::size_t most_corners = 240; // of a searched outline; a leaf's curves keep within 0.03 mm

} // namespace

std::int64_t gap_um(const Sheet& sheet) {
  return std::max<std::int64_t>(1, static_cast<std::int64_t>(std::ceil(sheet.gap_mm * um_per_mm - noise_um)));
}

Extent usable(const Sheet& sheet) {
  const auto margin = static_cast<std::int64_t>(std::ceil(sheet.margin_mm * um_per_mm - noise_um));
  const auto width = static_cast<std::int64_t>(std::floor(sheet.size.width_mm * um_per_mm + noise_um));
  const auto height = static_cast<std::int64_t>(std::floor(sheet.size.height_mm * um_per_mm + noise_um));
  return {margin, margin, width - margin, height - margin};
}

Extent places_in(const Extent& room, const Extent& piece) {
  return {room.left - piece.left, room.bottom - piece.bottom, room.right - piece.right, room.top - piece.top};
}

Profile profile_of(const leaf::Ring& outline, const std::vector<leaf::Ring>& holes) {
  Profile profile;
  const leaf::Box box = leaf::bounds(outline);
  const auto down = [](double mm) { return static_cast<std::int64_t>(std::floor(mm * um_per_mm + noise_um)); };
  const auto up = [](double mm) { return static_cast<std::int64_t>(std::ceil(mm * um_per_mm - noise_um)); };
  profile.box = {down(box.left), down(box.bottom), up(box.right), up(box.top)};
  profile.shape = shape_of(outline, holes);
  const auto simplify = [&profile](Loop& loop) {
    Simpler simple = simplified(loop, most_corners);
    profile.off_um = std::max(profile.off_um, simple.off_um);
    loop = std::move(simple.loop);
  };
  simplify(profile.shape.outline);
  for (Loop& hole : profile.shape.holes)
    simplify(hole);
  return profile;
}

Profile laid(const Profile& profile, Stance stance) {
  const Loop corners{laid(Spot{profile.box.left, profile.box.bottom}, stance),
                     laid(Spot{profile.box.right, profile.box.top}, stance)};
  return {laid(profile.shape, stance), extent(corners), profile.off_um};
}

} // namespace fanwright::sheets
