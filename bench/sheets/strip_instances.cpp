#include "measured.h"
#include "sheets/exact.h"
#include "sheets/strip.h"
#include "sheets/touching.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>

namespace fanwright::bench {
namespace {

using namespace sheets;

constexpr double strip_mm = 1000;       // every strip is scaled to about this height
constexpr double places_a_second = 6e6; // about what one core looks at; ends the exploration in time

struct Instance {
  std::string name;
  std::vector<SearchedKind> kinds;
  std::vector<std::size_t> pieces;
  double height_mm = 0, area_mm2 = 0;
};

Instance read(const std::filesystem::path& file) {
  std::ifstream stream(file);
  const nlohmann::json json = nlohmann::json::parse(stream);
  const double height = json.at("strip_height").get<double>();
  // Their corners lie at whole units: whole micrometres too, so that pieces that fill the height do so here.
  const double scale = std::floor(strip_mm * 1000 / height) / 1000;
  Instance instance;
  instance.height_mm = height * scale;
  instance.name = json.at("name").get<std::string>();
  for (const auto& piece : json.at("pieces")) {
    leaf::Ring ring;
    for (const auto& point : piece.at("polygon"))
      ring.push_back({point[0].get<double>() * scale, point[1].get<double>() * scale});
    std::vector<Stance> stances;
    for (const auto& turn : piece.at("rotations"))
      stances.push_back({static_cast<int>(turn.get<double>()), false});
    instance.kinds.push_back({profile_of(ring), stances});
    for (int i = 0; i < piece.at("demand").get<int>(); ++i) {
      instance.pieces.push_back(instance.kinds.size() - 1);
      instance.area_mm2 += area_mm2(instance.kinds.back().profile.shape);
    }
  }
  return instance;
}

/// The strip's true end, by the outlines laid to whole micrometres; 0 when two of them overlap.
double checked_length_mm(const Instance& instance, const Figures& figures, const Strip& strip) {
  std::vector<Shape> shapes;
  std::int64_t end = 0;
  for (const Item& item : strip.items) {
    const Figure& figure = figures[item.figure];
    shapes.push_back(moved(laid(instance.kinds[figure.kind].profile.shape, figure.stance),
                           {std::llround(item.x), std::llround(item.z)}));
    const Extent box = extent(shapes.back().outline);
    if (box.left < 0 || box.bottom < 0 || box.top > static_cast<std::int64_t>(std::llround(instance.height_mm * 1000)))
      return 0;
    end = std::max(end, box.right);
  }
  return first_conflict(shapes, 0) ? 0 : static_cast<double>(end) / 1000;
}

bool measure(const Instance& instance, double seconds, std::uint64_t seed) {
  const double begun = processor_seconds();
  const Touching touching(instance.kinds);
  StripWish wish;
  wish.height_um = std::llround(instance.height_mm * 1000);
  wish.kinds = instance.pieces;
  wish.seed = seed;
  wish.work = static_cast<std::int64_t>(places_a_second * seconds);
  wish.stop = [&] { return processor_seconds() - begun > seconds; };
  wish.share_done = [&] { return (processor_seconds() - begun) / seconds; };
  wish.mended = [&](const std::vector<Item>& items, const Extent& room) { return touching.apart(items, room); };
  const Strip strip = shortest_strip(touching.searched(), wish);
  const double length = checked_length_mm(instance, touching.searched(), strip);
  fmt::print("{:<10} {:6.2f} %  {:5.1f} s  {:6.1f} million places\n", instance.name,
             length > 0 ? 100 * instance.area_mm2 / (length * instance.height_mm) : 0, processor_seconds() - begun,
             static_cast<double>(strip.work) / 1e6);
  return length > 0;
}

} // namespace

int strips(const std::string& folder, double seconds, std::uint64_t seed) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().extension() == ".json")
      files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  bool sound = true;
  for (const auto& file : files)
    sound = measure(read(file), seconds, seed) && sound;
  return sound ? 0 : 1;
}

} // namespace fanwright::bench
