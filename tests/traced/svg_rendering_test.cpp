// Drawings read by us and rendered by librsvg (rsvg-convert) must show the same figure.
#include "traced/bitmap.h"
#include "traced/picture_file.h"
#include "traced/svg_areas.h"
#include "traced/svg_drawing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace fanwright::traced {
namespace {

namespace fs = std::filesystem;

const fs::path drawings = FANWRIGHT_SOURCE_DIR "/tests/traced/drawings";
constexpr double longest_side = 2400; ///< pixels

std::string bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// Pixels of librsvg's rendering upon white that are covered by half; no ink in the drawings has any green.
Bitmap rendered(const fs::path& file, double zoom) {
  const fs::path png = fs::temp_directory_path() / ("fanwright-" + std::to_string(std::rand()) + file.stem().string());
  const std::string command =
      "rsvg-convert -b white --zoom " + std::to_string(zoom) + " -o '" + png.string() + "' '" + file.string() + "'";
  EXPECT_EQ(std::system(command.c_str()), 0) << command;
  const auto read = read_png(bytes_of(png));
  fs::remove(png);
  if (!std::holds_alternative<Picture>(read))
    return {1, 1};
  const auto& picture = std::get<Picture>(read);
  Bitmap bitmap(picture.width, picture.height);
  for (int row = 0; row < picture.height; ++row)
    for (int column = 0; column < picture.width; ++column)
      bitmap.at(column, row) = picture.at(column, row)[1] < 128 ? 1 : 0;
  return bitmap;
}

Areas in_pixels(Areas areas, double zoom, int height) {
  const auto move = [&](Ring& ring) {
    for (Point& p : ring)
      p = {zoom * p.x, zoom * p.z + height};
  };
  for (Area& area : areas) {
    move(area.outline);
    std::for_each(area.holes.begin(), area.holes.end(), move);
  }
  return areas;
}

class Drawing : public testing::TestWithParam<fs::path> {};

TEST_P(Drawing, overlaps_librsvgs_rendering_to_a_thousandth) {
  const auto read = read_svg(bytes_of(GetParam()));
  ASSERT_TRUE(std::holds_alternative<SvgDrawing>(read)) << std::get<std::string>(read);
  const auto& drawing = std::get<SvgDrawing>(read);
  const auto areas = painted(drawing);
  ASSERT_TRUE(std::holds_alternative<Painted>(areas)) << std::get<std::string>(areas);
  const double zoom = longest_side / std::max(drawing.width, drawing.height);
  const Bitmap theirs = rendered(GetParam(), zoom);
  const Bitmap ours =
      drawn(in_pixels(std::get<Painted>(areas).areas, zoom, theirs.height), theirs.width, theirs.height);
  double both = 0, either = 0;
  for (std::size_t k = 0; k < theirs.ink.size(); ++k) {
    both += ours.ink[k] & theirs.ink[k];
    either += ours.ink[k] | theirs.ink[k];
  }
  ASSERT_GT(either, 20'000);
  EXPECT_GE(both / either, 0.999);
  RecordProperty("overlap", std::to_string(both / either));
}

std::vector<fs::path> all_drawings() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(drawings))
    files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

TEST(traced, at_least_sixty_drawings_are_held_against_librsvg) { EXPECT_GE(all_drawings().size(), 60u); }

INSTANTIATE_TEST_SUITE_P(traced, Drawing, testing::ValuesIn(all_drawings()),
                         [](const auto& name) { return name.param.stem().string(); });

} // namespace
} // namespace fanwright::traced
