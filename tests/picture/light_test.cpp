#include "picture/papers.h"
#include "picture/picture.h"
#include "picture/sample_forms.h"
#include "picture/stage.h"
#include "picture/trace.h"

#include <gtest/gtest.h>

#include <zlib.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <numbers>

namespace fanwright::picture {
namespace {

// An open box of paper without a lid: light inside meets many walls, from both sides.
Surface open_box() {
  Surface box;
  box.points = {{-50, -50, 10}, {50, -50, 10}, {50, 50, 10}, {-50, 50, 10},
                {-50, -50, 90}, {50, -50, 90}, {50, 50, 90}, {-50, 50, 90}};
  box.normals.assign(8, {0, 0, 1});
  for (auto [a, b, c, d] :
       {std::array<unsigned, 4>{0, 1, 2, 3}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}}) {
    box.triangles.push_back({a, b, c});
    box.triangles.push_back({a, c, d});
  }
  return box;
}

// White furnace: under an even sky of radiance 1, paper that keeps no light sends back exactly 1, however often the
// light goes round and through. What 200 bounces leave behind is missing from the mean, never added.
TEST(picture, keeps_all_light_of_white_translucent_paper) {
  const auto scene = Scene::build(open_box());
  ASSERT_TRUE(scene);
  Lighting light;
  light.sky = {{1, 1, 1}, {1, 1, 1}};
  light.bounces = 200;
  for (float through : {0.0F, 0.1F, 0.5F}) {
    const PaperLook look{Vec3{1, 1, 1} * (1 - through), Vec3{1, 1, 1} * through};
    const Tracer tracer(*scene, look, light);
    double sum = 0;
    constexpr std::uint32_t count = 2000;
    for (std::uint32_t i = 0; i < count; ++i) {
      Chance chance(5, 6, i);
      const Vec3 seen = tracer.gathered({0, 0, 10}, {0, 0, 1}, {0, 0, 1}, chance);
      ASSERT_LE(seen.x, 1.0001F) << through;
      sum += seen.x;
    }
    EXPECT_NEAR(sum / count, 1, 0.001) << through;
  }
}

// A furnace that takes half the light: a floor that sees only sky sends back its reflectance plus its transmittance.
TEST(picture, splits_light_between_both_sides_of_the_sheet) {
  Surface sheet;
  sheet.points = {{-50, -50, 10}, {50, -50, 10}, {0, 80, 10}};
  sheet.normals.assign(3, {0, 0, 1});
  sheet.triangles = {{0, 1, 2}};
  const auto scene = Scene::build(sheet);
  ASSERT_TRUE(scene);
  Lighting light;
  light.sky = {{1, 1, 1}, {1, 1, 1}};
  const PaperLook look{{0.4F, 0.4F, 0.4F}, {0.1F, 0.1F, 0.1F}};
  const Tracer tracer(*scene, look, light);
  double sum = 0;
  for (std::uint32_t i = 0; i < 1000; ++i) {
    Chance chance(1, 1, i);
    sum += tracer.gathered({0, 0, 10}, {0, 0, 1}, {0, 0, 1}, chance).x;
  }
  EXPECT_NEAR(sum / 1000, 0.5, 1e-4);
}

// Ambient occlusion in a corner. A small piece of floor at distance d from an endless wall of height h square to it
// sees the share (1 + cos a) / 2 of the sky weighted by the cosine, tan a = h / d. Source: configuration factor of a
// plane element to an endless strip at right angles, (1 - cos a) / 2; J. R. Howell, A Catalog of Radiation Heat
// Transfer Configuration Factors (value from memory; it also follows at once from Nusselt's unit circle).
TEST(picture, darkens_a_corner_by_the_closed_form) {
  constexpr float height = 40, far = 1e5F;
  Surface wall;
  wall.points = {{0, -far, 0}, {0, far, 0}, {0, far, height}, {0, -far, height}};
  wall.normals.assign(4, {1, 0, 0});
  wall.triangles = {{0, 1, 2}, {0, 2, 3}};
  const auto scene = Scene::build(wall);
  ASSERT_TRUE(scene);
  Lighting light;
  light.sky = {{1, 1, 1}, {1, 1, 1}};
  light.table = Table{{0.5F, 0.5F, 0.5F}, {}, {0, 0, 1}};
  const PaperLook black{};
  const Tracer tracer(*scene, black, light);
  for (float distance : {2.0F, 10.0F, 40.0F, 120.0F}) {
    double sum = 0;
    constexpr std::uint32_t count = 8192;
    for (std::uint32_t i = 0; i < count; ++i) {
      Chance chance(3, 4, i);
      sum += tracer.table_shade({distance, 0, 0}, chance).x;
    }
    const double expected = (1 + distance / std::hypot(distance, height)) / 2;
    EXPECT_NEAR(sum / count, expected, 0.006) << distance; // evenly spread: under 1/sqrt(8192) = 0.011
  }
}

TEST(picture, meets_a_wall_from_its_front_only) {
  const Table wall{{1, 1, 1}, {-10, 0, 0}, {1, 0, 0}};
  EXPECT_FLOAT_EQ(wall.distance({{5, 0, 0}, {-1, 0, 0}}).value(), 15);
  EXPECT_FALSE(wall.distance({{5, 0, 0}, {1, 0, 0}}));
  EXPECT_FALSE(wall.distance({{-20, 0, 0}, {1, 0, 0}}));
}

// The same form under the camera, covered by paper according to the alpha of a transparent picture: every row's first
// and last covered pixel against the projected outline of the panels' own triangles.
TEST(picture, masks_within_a_pixel_of_the_computed_outline) {
  const auto form = sample::pear(46, 360, 24, 160);
  Style style;
  style.width_px = style.height_px = 400;
  style.samples = 16;
  style.background = Background::transparent;
  const auto picture = render(form, style);
  ASSERT_TRUE(std::holds_alternative<Pixels>(picture));
  const auto& pixels = std::get<Pixels>(picture);
  ASSERT_EQ(pixels.alpha.size(), 400U * 400U);
  const auto row = std::get<Placed>(placed({{&form, 0, 0}}, style, std::nullopt));
  const Camera camera(row.framed, row.azimuth_deg, style.elevation_deg, 400, 400);
  // Rightmost and leftmost crossing of each row's middle by any triangle's side.
  std::vector<std::pair<float, float>> span(400, {1e9F, -1e9F});
  for (const auto& triangle : row.surface.triangles)
    for (std::size_t c = 0; c < 3; ++c) {
      const auto a = camera.project(row.surface.points[triangle[c]]);
      const auto b = camera.project(row.surface.points[triangle[(c + 1) % 3]]);
      const auto [low, high] = std::minmax(a.y, b.y);
      for (int y = std::max(0, static_cast<int>(std::ceil(low - 0.5F))); y < 400 && static_cast<float>(y) + 0.5F < high;
           ++y) {
        const float x = a.x + (static_cast<float>(y) + 0.5F - a.y) / (b.y - a.y) * (b.x - a.x);
        auto& [left, right] = span[static_cast<std::size_t>(y)];
        left = std::min(left, x), right = std::max(right, x);
      }
    }
  int checked = 0;
  for (std::size_t y = 1; y + 1 < 400; ++y) {
    const auto [left, right] = span[y];
    // Where the outline runs nearly level a row's middle says little about the row.
    if (right - left < 10 || std::abs(span[y - 1].first - span[y + 1].first) > 1.5F ||
        std::abs(span[y - 1].second - span[y + 1].second) > 1.5F)
      continue;
    // Half covered means that the outline crosses the pixel's middle; to a pixel either way.
    int first = 0, last = 399;
    while (first < 399 && pixels.alpha[y * 400 + static_cast<std::size_t>(first)] < 128)
      ++first;
    while (last > 0 && pixels.alpha[y * 400 + static_cast<std::size_t>(last)] < 128)
      --last;
    ++checked;
    EXPECT_NEAR(static_cast<float>(first), left, 1) << "row " << y;
    EXPECT_NEAR(static_cast<float>(last + 1), right, 1) << "row " << y;
  }
  EXPECT_GT(checked, 150);
}

TEST(picture, is_the_same_for_a_seed_and_differs_between_seeds) {
  const auto form = sample::pear(30, 360, 10, 30);
  Style style;
  style.width_px = style.height_px = 96;
  style.samples = 4;
  style.blur = 0.02;
  style.colour = "hoarfrost";
  const auto with_seed = [&](std::uint32_t seed, int threads) {
    style.seed = seed, style.threads = threads;
    return std::get<Pixels>(render({{&form, 0, 0.2}, {&form, 0, 0.2}}, style)).rgb;
  };
  const auto once = with_seed(1, 1);
  EXPECT_EQ(once, with_seed(1, 3));
  EXPECT_NE(once, with_seed(2, 1));
}

TEST(picture, knows_its_papers_and_colours) {
  for (const auto& paper : named_papers()) {
    const auto found = paper_called(paper.name);
    ASSERT_TRUE(found) << paper.name;
    EXPECT_EQ(found->through, paper.through);
  }
  EXPECT_TRUE(paper_called("#2f5c4a"));
  EXPECT_FALSE(paper_called("no such paper"));
}

std::uint32_t u32(const std::string& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < 4; ++i)
    value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

// Chunks, their check sums and the sequence numbers of ISO/IEC 15948 and the W3C's third edition (APNG).
TEST(picture, writes_a_moving_png_with_sound_chunks) {
  const auto wide = sample::pear(16, 360, 4, 12), narrow = sample::pear(16, 90, 4, 12);
  Style style;
  style.width_px = style.height_px = 48;
  style.samples = 1;
  style.draft = true;
  const auto frames = render_opening({{&narrow, 16, 0}, {&wide, 16, 0}}, style);
  ASSERT_TRUE(std::holds_alternative<std::vector<Pixels>>(frames));
  const auto path = std::filesystem::path(testing::TempDir()) / "fanwright_moving.png";
  ASSERT_EQ(write_moving_png(std::get<std::vector<Pixels>>(frames), 90, 900, path), std::nullopt);
  std::ifstream file(path, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};
  std::filesystem::remove(path);
  std::string order;
  std::uint32_t next = 0;
  for (std::size_t at = 8; at < bytes.size();) {
    const std::uint32_t size = u32(bytes, at);
    const std::string type = bytes.substr(at + 4, 4);
    order += type + ' ';
    const auto* from = reinterpret_cast<const Bytef*>(bytes.data() + at + 4);
    ASSERT_EQ(u32(bytes, at + 8 + size), crc32(0, from, size + 4)) << type;
    if (type == "fcTL" || type == "fdAT") {
      EXPECT_EQ(u32(bytes, at + 8), next++);
    }
    at += 12 + size;
  }
  EXPECT_EQ(order, "IHDR sRGB acTL IDAT fcTL fdAT fcTL fdAT IEND ");
}

TEST(picture, leaves_no_half_picture_behind) {
  const auto folder = std::filesystem::path(testing::TempDir()) / "fanwright_no_picture";
  std::filesystem::create_directories(folder / "is-a-folder.png");
  Pixels pixels;
  pixels.width_px = pixels.height_px = 2;
  pixels.rgb.assign(12, 100);
  EXPECT_TRUE(write_png(pixels, folder / "is-a-folder.png"));
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder), {}), 1);
  std::filesystem::remove_all(folder);
}

} // namespace
} // namespace fanwright::picture
