#include "picture/picture.h"

#include "picture/camera.h"
#include "picture/colour.h"
#include "picture/gathered.h"
#include "picture/parallel.h"
#include "picture/shadow.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fanwright::picture {
namespace {

constexpr int tile_px = 24; // small enough that the last tiles do not leave a core idle

// A warm backdrop, a little darker towards the corners; linear light.
Vec3 backdrop(float x, float y) {
  const Vec3 middle{0.86F, 0.79F, 0.70F}, corner{0.60F, 0.53F, 0.45F};
  const float dx = x - 0.5F, dy = y - 0.55F;
  const float away = std::clamp((dx * dx + dy * dy) * 1.6F, 0.0F, 1.0F);
  return middle * (1 - away) + corner * away;
}

// White paper facing the window sends back 1.35 from the window; the sky adds up to 0.9 in the open and little in the
// depth of a cell. Together an outer face shows about the colour the maker chose while cells keep their shade.
Lighting studio_light(const Camera& camera, double azimuth_deg) {
  const float r = camera.radius();
  const double turn = (azimuth_deg - 42) * std::numbers::pi / 180; // window to the left of the viewer
  const auto c = static_cast<float>(std::cos(turn)), s = static_cast<float>(std::sin(turn));
  const Vec3 towards = unit({c, s, 0.8F});
  const Vec3 across = unit(cross({0, 0, 1}, towards));
  Window window;
  window.centre = camera.target() + towards * (4.5F * r);
  window.across = across * (0.95F * r);
  window.up = cross(towards, across) * (1.2F * r);
  // Irradiance / pi at the ornament = L * area / (pi d^2)
  const float share = 4 * 0.95F * 1.2F / (std::numbers::pi_v<float> * 4.5F * 4.5F);
  window.radiance = Vec3{1.0F, 0.95F, 0.87F} * (1.35F / share);
  Lighting light;
  light.sky = {{0.95F, 0.98F, 1.04F}, {0.72F, 0.70F, 0.68F}};
  light.window = window;
  light.table = Table{{0.62F, 0.57F, 0.50F}};
  light.bounces = 2;
  light.remainder = 0.5F;
  return light;
}

// A tenth of the light comes through, coloured twice by the paper it crosses.
PaperLook look_of(Vec3 colour) {
  const Vec3 c{std::clamp(colour.x, 0.01F, 0.92F), std::clamp(colour.y, 0.01F, 0.92F),
               std::clamp(colour.z, 0.01F, 0.92F)};
  return {c * 0.9F, c * c * 0.1F};
}

struct Stage {
  Camera camera;
  Scene scene;
  PaperLook paper;
  Lighting light;
  GatheredLight gathered;
  Shadow shadow;
  std::vector<std::uint8_t> met; // 1 where the ray through the pixel's middle meets paper
  int width, height, side;       // side: samples along one side of a pixel
};

PixelPlace middle_of(int px, int py) { return {static_cast<float>(px) + 0.5F, static_cast<float>(py) + 0.5F}; }

Vec3 behind(const Stage& stage, PixelPlace place) {
  return backdrop(place.x / static_cast<float>(stage.width), place.y / static_cast<float>(stage.height)) *
         stage.shadow.at(place);
}

Vec3 pixel(const Stage& stage, const Tracer& tracer, int px, int py) {
  Vec3 sum;
  const auto side = static_cast<float>(stage.side);
  for (int sample = 0; sample < stage.side * stage.side; ++sample) {
    Chance chance(static_cast<std::uint32_t>(px), static_cast<std::uint32_t>(py), static_cast<std::uint32_t>(sample));
    const Pair jitter = chance.next();
    const int column = sample % stage.side, row = sample / stage.side;
    const PixelPlace place{static_cast<float>(px) + (static_cast<float>(column) + jitter.u) / side,
                           static_cast<float>(py) + (static_cast<float>(row) + jitter.v) / side};
    const Ray ray = stage.camera.ray(place);
    if (const auto hit = stage.scene.hit(ray)) {
      const Vec3 direct = tracer.direct(ray, *hit, chance);
      sum = sum + direct + stage.gathered.at(tracer, ray, *hit, chance);
      continue;
    }
    sum = sum + behind(stage, place);
  }
  return sum * (1 / (side * side));
}

std::size_t pixel_index(const Stage& stage, int x, int y) {
  return static_cast<std::size_t>(y) * static_cast<std::size_t>(stage.width) + static_cast<std::size_t>(x);
}

void mark_tile(Stage& stage, int tile, int tiles_across) {
  const int x0 = tile % tiles_across * tile_px, y0 = tile / tiles_across * tile_px;
  for (int y = y0; y < std::min(y0 + tile_px, stage.height); ++y)
    for (int x = x0; x < std::min(x0 + tile_px, stage.width); ++x) {
      const auto hit = stage.scene.hit(stage.camera.ray(middle_of(x, y)));
      if (!hit)
        continue;
      stage.gathered.want(*hit);
      stage.met[pixel_index(stage, x, y)] = 1;
    }
}

// Whether paper was met within two pixels. Where it was not, the smooth backdrop and shadow need one sample only.
bool near_paper(const Stage& stage, int px, int py) {
  for (int y = std::max(py - 2, 0); y <= std::min(py + 2, stage.height - 1); ++y)
    for (int x = std::max(px - 2, 0); x <= std::min(px + 2, stage.width - 1); ++x)
      if (stage.met[pixel_index(stage, x, y)])
        return true;
  return false;
}

void draw_tile(const Stage& stage, const Tracer& tracer, int tile, int tiles_across, Pixels& pixels) {
  const int x0 = tile % tiles_across * tile_px, y0 = tile / tiles_across * tile_px;
  for (int y = y0; y < std::min(y0 + tile_px, stage.height); ++y)
    for (int x = x0; x < std::min(x0 + tile_px, stage.width); ++x) {
      const auto rgb =
          display_colour(near_paper(stage, x, y) ? pixel(stage, tracer, x, y) : behind(stage, middle_of(x, y)));
      std::copy(rgb.begin(), rgb.end(), pixels.rgb.begin() + 3 * (static_cast<std::ptrdiff_t>(y) * stage.width + x));
    }
}

Crew crew(const Style& style, double from, double to) {
  Crew crew;
  crew.threads = style.threads;
  if (style.progress)
    crew.progress = [&style, from, to](double done) { style.progress(from + (to - from) * done); };
  crew.cancelled = style.cancelled;
  return crew;
}

int tiles_across(const Stage& stage) { return (stage.width + tile_px - 1) / tile_px; }
int tiles(const Stage& stage) { return tiles_across(stage) * ((stage.height + tile_px - 1) / tile_px); }

// False when the caller cancelled.
bool draw(Stage& stage, const Style& style, Pixels& pixels) {
  const Tracer tracer(stage.scene, stage.paper, stage.light);
  const auto mark = [&](int tile) { mark_tile(stage, tile, tiles_across(stage)); };
  const auto paint = [&](int tile) { draw_tile(stage, tracer, tile, tiles_across(stage), pixels); };
  return work_through(tiles(stage), crew(style, 0, 0.1), mark) &&
         stage.gathered.gather(tracer, crew(style, 0.1, 0.4)) &&
         stage.shadow.gather(stage.camera, tracer, crew(style, 0.4, 0.5)) &&
         work_through(tiles(stage), crew(style, 0.5, 1), paint);
}

std::optional<std::string> fault(const Style& style) {
  if (style.width_px < 16 || style.width_px > 4096 || style.height_px < 16 || style.height_px > 4096)
    return "A picture is 16 to 4096 pixels wide and high; choose a size in that range.";
  if (style.samples < 1 || style.samples > 1024)
    return "A picture takes 1 to 1024 samples a pixel; choose a number in that range.";
  if (!(style.elevation_deg >= -10 && style.elevation_deg <= 89) || !(std::abs(style.azimuth_deg) <= 3600))
    return "The viewer looks down by -10 to 89 degrees and stands within ten turns; choose angles in those ranges.";
  if (style.leaves < 0 || style.leaves > 10'000)
    return "An ornament drawn in a picture has 1 to 10000 leaves; give 0 to close the full circle.";
  return std::nullopt;
}

} // namespace

std::variant<Pixels, std::string> render(const opened::Form& form, const Style& style) {
  if (auto sentence = fault(style))
    return *sentence;
  const auto colour = linear_colour(style.colour);
  if (!colour)
    return "The paper's colour is \"" + style.colour + "\"; write it as # and six hexadecimal digits, like #c8563c.";
  const int half_panels = style.leaves > 0 ? 2 * style.leaves : half_panels_of_full_circle(form);
  auto flattened = flatten(form, half_panels);
  if (auto* sentence = std::get_if<std::string>(&flattened))
    return std::move(*sentence);
  auto& surface = std::get<Surface>(flattened);
  const double wedge_deg = form.wedge_rad * 180 / std::numbers::pi;
  const double azimuth_deg = between_walls_deg(style.azimuth_deg + half_panels * wedge_deg / 2, wedge_deg);
  const Camera camera(surface.points, azimuth_deg, style.elevation_deg, style.width_px, style.height_px);
  auto scene = Scene::build(std::move(surface));
  if (!scene)
    return "The picture needs more memory than there is; draw fewer leaves.";
  const int side = static_cast<int>(std::ceil(std::sqrt(style.samples)));
  const std::size_t pixel_count = static_cast<std::size_t>(style.width_px) * static_cast<std::size_t>(style.height_px);
  Stage stage{camera,
              *scene,
              look_of(*colour),
              studio_light(camera, azimuth_deg),
              GatheredLight(*scene),
              Shadow(style.width_px, style.height_px),
              std::vector<std::uint8_t>(pixel_count, 0),
              style.width_px,
              style.height_px,
              side};
  Pixels pixels{style.width_px, style.height_px, {}};
  pixels.rgb.resize(3 * pixel_count);
  if (!draw(stage, style, pixels))
    return "The picture was cancelled.";
  return pixels;
}

std::optional<std::string> write_png(const opened::Form& form, const Style& style, const std::filesystem::path& path) {
  const auto picture = render(form, style);
  if (const auto* sentence = std::get_if<std::string>(&picture))
    return *sentence;
  return write_png(std::get<Pixels>(picture), path);
}

} // namespace fanwright::picture
