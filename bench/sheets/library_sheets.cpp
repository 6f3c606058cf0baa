// How many sheets a published general nesting library needs for a job (libnest2d 5.0.0 as packaged,
// https://github.com/tamasmeszaros/libnest2d). Reads the job as JSON (job_json) from standard input, prints one line
// for each setting, the fewest sheets of the library by itself and the fewest of all.
//
// Settings: the pile grown from the middle by the library's own measure or from a corner; leaves by their convex hulls,
// which is all that it knows by itself, or by true no-fit polygons, handed to it at the place it keeps for better ones.
// Every answer is checked exactly; one that fails is not counted.
#include "mixed_jobs.h"
#include "sheets/exact.h"
#include "sheets/no_fit.h"
#include "sheets/room.h"

// The library's templates are not ours to mend.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wall"
#pragma GCC diagnostic ignored "-Wextra"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wpedantic"
#include <libnest2d/backends/clipper/geometries.hpp>

namespace fanwright::bench {

using Path = ClipperLib::Path;

/// Set before a layout: whether pieces are kept apart by their true outlines.
bool by_true_outlines = false;

sheets::Shape shape_from(const Path& path) {
  sheets::Shape shape;
  for (std::size_t i = path.size(); i > 1; --i) // clockwise and closed there, counter-clockwise and open here
    shape.outline.push_back({path[i - 1].X - path[0].X, path[i - 1].Y - path[0].Y});
  return shape;
}

Path closed_clockwise(const sheets::Loop& loop) {
  Path path;
  for (auto spot = loop.rbegin(); spot != loop.rend(); ++spot)
    path.push_back({spot->x, spot->z});
  path.push_back(path.front());
  return path;
}

/// The moves of `moving` at which it meets `fixed`, each taken from its own first corner, remembered.
const ClipperLib::Polygon& no_fit_polygon(const Path& fixed, const Path& moving) {
  using Corners = std::vector<std::pair<std::int64_t, std::int64_t>>;
  static std::map<std::pair<Corners, Corners>, ClipperLib::Polygon> known;
  const auto corners = [](const Path& path) {
    Corners result;
    for (const auto& point : path)
      result.emplace_back(point.X - path[0].X, point.Y - path[0].Y);
    return result;
  };
  const auto [entry, fresh] = known.try_emplace({corners(fixed), corners(moving)});
  if (fresh)
    for (const sheets::Loop& loop : sheets::no_fit_region(shape_from(fixed), shape_from(moving))) {
      if (sheets::doubled_area(loop) > 0)
        entry->second.Contour = closed_clockwise(loop);
      else
        entry->second.Holes.push_back(closed_clockwise(loop));
    }
  return entry->second;
}

} // namespace fanwright::bench

namespace libnest2d {

/// The library is C++ 11; in C++ 20 its own comparisons of angles are ambiguous.
inline bool operator!=(const Radians& a, const Radians& b) { return static_cast<double>(a) != static_cast<double>(b); }

} // namespace libnest2d

namespace libnest2d::nfp {

template <> struct NfpImpl<PolygonImpl, NfpLevel::CONVEX_ONLY> {
  NfpResult<PolygonImpl> operator()(const PolygonImpl& fixed, const PolygonImpl& moving) {
    if (!fanwright::bench::by_true_outlines)
      return nfpConvexOnly(fixed, moving);
    PolygonImpl region = fanwright::bench::no_fit_polygon(fixed.Contour, moving.Contour);
    const PointImpl top = rightmostUpVertex(region);
    return {std::move(region), top};
  }
};

} // namespace libnest2d::nfp

#define BOOST_ALLOW_DEPRECATED_HEADERS
#include <libnest2d/libnest2d.hpp>
#pragma GCC diagnostic pop

#include <fmt/format.h>

#include <ctime>
#include <exception>
#include <iostream>
#include <iterator>

namespace fanwright::bench {
namespace {

using Nest = libnest2d::NfpPlacer;

constexpr std::int64_t rounding_um = 3; // of the library's turned corners and of the regions handed to it

struct Setting {
  const char* name;
  bool true_outlines, from_corner;
};
constexpr std::array<Setting, 4> settings = {{{"hulls, from the middle", false, false},
                                              {"hulls, from a corner", false, true},
                                              {"true outlines, from the middle", true, false},
                                              {"true outlines, from a corner", true, true}}};

libnest2d::Box bin_of(const sheets::Extent& room) { return {{room.left, room.bottom}, {room.right, room.top}}; }

Nest::Config config_of(const Setting& setting, const sheets::Extent& bin) {
  Nest::Config config;
  config.rotations = {0.0, libnest2d::Pi};
  config.parallel = false;
  if (!setting.from_corner)
    return config;
  config.alignment = Nest::Config::Alignment::DONT_ALIGN;
  config.starting_point = Nest::Config::Alignment::BOTTOM_LEFT;
  const double norm = static_cast<double>(bin.width() + bin.height());
  config.object_function = [bin, norm](const libnest2d::Item& item) {
    const libnest2d::Box box = item.boundingBox();
    const auto beyond = [](std::int64_t by) { return static_cast<double>(std::max<std::int64_t>(0, by)); };
    const double outside = beyond(bin.left - box.minCorner().X) + beyond(bin.bottom - box.minCorner().Y) +
                           beyond(box.maxCorner().X - bin.right) + beyond(box.maxCorner().Y - bin.top);
    const double far = static_cast<double>(box.maxCorner().X - bin.left + box.maxCorner().Y - bin.bottom);
    return far / norm + 10 * outside / norm;
  };
  return config;
}

/// The fewest sheets of one setting; 0 when its layout does not pass the check.
std::size_t sheets_needed(const sheets::Job& job, const Setting& setting) {
  by_true_outlines = setting.true_outlines;
  const sheets::Sheet& sheet = job.stocks[0].sheet;
  const std::int64_t gap = sheets::gap_um(sheet);
  // Leaves grown by half the gap with round corners, and the room with them: the library's own growing cuts corners
  // pointed and leaves its first leaf outside the room.
  sheets::Extent bin = sheets::usable(sheet);
  bin = {bin.left - gap / 2, bin.bottom - gap / 2, bin.right + gap / 2, bin.top + gap / 2};
  std::vector<libnest2d::Item> items;
  std::vector<sheets::Shape> outlines;
  for (const sheets::Kind& kind : job.kinds)
    for (int i = 0; i < kind.count; ++i) {
      outlines.push_back(sheets::shape_of(kind.outline));
      const double half = static_cast<double>(gap) / 2 + rounding_um;
      libnest2d::PolygonImpl polygon(closed_clockwise(sheets::grown({outlines.back().outline}, half).at(0)));
      if (!setting.true_outlines)
        polygon = libnest2d::shapelike::convexHull(polygon);
      items.emplace_back(polygon);
    }
  const std::size_t sheets =
      libnest2d::nest<Nest>(items, bin_of(bin), 0, libnest2d::NestConfig<Nest>(config_of(setting, bin)));
  const sheets::Extent room = sheets::usable(sheet);
  std::vector<std::vector<sheets::Shape>> laid(sheets);
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (items[i].binId() < 0 || items[i].binId() >= static_cast<int>(sheets))
      return 0;
    const bool turned = items[i].rotation().cos() < 0;
    laid[static_cast<std::size_t>(items[i].binId())].push_back(moved(
        sheets::laid(outlines[i], {turned ? 180 : 0, false}), {items[i].translation().X, items[i].translation().Y}));
    const sheets::Extent box = sheets::extent(laid[static_cast<std::size_t>(items[i].binId())].back().outline);
    if (box.left < room.left - rounding_um || box.bottom < room.bottom - rounding_um ||
        box.right > room.right + rounding_um || box.top > room.top + rounding_um)
      return 0;
  }
  for (const auto& shapes : laid)
    if (sheets::first_conflict(shapes, gap - rounding_um))
      return 0;
  return sheets;
}

} // namespace
} // namespace fanwright::bench

int main() try {
  using namespace fanwright::bench;
  const std::string text((std::istreambuf_iterator<char>(std::cin)), {});
  const auto job = job_from_json(text);
  std::size_t fewest = 0, by_itself = 0;
  const auto take = [](std::size_t& least, std::size_t sheets) {
    if (sheets > 0 && (least == 0 || sheets < least))
      least = sheets;
  };
  for (const Setting& setting : settings) {
    const std::clock_t begun = std::clock();
    const std::size_t sheets = sheets_needed(job, setting);
    fmt::print("{:<32} {} sheets, {:.1f} s\n", setting.name, sheets,
               static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC);
    std::fflush(stdout);
    take(fewest, sheets);
    if (!setting.true_outlines)
      take(by_itself, sheets);
  }
  fmt::print("fewest {} by itself {}\n", fewest, by_itself);
  return fewest > 0 ? 0 : 1;
} catch (const std::exception& error) {
  std::fputs(error.what(), stderr);
  return 1;
}
