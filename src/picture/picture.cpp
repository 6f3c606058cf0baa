#include "picture/picture.h"

#include "picture/exposure.h"

#include <algorithm>
#include <cmath>

namespace fanwright::picture {
namespace {

constexpr std::size_t most_pieces = 24, most_frames = 240;

std::optional<std::string> fault(const Style& style) {
  if (style.width_px < 16 || style.width_px > 4096 || style.height_px < 16 || style.height_px > 4096)
    return "A picture is 16 to 4096 pixels wide and high; choose a size in that range.";
  if (style.samples < 1 || style.samples > 1024)
    return "A picture takes 1 to 1024 samples a pixel; choose a number in that range.";
  if (!(style.elevation_deg >= -10 && style.elevation_deg <= 89) || !(std::abs(style.azimuth_deg) <= 3600))
    return "The viewer looks down by -10 to 89 degrees and stands within ten turns; choose angles in those ranges.";
  if (!(style.zoom >= 0.2 && style.zoom <= 20) || !(std::abs(style.look_up) <= 10) ||
      !(std::abs(style.look_right) <= 10) || !(style.blur >= 0 && style.blur <= 0.5))
    return "A picture is enlarged 0.2 to 20 times, moved by up to ten frames and blurred by 0 to 0.5; choose numbers "
           "in "
           "those ranges.";
  if (style.leaves < 0 || style.leaves > 10'000)
    return "An ornament drawn in a picture has 1 to 10000 leaves; give 0 to close the full circle.";
  return std::nullopt;
}

std::optional<std::string> fault(const std::vector<Piece>& pieces, std::size_t most) {
  if (pieces.empty() || pieces.size() > most)
    return "A picture shows 1 to " + std::to_string(most) + " pieces; choose fewer sizes or steps.";
  for (const Piece& piece : pieces) {
    if (!piece.form || piece.leaves < 0 || piece.leaves > 10'000)
      return "An ornament drawn in a picture has 1 to 10000 leaves; give 0 to close the full circle.";
    if (!(piece.caliper_mm >= 0 && piece.caliper_mm <= 5))
      return "Paper drawn in a picture is 0 to 5 mm thick; give a caliper in that range.";
  }
  return std::nullopt;
}

std::variant<Paper, std::string> paper_of(const Style& style) {
  if (const auto paper = paper_called(style.colour))
    return *paper;
  return "The paper is \"" + style.colour + "\"; write # and six hexadecimal digits, like #c8563c, or one of " +
         paper_names() + ".";
}

std::variant<Pixels, std::string> taken(Placed pieces, const std::vector<Vec3>& framed, const Style& style,
                                        const Paper& paper) {
  const auto stage = staged(std::move(pieces), framed, style, paper);
  if (const auto* sentence = std::get_if<std::string>(&stage))
    return *sentence;
  auto pixels = exposed(std::get<Stage>(stage), style);
  if (!pixels)
    return "The picture was cancelled.";
  return *std::move(pixels);
}

} // namespace

void look_from(View view, Style& style) {
  style.azimuth_deg = view == View::front ? 0 : 24;
  style.elevation_deg = view == View::front ? 4 : view == View::top ? 72 : 20;
  style.zoom = view == View::close_up ? 3 : 1;
  style.look_right = view == View::close_up ? 0.3 : 0;
  style.look_up = 0;
  style.blur = view == View::close_up ? 0.02 : view == View::three_quarter ? 0.008 : 0;
}

std::variant<Pixels, std::string> render(const opened::Form& form, const Style& style) {
  if (auto sentence = fault(style)) // before style.leaves becomes the piece's
    return *sentence;
  return render(std::vector<Piece>{{&form, style.leaves, 0}}, style);
}

std::variant<Pixels, std::string> render(const std::vector<Piece>& pieces, const Style& style) {
  if (auto sentence = fault(style))
    return *sentence;
  if (auto sentence = fault(pieces, most_pieces))
    return *sentence;
  const auto paper = paper_of(style);
  if (const auto* sentence = std::get_if<std::string>(&paper))
    return *sentence;
  auto made = placed(pieces, style, std::nullopt);
  if (auto* sentence = std::get_if<std::string>(&made))
    return std::move(*sentence);
  auto& row = std::get<Placed>(made);
  const auto framed = std::move(row.framed);
  return taken(std::move(row), framed, style, std::get<Paper>(paper));
}

std::variant<std::vector<Pixels>, std::string> render_opening(const std::vector<Piece>& steps, const Style& style) {
  if (auto sentence = fault(style))
    return *sentence;
  if (auto sentence = fault(steps, most_frames))
    return *sentence;
  const auto paper = paper_of(style);
  if (const auto* sentence = std::get_if<std::string>(&paper))
    return *sentence;
  std::vector<Vec3> framed;
  const auto place = [&](const Piece& step) { return placed({step}, style, style.azimuth_deg); };
  for (const Piece& step : steps) {
    const auto made = place(step);
    if (const auto* sentence = std::get_if<std::string>(&made))
      return *sentence;
    const auto& points = std::get<Placed>(made).framed;
    for (std::size_t i = 0; i < points.size(); i += 7) // every seventh: the frame has room to spare
      framed.push_back(points[i]);
  }
  std::vector<Pixels> frames;
  for (const Piece& step : steps) {
    Style here = style;
    if (style.progress)
      here.progress = [&, from = static_cast<double>(frames.size())](double done) {
        style.progress((from + done) / static_cast<double>(steps.size()));
      };
    auto made = place(step);
    auto frame = taken(std::move(std::get<Placed>(made)), framed, here, std::get<Paper>(paper));
    if (auto* sentence = std::get_if<std::string>(&frame))
      return std::move(*sentence);
    frames.push_back(std::get<Pixels>(std::move(frame)));
  }
  return frames;
}

std::optional<std::string> write_png(const opened::Form& form, const Style& style, const std::filesystem::path& path) {
  const auto picture = render(form, style);
  if (const auto* sentence = std::get_if<std::string>(&picture))
    return *sentence;
  return write_png(std::get<Pixels>(picture), path);
}

} // namespace fanwright::picture
