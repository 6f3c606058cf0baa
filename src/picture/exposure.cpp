#include "picture/exposure.h"

#include "picture/colour.h"
#include "picture/film.h"
#include "picture/paper_detail.h"

#include <algorithm>
#include <cmath>

namespace fanwright::picture {
namespace {

constexpr int tile_px = 24; // small enough that the last tiles do not leave a core idle

// Passes of evening out: the first reaches 2 pixels, each further one twice as far.
int passes(const Style& style) { return style.draft ? 2 : 3; }

// Paths that gather the light between sheets; a draft is to be seen in half a second.
std::size_t gathering(const Style& style) {
  if (style.draft)
    return 120'000;
  return std::clamp<std::size_t>(80'000 * static_cast<std::size_t>(style.samples), 400'000, 1'600'000);
}

int shadow_samples(const Style& style) { return style.draft ? 20 : 56; }

// A little darker towards the corners; linear light.
Vec3 backdrop(Background background, float x, float y) {
  if (background == Background::transparent)
    return {};
  if (background == Background::plain)
    return {0.93F, 0.93F, 0.93F};
  const bool wall = background == Background::wall;
  const Vec3 middle = wall ? Vec3{0.80F, 0.78F, 0.74F} : Vec3{0.86F, 0.79F, 0.70F};
  const Vec3 corner = wall ? Vec3{0.60F, 0.58F, 0.55F} : Vec3{0.60F, 0.53F, 0.45F};
  const float dx = x - 0.5F, dy = y - 0.55F;
  const float away = std::clamp((dx * dx + dy * dy) * 1.6F, 0.0F, 1.0F);
  return middle * (1 - away) + corner * away;
}

PixelPlace middle_of(int px, int py) { return {static_cast<float>(px) + 0.5F, static_cast<float>(py) + 0.5F}; }

float brightness(Vec3 c) { return (c.x + c.y + c.z) / 3; }

class Exposure {
public:
  Exposure(const Stage& stage, const Style& style)
      : stage_(stage), style_(style), width_(style.width_px), height_(style.height_px),
        side_(static_cast<int>(std::ceil(std::sqrt(style.samples)))), tracer_(stage.scene, stage.look, stage.light),
        gathered_(stage.scene), shadow_(width_, height_), detail_(stage.scene, stage.paper, stage.camera.pixel_mm()),
        film_(width_, height_), met_(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_), 0) {}

  std::optional<Pixels> taken() {
    const auto mark = [&](int tile) { each_pixel(tile, [&](int x, int y) { mark_pixel(x, y); }); };
    const auto paint = [&](int tile) { each_pixel(tile, [&](int x, int y) { paint_pixel(x, y); }); };
    if (!work_through(tiles(), crew(0, 0.05), mark) || !gathered_.gather(tracer_, crew(0.05, 0.3), gathering(style_)) ||
        !gather_shadow())
      return std::nullopt;
    widen_met(2 + static_cast<int>(std::ceil(stage_.camera.widest_blur_px())));
    if (!work_through(tiles(), crew(0.4, 0.95), paint) ||
        !film_.even_out(stage_.camera.pixel_mm(), passes(style_), crew(0.95, 1)))
      return std::nullopt;
    return developed();
  }

private:
  bool clear() const { return style_.background == Background::transparent; }
  int tiles_across() const { return (width_ + tile_px - 1) / tile_px; }
  int tiles() const { return tiles_across() * ((height_ + tile_px - 1) / tile_px); }
  std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_) + static_cast<std::size_t>(x);
  }

  Crew crew(double from, double to) const {
    Crew crew;
    crew.threads = style_.threads;
    if (style_.progress)
      crew.progress = [this, from, to](double done) { style_.progress(from + (to - from) * done); };
    crew.cancelled = style_.cancelled;
    return crew;
  }

  template <class Job> void each_pixel(int tile, Job job) const {
    const int x0 = tile % tiles_across() * tile_px, y0 = tile / tiles_across() * tile_px;
    for (int y = y0; y < std::min(y0 + tile_px, height_); ++y)
      for (int x = x0; x < std::min(x0 + tile_px, width_); ++x)
        job(x, y);
  }

  bool gather_shadow() {
    return clear() || shadow_.gather(stage_.camera, tracer_, crew(0.3, 0.4), shadow_samples(style_));
  }

  void mark_pixel(int x, int y) {
    const Ray ray = stage_.camera.ray(middle_of(x, y));
    if (const auto hit = stage_.scene.seen(ray)) {
      gathered_.want(*hit);
      met_[index(x, y)] = 1;
    } else if (stage_.ruler) {
      const auto distance = tracer_.table_distance(ray);
      met_[index(x, y)] = distance && stage_.ruler->covers(ray.origin + ray.direction * *distance) ? 1 : 0;
    }
  }

  // Marks what lies within `reach` pixels too. Elsewhere the smooth backdrop and shadow need one sample only.
  void widen_met(int reach) {
    std::vector<std::uint8_t> wide(met_.size(), 0);
    for (int pass = 0; pass < 2; ++pass) {
      const bool level = pass == 0;
      for (int y = 0; y < height_; ++y)
        for (int x = 0; x < width_; ++x) {
          const int at = level ? x : y, end = level ? width_ : height_;
          std::uint8_t found = 0;
          for (int i = std::max(at - reach, 0); i <= std::min(at + reach, end - 1) && !found; ++i)
            found = level ? met_[index(i, y)] : met_[index(x, i)];
          wide[index(x, y)] = found;
        }
      met_ = wide;
    }
  }

  Vec3 behind(const Ray& ray, PixelPlace place) const {
    if (clear())
      return {};
    Vec3 colour =
        backdrop(style_.background, place.x / static_cast<float>(width_), place.y / static_cast<float>(height_));
    if (stage_.ruler)
      if (const auto distance = tracer_.table_distance(ray)) {
        const Vec3 point = ray.origin + ray.direction * *distance;
        if (stage_.ruler->covers(point))
          colour = stage_.ruler->reflectance(point);
      }
    return colour * shadow_.at(place);
  }

  void paint_pixel(int px, int py) {
    FilmPixel& pixel = film_.at(px, py);
    if (!met_[index(px, py)]) {
      pixel.rest = behind(stage_.camera.ray(middle_of(px, py)), middle_of(px, py));
      return;
    }
    Tally tally;
    const auto side = static_cast<float>(side_);
    for (int sample = 0; sample < side_ * side_; ++sample) {
      Chance chance(static_cast<std::uint32_t>(px), static_cast<std::uint32_t>(py), static_cast<std::uint32_t>(sample),
                    style_.seed);
      const Pair jitter = chance.next(), lens = chance.next();
      const int column = sample % side_, row = sample / side_;
      const PixelPlace place{static_cast<float>(px) + (static_cast<float>(column) + jitter.u) / side,
                             static_cast<float>(py) + (static_cast<float>(row) + jitter.v) / side};
      take_sample(stage_.camera.lens_ray(place, lens.u, lens.v), place, chance, tally);
    }
    settle(tally, pixel);
  }

  struct Tally {
    Vec3 light, rest, normal;
    float squared = 0, detail = 0, distance = 0;
    int hits = 0;
  };

  void take_sample(const Ray& ray, PixelPlace place, Chance& chance, Tally& tally) const {
    const auto hit = stage_.scene.seen(ray);
    if (!hit) {
      tally.rest = tally.rest + behind(ray, place);
      return;
    }
    const Vec3 light = tracer_.direct(ray, *hit, chance) + gathered_.at(tracer_, ray, *hit, chance);
    const Detail fine = detail_.at(tracer_, ray, *hit, chance);
    ++tally.hits;
    tally.light = tally.light + light;
    tally.squared += brightness(light) * brightness(light);
    tally.detail += fine.shade;
    tally.rest = tally.rest + fine.shine;
    const Camera& camera = stage_.camera;
    tally.normal = tally.normal + Vec3{dot(hit->normal, camera.right()), dot(hit->normal, camera.up()),
                                       -dot(hit->normal, camera.forward())};
    tally.distance += hit->distance * dot(ray.direction, camera.forward());
  }

  void settle(const Tally& tally, FilmPixel& pixel) const {
    const auto samples = static_cast<float>(side_ * side_);
    pixel.rest = tally.rest * (1 / samples);
    if (tally.hits == 0)
      return;
    const float each = 1 / static_cast<float>(tally.hits);
    pixel.light = tally.light * each;
    const float mean = brightness(pixel.light);
    pixel.spread = std::max(0.0F, tally.squared * each - mean * mean) * each;
    pixel.detail = tally.detail * each;
    pixel.cover = static_cast<float>(tally.hits) / samples;
    pixel.normal = unit(tally.normal);
    pixel.distance = tally.distance * each;
  }

  Pixels developed() const {
    Pixels pixels;
    pixels.width_px = width_;
    pixels.height_px = height_;
    pixels.rgb.reserve(3 * met_.size());
    for (int y = 0; y < height_; ++y)
      for (int x = 0; x < width_; ++x) {
        const FilmPixel& pixel = film_.at(x, y);
        Vec3 colour = pixel.light * (pixel.detail * pixel.cover) + pixel.rest;
        if (clear()) {
          pixels.alpha.push_back(static_cast<std::uint8_t>(std::lround(255 * pixel.cover)));
          colour = pixel.cover > 0 ? colour * (1 / pixel.cover) : Vec3{};
        }
        const auto rgb = display_colour(colour);
        pixels.rgb.insert(pixels.rgb.end(), rgb.begin(), rgb.end());
      }
    return pixels;
  }

  const Stage& stage_;
  const Style& style_;
  int width_, height_, side_; // side: samples along one side of a pixel
  Tracer tracer_;
  GatheredLight gathered_;
  Shadow shadow_;
  PaperDetail detail_;
  Film film_;
  std::vector<std::uint8_t> met_; // 1 where paper or ruler may show
};

} // namespace

std::optional<Pixels> exposed(const Stage& stage, const Style& style) { return Exposure(stage, style).taken(); }

} // namespace fanwright::picture
