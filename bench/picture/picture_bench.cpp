// Seconds and peak memory of a preview and a final picture of a design file's last size:
//   bench_picture examples/orchard/pear.ornament.json [threads]
#include "picture/picture.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>
#include <sys/resource.h>

namespace fanwright {
namespace {

double seconds_of(const picture::Piece& piece, const picture::Style& style) {
  const auto start = std::chrono::steady_clock::now();
  const auto pixels = picture::render({piece}, style);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  if (const auto* sentence = std::get_if<std::string>(&pixels))
    fmt::print("{}\n", *sentence);
  return taken.count();
}

double peak_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024; // kilobytes on Linux
}

int measure(const std::string& file, int threads) {
  std::ifstream stream(file, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(stream), {}};
  const auto design = design::parse(text);
  if (!std::holds_alternative<design::Design>(design))
    return 2;
  const auto& size = std::get<design::Design>(design).sizes.back();
  const auto leaf = leaf::build(std::get<design::Design>(design), size);
  if (!std::holds_alternative<leaf::Leaf>(leaf))
    return 2;
  const auto form = opened::open(opened::panel_of(std::get<leaf::Leaf>(leaf), size));
  if (!std::holds_alternative<opened::Form>(form))
    return 2;
  const picture::Piece piece{&std::get<opened::Form>(form), size.leaves, size.paper.caliper_mm};
  picture::Style style;
  picture::look_from(picture::View::three_quarter, style);
  style.threads = threads;
  style.width_px = style.height_px = 480;
  style.samples = 4;
  style.draft = true;
  fmt::print("{} leaves, {} triangles a half-panel\n", size.leaves, piece.form->mesh.triangles.size());
  const double preview = seconds_of(piece, style);
  fmt::print("preview  480 x  480: {:6.2f} s, peak {:.0f} MB so far\n", preview, peak_mb());
  style.width_px = style.height_px = 1200;
  style.samples = 25;
  style.draft = false;
  const double final = seconds_of(piece, style);
  fmt::print("final   1200 x 1200: {:6.2f} s, peak {:.0f} MB\n", final, peak_mb());
  return 0;
}

} // namespace
} // namespace fanwright

int main(int argc, char** argv) {
  if (argc < 2) {
    fmt::print("bench_picture FILE [threads]\n");
    return 2;
  }
  return fanwright::measure(argv[1], argc > 2 ? std::atoi(argv[2]) : 0);
}
