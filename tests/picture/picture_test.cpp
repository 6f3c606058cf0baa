#include "picture/camera.h"
#include "picture/colour.h"
#include "picture/picture.h"
#include "picture/sample_forms.h"
#include "picture/trace.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <fstream>
#include <numbers>

namespace fanwright::picture {
namespace {

constexpr float pi = std::numbers::pi_v<float>;

// A ball of radius r about `middle`, latitude and longitude steps of 180/rings degrees.
Surface ball(float r, Vec3 middle, unsigned rings) {
  Surface surface;
  const unsigned turn = 2 * rings;
  for (unsigned j = 0; j <= rings; ++j)
    for (unsigned i = 0; i < turn; ++i) {
      const float polar = pi * static_cast<float>(j) / static_cast<float>(rings);
      const float around = 2 * pi * static_cast<float>(i) / static_cast<float>(turn);
      const Vec3 n{std::sin(polar) * std::cos(around), std::sin(polar) * std::sin(around), std::cos(polar)};
      surface.points.push_back(middle + n * r);
      surface.normals.push_back(n);
    }
  for (unsigned j = 0; j < rings; ++j)
    for (unsigned i = 0; i < turn; ++i) {
      const unsigned a = j * turn + i, b = j * turn + (i + 1) % turn;
      surface.triangles.push_back({a, a + turn, b});
      surface.triangles.push_back({b, a + turn, b + turn});
    }
  return surface;
}

Style small_style() {
  Style style;
  style.width_px = style.height_px = 160;
  style.samples = 4;
  return style;
}

std::string sentence_of(const std::variant<Pixels, std::string>& picture) {
  const auto* sentence = std::get_if<std::string>(&picture);
  return sentence ? *sentence : "";
}

// White furnace: a convex body that keeps no light, under an even sky, is invisible. Exact up to float rounding,
// because every scattered ray must leave a convex body.
TEST(picture, shows_a_white_ball_under_an_even_sky_as_the_sky) {
  const auto scene = Scene::build(ball(50, {0, 0, 60}, 40));
  ASSERT_TRUE(scene);
  Lighting light;
  light.sky = {{1, 1, 1}, {1, 1, 1}};
  const PaperLook white{{1, 1, 1}, {}};
  const Tracer tracer(*scene, white, light);
  int hits = 0;
  for (std::uint32_t y = 0; y < 60; ++y)
    for (std::uint32_t x = 0; x < 60; ++x) {
      const Ray ray{{static_cast<float>(x) * 2 - 59, -200, static_cast<float>(y) * 2 + 1}, {0, 1, 0}};
      const auto hit = scene->hit(ray);
      if (!hit)
        continue;
      ++hits;
      Chance chance(x, y, 0);
      const Vec3 seen =
          tracer.gathered(ray.origin + ray.direction * hit->distance, hit->normal, hit->facet_normal, chance);
      EXPECT_NEAR(seen.x, 1, 1e-5);
      EXPECT_NEAR(seen.z, 1, 1e-5);
    }
  // pi 50^2 / 2^2 = 1963 of the 3600 rays meet the ball; the inscribed facets take off less than 1 %
  EXPECT_NEAR(hits, 1963, 30);
}

// Lambert's cosine law: a far small window of irradiance E gives radiance reflectance * E * cos / pi.
TEST(picture, shades_a_ball_under_a_far_window_by_the_cosine) {
  const float far = 1e5F;
  const auto scene = Scene::build(ball(50, {0, 0, 0}, 90));
  ASSERT_TRUE(scene);
  const PaperLook paper{{0.5F, 0.25F, 0.125F}, {}};
  Lighting light;
  light.window = Window{{0, -far, 0}, {10, 0, 0}, {0, 0, 10}, {far * far / 400, far * far / 400, far * far / 400}};
  const Tracer tracer(*scene, paper, light); // E = L * 400 mm2 / far^2 = 1
  for (int i = -24; i <= 24; ++i)
    for (int j = -24; j <= 24; ++j) {
      const float x = static_cast<float>(i) * 2, z = static_cast<float>(j) * 2;
      if (x * x + z * z > 45 * 45) // facets of 2 degrees leave the sphere visibly only at its rim
        continue;
      const Ray ray{{x, -200, z}, {0, 1, 0}};
      const auto hit = scene->hit(ray);
      ASSERT_TRUE(hit);
      Chance chance(7, 9, 0);
      const Vec3 seen = tracer.direct(ray, *hit, chance);
      const float cosine = std::sqrt(50 * 50 - x * x - z * z) / 50;
      EXPECT_NEAR(seen.x, 0.5F * cosine / pi, 0.5F * 0.003F) << x << ' ' << z;
      EXPECT_NEAR(seen.y, seen.x / 2, 1e-6);
    }
}

// Paper that lets light through glows on the side away from the window by transmittance * E * cos / pi.
TEST(picture, lets_light_through_thin_paper) {
  Surface sheet;
  sheet.points = {{-50, 0, -50}, {50, 0, -50}, {0, 0, 80}};
  sheet.normals.assign(3, {0, 1, 0});
  sheet.triangles = {{0, 1, 2}};
  const auto scene = Scene::build(sheet);
  ASSERT_TRUE(scene);
  Lighting light;
  light.window = Window{{0, 1000, 0}, {1, 0, 0}, {0, 0, 1}, {1e6F / 4, 1e6F / 4, 1e6F / 4}};
  const PaperLook thin{{0.6F, 0.6F, 0.6F}, {0.1F, 0.1F, 0.1F}};
  const Tracer tracer(*scene, thin, light);
  for (float side : {1.0F, -1.0F}) {
    const Ray ray{{0, 100 * side, 0}, {0, -side, 0}};
    Chance chance(1, 2, 0);
    const float share = side > 0 ? 0.6F : 0.1F;
    EXPECT_NEAR(tracer.direct(ray, scene->hit(ray).value(), chance).x, share / pi, 1e-5);
  }
}

// A hemisphere of even sky on a table cut by a half-plane wall: a point at the foot of an endless black wall sees half.
TEST(picture, darkens_the_table_at_the_foot_of_a_wall_by_half) {
  Surface wall;
  wall.points = {{0, -1e5F, 0}, {0, 1e5F, 0}, {0, 1e5F, 1e5F}, {0, -1e5F, 1e5F}};
  wall.normals.assign(4, {1, 0, 0});
  wall.triangles = {{0, 1, 2}, {0, 2, 3}};
  const auto scene = Scene::build(wall);
  ASSERT_TRUE(scene);
  Lighting light;
  light.sky = {{1, 1, 1}, {1, 1, 1}};
  light.table = Table{{0.5F, 0.5F, 0.5F}};
  const PaperLook black{};
  const Tracer tracer(*scene, black, light);
  float sum = 0;
  constexpr std::uint32_t count = 4096;
  for (std::uint32_t i = 0; i < count; ++i) {
    Chance chance(3, 4, i);
    sum += tracer.table_shade({1, 0, 0}, chance).x;
  }
  EXPECT_NEAR(sum / count, 0.5, 0.01); // evenly spread samples: error well under 1/sqrt(4096) = 0.016
}

// sRGB of IEC 61966-2-1: code 188 is half the light of code 255 within a rounding step.
TEST(picture, reads_and_shows_srgb) {
  const auto grey = linear_colour("#bcBC00");
  ASSERT_TRUE(grey);
  EXPECT_NEAR(grey->x, 0.5029, 0.0005); // ((188/255 + 0.055) / 1.055)^2.4
  EXPECT_EQ(grey->z, 0);
  EXPECT_EQ(display_colour(*grey), (std::array<std::uint8_t, 3>{188, 188, 0}));
  EXPECT_EQ(display_colour({100, 100, 100})[0], 255);
  for (const char* wrong : {"", "#12345", "c8563c0", "#gg0000", "#12345 ", "#+1+1+1"})
    EXPECT_FALSE(linear_colour(wrong)) << wrong;
}

RC_GTEST_PROP(picture, camera_sees_a_point_where_its_ray_goes, ()) {
  const auto part = [](int low, int high) { return static_cast<float>(*rc::gen::inRange(low, high)); };
  const std::vector<Vec3> points{{part(-90, 0), part(-90, 0), 0}, {part(1, 90), part(1, 90), part(1, 200)}};
  const Camera camera(points, part(-360, 360), part(-10, 89), 400, 300);
  const PixelPlace place{part(0, 400), part(0, 300)};
  const Ray ray = camera.ray(place);
  const PixelPlace back = camera.project(ray.origin + ray.direction * (5 * camera.radius()));
  RC_ASSERT(std::abs(back.x - place.x) < 0.05F);
  RC_ASSERT(std::abs(back.y - place.y) < 0.05F);
}

TEST(picture, looks_between_the_walls) {
  EXPECT_DOUBLE_EQ(between_walls_deg(8.1, 4), 10);
  EXPECT_DOUBLE_EQ(between_walls_deg(8, 4), 10);
  EXPECT_DOUBLE_EQ(between_walls_deg(-0.1, 4), -2);
}

// First and last column of a row that the projected triangles cover, by scan conversion of every triangle.
std::vector<std::pair<float, float>> projected_rows(const opened::Form& form, int wedges, const Camera& camera,
                                                    int rows) {
  std::vector<std::pair<float, float>> span(static_cast<std::size_t>(rows), {1e9F, -1e9F});
  for (int k = 0; k < wedges; ++k)
    for (const auto& triangle : form.mesh.triangles)
      for (std::size_t e = 0; e < 3; ++e) {
        const auto end = [&](std::size_t corner) {
          const auto p = opened::in_wedge(form, k, form.mesh.points[static_cast<std::size_t>(triangle[corner % 3])]);
          return camera.project({static_cast<float>(p[0]), static_cast<float>(p[1]), static_cast<float>(p[2])});
        };
        const PixelPlace a = end(e), b = end(e + 1);
        const int from = static_cast<int>(std::ceil(std::min(a.y, b.y) - 0.5F));
        for (int row = std::max(from, 0); row < rows && static_cast<float>(row) + 0.5F <= std::max(a.y, b.y); ++row) {
          const float t = a.y == b.y ? 0 : (static_cast<float>(row) + 0.5F - a.y) / (b.y - a.y);
          const float x = a.x + t * (b.x - a.x);
          auto& [low, high] = span[static_cast<std::size_t>(row)];
          low = std::min(low, x), high = std::max(high, x);
        }
      }
  return span;
}

// The paper is the only blue thing: table and backdrop are warm.
void expect_silhouette(const opened::Form& form, Style style, int wedges) {
  style.colour = "#2040ff";
  style.samples = 16;
  const auto picture = render(form, style);
  ASSERT_TRUE(std::holds_alternative<Pixels>(picture)) << sentence_of(picture);
  const auto& pixels = std::get<Pixels>(picture);
  const auto surface = std::get<Surface>(flatten(form, wedges));
  const double wedge_deg = form.wedge_rad * 180 / std::numbers::pi;
  const double azimuth_deg = between_walls_deg(wedges * wedge_deg / 2 + style.azimuth_deg, wedge_deg);
  const Camera camera(surface.points, azimuth_deg, style.elevation_deg, style.width_px, style.height_px);
  const auto rows = projected_rows(form, wedges, camera, style.height_px);
  int checked = 0;
  for (int y = 0; y < style.height_px; ++y) {
    int low = style.width_px, high = -1;
    for (int x = 0; x < style.width_px; ++x) {
      const auto* rgb = &pixels.rgb[3 * static_cast<std::size_t>(y * style.width_px + x)];
      if (rgb[2] > 2 * rgb[0] && rgb[2] > 20)
        low = std::min(low, x), high = std::max(high, x);
    }
    const auto [left, right] = rows[static_cast<std::size_t>(y)];
    if (right - left < 6) // slivers at the very top and foot may fall between samples
      continue;
    ++checked;
    // The edge may be met a pixel higher or lower, where it runs nearly level, and 1.5 pixels to the side: half a pixel
    // of rounding and a pixel that is partly covered.
    const auto above = rows[static_cast<std::size_t>(std::max(y - 1, 0))];
    const auto below = rows[static_cast<std::size_t>(std::min(y + 1, style.height_px - 1))];
    const auto [left_from, left_to] = std::minmax({above.first, left, below.first});
    const auto [right_from, right_to] = std::minmax({above.second, right, below.second});
    EXPECT_GT(static_cast<float>(low), left_from - 1.5F) << "row " << y;
    EXPECT_LT(static_cast<float>(low), left_to + 1.5F) << "row " << y;
    EXPECT_GT(static_cast<float>(high + 1), right_from - 1.5F) << "row " << y;
    EXPECT_LT(static_cast<float>(high + 1), right_to + 1.5F) << "row " << y;
  }
  EXPECT_GT(checked, style.height_px / 2);
}

TEST(picture, draws_the_silhouette_of_the_projected_form) {
  Style style = small_style();
  style.width_px = style.height_px = 240;
  expect_silhouette(sample::pear(46, 360, 12, 40), style, 92);
}

TEST(picture, draws_the_silhouette_of_a_wall_piece) {
  Style style = small_style();
  style.width_px = 300;
  style.height_px = 240;
  style.leaves = 24;
  style.azimuth_deg = -35;
  expect_silhouette(sample::pear(24, 180, 12, 40), style, 48);
}

TEST(picture, is_the_same_for_any_number_of_threads) {
  const auto form = sample::pear(30, 360, 10, 30);
  Style style = small_style();
  style.threads = 1;
  const auto one = render(form, style);
  for (int threads : {1, 2, 5}) {
    style.threads = threads;
    const auto again = render(form, style);
    ASSERT_TRUE(std::holds_alternative<Pixels>(again));
    EXPECT_EQ(std::get<Pixels>(one).rgb, std::get<Pixels>(again).rgb) << threads;
  }
}

TEST(picture, reports_progress_up_to_the_end_and_never_backwards) {
  Style style = small_style();
  style.threads = 2;
  double last = 0;
  style.progress = [&](double share) {
    EXPECT_GE(share, last);
    EXPECT_LE(share, 1);
    last = share;
  };
  ASSERT_TRUE(std::holds_alternative<Pixels>(render(sample::pear(20, 360, 8, 30), style)));
  EXPECT_GT(last, 0.3); // the last tile may be another thread's
}

TEST(picture, stops_when_cancelled) {
  Style style = small_style();
  int asked = 0;
  style.cancelled = [&] { return ++asked >= 3; };
  EXPECT_EQ(sentence_of(render(sample::pear(20, 360, 8, 30), style)), "The picture was cancelled.");
  EXPECT_EQ(asked, 3);
}

TEST(picture, refuses_broken_forms_and_styles_with_a_sentence) {
  const auto good = sample::pear(20, 360, 4, 10);
  const auto expect_refusal = [&](const opened::Form& form, const Style& style, const char* part) {
    const auto sentence = sentence_of(render(form, style));
    EXPECT_NE(sentence.find(part), std::string::npos) << sentence;
  };
  expect_refusal({}, small_style(), "holds no surface");
  auto form = good;
  form.mesh.triangles[3][1] = 9999;
  expect_refusal(form, small_style(), "without a corner");
  form = good;
  form.mesh.points[5][0] = std::nan("");
  expect_refusal(form, small_style(), "not a finite length");
  form = good;
  form.wedge_rad = 1e-5;
  expect_refusal(form, small_style(), "1 to 10000 leaves");
  form = good;
  form.wedge_rad = 0;
  expect_refusal(form, small_style(), "1 to 10000 leaves");
  form = good;
  form.mesh.flat.pop_back();
  expect_refusal(form, small_style(), "flat leaf");
  Style style = small_style();
  style.width_px = 100'000;
  expect_refusal(good, style, "16 to 4096");
  style = small_style();
  style.colour = "red";
  expect_refusal(good, style, "hexadecimal");
  style = small_style();
  style.elevation_deg = std::nan("");
  expect_refusal(good, style, "degrees");
  style = small_style();
  style.samples = 0;
  expect_refusal(good, style, "samples");
}

// The halves of a leaf stand half a caliper off their wall; through an unclosed fold one would see to the other side.
TEST(picture, closes_the_fold_between_the_halves_of_a_leaf) {
  auto form = sample::pear(16, 360, 6, 20);
  for (auto& [x, y, z] : form.mesh.points)
    y += 0.1, x += 1;
  const auto surface = std::get<Surface>(flatten(form, 32));
  EXPECT_EQ(surface.triangles.size(), 32 * form.mesh.triangles.size() +
                                          1280); // 16 folds and 16 touching neighbours of 20 edges, 2 triangles each
  const auto scene = Scene::build(surface);
  ASSERT_TRUE(scene);
  for (float z = 5; z < 150; z += 10)
    EXPECT_TRUE(scene->blocked({{100, 0, z}, {-1, 0, 0}}, 200)) << z; // straight along wall A of wedge 0
}

TEST(picture, draws_forms_of_any_fineness_within_its_memory) {
  const auto form = sample::pear(400, 360, 60, 140);
  ASSERT_GT(form.mesh.triangles.size() * 800, most_triangles);
  const auto drawn = std::get<Surface>(flatten(form, 800));
  EXPECT_LE(drawn.triangles.size(), most_triangles * 102 / 100); // the folds come on top
  EXPECT_GT(drawn.triangles.size(), most_triangles / 3);
  float widest = 0, highest = 0;
  for (const Vec3 p : drawn.points) {
    widest = std::max(widest, std::hypot(p.x, p.y));
    highest = std::max(highest, p.z);
  }
  EXPECT_NEAR(widest, 56, 2); // a cell of the flat leaf is 1 to 2 mm here
  EXPECT_NEAR(highest, 150, 2);
}

TEST(picture, writes_a_png_or_says_why_not) {
  const auto form = sample::pear(20, 360, 4, 10);
  const auto path = std::filesystem::path(testing::TempDir()) / "fanwright_picture_test.png";
  EXPECT_EQ(write_png(form, small_style(), path), std::nullopt);
  std::ifstream file(path, std::ios::binary);
  std::string head(24, '\0');
  file.read(head.data(), 24);
  EXPECT_EQ(head.substr(0, 8), "\x89PNG\r\n\x1a\n");                     // PNG signature, ISO/IEC 15948
  EXPECT_EQ(head.substr(16, 8), std::string("\0\0\0\xa0\0\0\0\xa0", 8)); // width and height of IHDR: 160
  std::filesystem::remove(path);
  const auto sentence = write_png(form, small_style(), "/nowhere/at/all.png");
  ASSERT_TRUE(sentence);
  EXPECT_NE(sentence->find("/nowhere/at/all.png"), std::string::npos);
}

} // namespace
} // namespace fanwright::picture
