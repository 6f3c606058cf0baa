#include "sheets/bound.h"

#include "sheets/geos.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::sheets {

namespace {

constexpr double um2_per_mm2 = 1e6;
constexpr double hair = 1e-9; // of a quotient, for the rounding of the division

/// A box of moves, by its middle and half its sides.
struct MoveBox {
  double x, z, half_x, half_z;
};

/// True when every move in the box brings the two figures too near: depth changes by no more than the move does.
bool all_too_near(const Figures& figures, std::size_t a, std::size_t b, const MoveBox& box, double doubt_um) {
  constexpr double smallest_um = 100;
  const double depth = figures.depth(a, b, box.x, box.z) - doubt_um;
  if (depth > std::hypot(box.half_x, box.half_z))
    return true;
  if (depth <= 0 || std::max(box.half_x, box.half_z) < smallest_um)
    return false;
  const bool wide = box.half_x > box.half_z;
  const double x = wide ? box.half_x / 2 : 0, z = wide ? 0 : box.half_z / 2;
  const MoveBox first{box.x - x, box.z - z, box.half_x - x, box.half_z - z};
  const MoveBox second{box.x + x, box.z + z, box.half_x - x, box.half_z - z};
  return all_too_near(figures, a, b, first, doubt_um) && all_too_near(figures, a, b, second, doubt_um);
}

Geometry paper_of(const Geos& geos, const Profile& piece) {
  std::vector<Loop> loops = piece.shape.holes;
  loops.insert(loops.begin(), piece.shape.outline);
  return area_of(geos, loops);
}

/// Radius of a disc that lies wholly on the piece, about as large as can be, micrometres; 0 when none is found.
double disc_within_um(const Profile& piece) {
  constexpr double tolerance_um = 20, rounding_um = 2; // of corners rounded to whole micrometres, on both pieces
  const Geos geos;
  const Geometry paper = paper_of(geos, piece);
  const Geometry radius =
      geos.own(paper ? GEOSMaximumInscribedCircle_r(geos.get(), paper.get(), tolerance_um) : nullptr);
  double length = 0;
  if (!radius || GEOSLength_r(geos.get(), radius.get(), &length) != 1)
    return 0;
  return std::max(0.0, length - piece.off_um - rounding_um);
}

} // namespace

double grown_area_mm2(const Profile& piece, std::int64_t gap_um) {
  // The simpler outline lies at most off_um from the true one; arcs of the library lie inside the true arcs.
  const double by = static_cast<double>(gap_um) / 2 - piece.off_um;
  constexpr int sides_per_quarter = 16;
  const Geos geos;
  const Geometry area = paper_of(geos, piece);
  const Geometry larger = geos.own(area ? GEOSBuffer_r(geos.get(), area.get(), by, sides_per_quarter) : nullptr);
  double um2 = 0;
  if (!larger || GEOSArea_r(geos.get(), larger.get(), &um2) != 1)
    return 0;
  return um2 / um2_per_mm2;
}

double grown_room_mm2(const Extent& room, std::int64_t gap_um) {
  const double width = static_cast<double>(room.width()), height = static_cast<double>(room.height());
  const double gap = static_cast<double>(gap_um);
  return (width * height + gap * (width + height) + std::numbers::pi / 4 * gap * gap) / um2_per_mm2;
}

std::size_t most_by_area(const Profile& piece, const Extent& room, std::int64_t gap_um) {
  const double area = grown_area_mm2(piece, gap_um);
  constexpr double unbounded = 1e9;
  return static_cast<std::size_t>(area > 0 ? std::min(unbounded, grown_room_mm2(room, gap_um) / area * (1 + hair))
                                           : unbounded);
}

// Oler: points of a convex set K that are at least d apart number at most 2 / sqrt(3) area(K) / d^2 + perimeter(K) / (2
// d)
// + 1.
std::size_t most_by_discs(const Profile& piece, const Extent& room, std::int64_t gap_um) {
  constexpr double unbounded = 1e9;
  const double radius = disc_within_um(piece), apart = 2 * radius + static_cast<double>(gap_um);
  const double width = static_cast<double>(room.width()) - 2 * radius;
  const double height = static_cast<double>(room.height()) - 2 * radius;
  if (radius <= 0 || width < 0 || height < 0)
    return static_cast<std::size_t>(unbounded);
  const double most = 2 / std::numbers::sqrt3 * width * height / (apart * apart) + (width + height) / apart + 1;
  return static_cast<std::size_t>(std::min(unbounded, most * (1 + hair)));
}

std::size_t most_by_cells(const Figures& figures, std::size_t kind, const Extent& room, double off_um, double spare_um,
                          std::size_t most) {
  const std::size_t first = figures.first(kind), last = figures.first(kind + 1);
  const Extent places = places_in(room, figures[first].box);
  for (std::size_t figure = first; figure < last; ++figure) {
    const Extent other = places_in(room, figures[figure].box);
    if (!fits(other) || other.width() != places.width() || other.height() != places.height())
      return most;
  }
  // Beside the spare gap: the search's slack, what both outlines were simplified by (once for the gap that was added
  // for it, once for the region itself), and the rounding of region and outlines.
  constexpr double rounding_um = 4;
  const double doubt = spare_um + search_slack_um + 4 * off_um + rounding_um;
  const auto proves = [&](std::size_t columns, std::size_t rows) {
    const double half_x = static_cast<double>(places.width()) / static_cast<double>(columns);
    const double half_z = static_cast<double>(places.height()) / static_cast<double>(rows);
    for (std::size_t a = first; a < last; ++a)
      for (std::size_t b = a; b < last; ++b) {
        const Extent from = places_in(room, figures[a].box), to = places_in(room, figures[b].box);
        const MoveBox box{static_cast<double>(to.left - from.left), static_cast<double>(to.bottom - from.bottom),
                          half_x, half_z};
        if (!all_too_near(figures, a, b, box, doubt))
          return false;
      }
    return true;
  };
  for (std::size_t cells = 1; cells < most; ++cells)
    for (std::size_t columns = 1; columns <= cells; ++columns)
      if (cells % columns == 0 && proves(columns, cells / columns))
        return cells;
  return most;
}

} // namespace fanwright::sheets
