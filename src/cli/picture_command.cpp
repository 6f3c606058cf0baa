#include "cli/picture_command.h"

#include "cli/design_file.h"
#include "cli/refused_size.h"
#include "cli/terminal.h"
#include "fit/leaf_of.h"
#include "opened/opened.h"
#include "picture/picture.h"
#include "picture/seated_paper.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

namespace fanwright::cli {
namespace {

constexpr double least_opening_deg = 20; // a packet that has just been loosened
constexpr int frame_ms = 90, rest_ms = 1800;
constexpr double solved_share = 0.4; // of the whole work, measured on the examples

constexpr const char* stopped = "Stopped before the picture was complete; nothing was changed.";

/// An ornament to be drawn and the paper it is made of.
struct Opened {
  opened::Form form;
  int leaves = 0;
  double caliper_mm = 0;
  std::vector<leaf::Ring> cut_outs; ///< flat
  std::vector<picture::FanPaper> fans;
};

picture::Style style_of(const PictureRequest& request, const design::Design& design) {
  static const std::map<std::string, picture::View> views = {{"three-quarter", picture::View::three_quarter},
                                                             {"front", picture::View::front},
                                                             {"top", picture::View::top},
                                                             {"close-up", picture::View::close_up},
                                                             {"family", picture::View::three_quarter},
                                                             {"opening", picture::View::three_quarter}};
  static const std::map<std::string, picture::Background> backgrounds = {
      {"table", picture::Background::table},
      {"wall", picture::Background::wall},
      {"plain", picture::Background::plain},
      {"transparent", picture::Background::transparent}};
  picture::Style style;
  picture::look_from(views.at(request.view), style);
  style.background = backgrounds.at(request.background);
  style.draft = request.quality == "preview";
  style.samples = style.draft ? 4 : 25;
  style.width_px = style.height_px = request.pixels > 0 ? request.pixels : style.draft ? 480 : 1200;
  if (request.view == "family") {
    style.height_px = std::max(16, style.width_px * 2 / 3);
    style.zoom = 1.1; // a row leaves room above the small sizes
  }
  style.colour = request.paper.empty() ? design.colour : request.paper;
  style.seed = request.seed;
  style.cancelled = interrupted;
  return style;
}

/// The sizes shown, in the file's order; none, with a complaint, when the name is not in the file.
std::vector<design::Size> shown_sizes(const design::Design& design, const PictureRequest& request) {
  if (request.view == "family" && request.size.empty())
    return design.sizes;
  if (request.size.empty())
    return {design.sizes.back()};
  std::string names;
  for (const auto& size : design.sizes) {
    if (size.name == request.size)
      return {size};
    names += (names.empty() ? "\"" : ", \"") + size.name + "\"";
  }
  complain(request.file + ": There is no size \"" + request.size + "\"; the file has " + names + ".");
  return {};
}

/// A form that is to be found, or was found with its leaf.
struct Wanted {
  const design::Size* size;
  opened::Panel panel;
  std::optional<opened::Form> form;
};

/// Opens the panel; an exit code, with a complaint, when it cannot be.
std::variant<Opened, Exit> opened_piece(const std::string& file, const design::Size& size, const opened::Panel& panel,
                                        const std::function<void(double)>& progress) {
  opened::Options options;
  options.progress = progress;
  options.cancelled = interrupted;
  auto form = opened::open(panel, options);
  if (interrupted()) {
    complain(stopped);
    return Exit::refused;
  }
  if (const auto* failure = std::get_if<opened::Failure>(&form)) {
    complain(
        fmt::format("{}: Size \"{}\" at {:.0f} degrees: {}", file, size.name, panel.opening_deg, failure->sentence));
    return Exit::check_failed;
  }
  return Opened{std::get<opened::Form>(std::move(form)), size.leaves, size.paper.caliper_mm, panel.cut_outs, {}};
}

/// Puts the fans in their seats; an exit code, with a complaint, when one cannot sit there.
std::optional<Exit> take_seats(const std::string& file, const design::Design& design, const design::Size& size,
                               Opened& piece) {
  auto fans = picture::seated_paper(design, size, piece.form);
  if (const auto* refusal = std::get_if<design::Refusal>(&fans)) {
    complain_about(file, *refusal);
    return Exit::check_failed;
  }
  piece.fans = std::get<std::vector<picture::FanPaper>>(std::move(fans));
  return std::nullopt;
}

/// The leaf alone, its form still to be found.
std::variant<fit::OpenedLeaf, fit::Failure> flat_leaf(const design::Design& design, const design::Size& size,
                                                      const fit::Options& options) {
  auto leaf = fit::leaf_of(design, size, options);
  if (auto* failure = std::get_if<fit::Failure>(&leaf))
    return std::move(*failure);
  return fit::OpenedLeaf{std::get<leaf::Leaf>(std::move(leaf)), {}, 1, {}};
}

/// Everything that is to be opened for this request, in drawing order.
std::variant<std::vector<Opened>, Exit> opened_pieces(const design::Design& design, const PictureRequest& request,
                                                      Progress& progress, std::vector<std::string>& remarks) {
  const auto sizes = shown_sizes(design, request);
  if (sizes.empty())
    return Exit::refused;
  std::vector<Wanted> wanted;
  for (const auto& size : sizes) {
    fit::Options options;
    options.progress = [&](double) { progress.show(0, "flat leaf of " + size.name); };
    options.cancelled = interrupted;
    const int steps = request.view == "opening" ? request.frames : 1;
    const bool is_found = design.shows == design::Shows::opened && steps == 1;
    auto leaf = is_found ? fit::opened_leaf(design, size, options) : flat_leaf(design, size, options);
    if (interrupted()) {
      complain(stopped);
      return Exit::refused;
    }
    if (const auto* failure = std::get_if<fit::Failure>(&leaf)) {
      return static_cast<Exit>(refuse_size(request.file, design, size, *failure));
    }
    auto& found = std::get<fit::OpenedLeaf>(leaf);
    for (const std::string& remark : found.remarks)
      remarks.push_back(size.name + ": " + remark);
    opened::Panel panel = opened::panel_of(found.leaf, size);
    if (is_found) {
      wanted.push_back({&size, std::move(panel), std::move(found.form)});
      continue;
    }
    const double whole_deg = panel.opening_deg, first_deg = std::min(least_opening_deg, whole_deg);
    for (int step = 1; step <= steps; ++step) {
      panel.opening_deg = steps == 1 ? whole_deg : first_deg + (whole_deg - first_deg) * (step - 1) / (steps - 1);
      wanted.push_back({&size, panel, std::nullopt});
    }
  }
  std::vector<Opened> pieces;
  for (auto& [size, panel, form] : wanted) {
    if (form) {
      pieces.push_back({*std::move(form), size->leaves, size->paper.caliper_mm, panel.cut_outs, {}});
    } else {
      const auto show = [&, name = size->name, done = static_cast<double>(pieces.size())](double share) {
        progress.show(solved_share * (done + share) / static_cast<double>(wanted.size()), "opening " + name);
      };
      auto piece = opened_piece(request.file, *size, panel, show);
      if (const auto* exit = std::get_if<Exit>(&piece))
        return *exit;
      pieces.push_back(std::get<Opened>(std::move(piece)));
    }
    // On its way open the piece has no fans yet: they are glued on last.
    if (request.view != "opening")
      if (const auto exit = take_seats(request.file, design, *size, pieces.back()))
        return *exit;
  }
  return pieces;
}

std::optional<std::string> write_frames(const std::vector<picture::Pixels>& frames, const std::string& out) {
  if (std::filesystem::path(out).extension() == ".png")
    return picture::write_moving_png(frames, frame_ms, rest_ms, out);
  std::error_code error;
  std::filesystem::create_directories(out, error);
  if (error)
    return "The folder " + out + " cannot be made; check its name and your permissions.";
  for (std::size_t i = 0; i < frames.size(); ++i)
    if (auto sentence =
            picture::write_png(frames[i], std::filesystem::path(out) / fmt::format("frame-{:03}.png", i + 1)))
      return sentence;
  return std::nullopt;
}

std::optional<std::string> draw(const std::vector<Opened>& opened, const picture::Style& style,
                                const PictureRequest& request) {
  std::vector<picture::Piece> pieces;
  pieces.reserve(opened.size());
  for (const auto& piece : opened)
    pieces.push_back({&piece.form, piece.leaves, piece.caliper_mm, piece.cut_outs, piece.fans});
  if (request.view == "opening") {
    const auto frames = picture::render_opening(pieces, style);
    if (const auto* sentence = std::get_if<std::string>(&frames))
      return interrupted() ? stopped : *sentence;
    return write_frames(std::get<std::vector<picture::Pixels>>(frames), request.out);
  }
  const auto pixels = picture::render(pieces, style);
  if (const auto* sentence = std::get_if<std::string>(&pixels))
    return interrupted() ? stopped : *sentence;
  return picture::write_png(std::get<picture::Pixels>(pixels), request.out);
}

} // namespace

int run_picture(const PictureRequest& request) {
  const auto design = read_design(request.file);
  if (!design)
    return Exit::refused;
  if (request.view != "opening" && std::filesystem::path(request.out).extension() != ".png") {
    complain(request.out + ": A picture is a PNG file; end its name in .png.");
    return Exit::refused;
  }
  catch_interrupts();
  const auto start = std::chrono::steady_clock::now();
  std::vector<std::string> remarks;
  {
    Progress progress;
    auto style = style_of(request, *design);
    const auto pieces = opened_pieces(*design, request, progress, remarks);
    if (const auto* exit = std::get_if<Exit>(&pieces))
      return *exit;
    style.progress = [&](double share) { progress.show(solved_share + (1 - solved_share) * share, "picture"); };
    if (const auto sentence = draw(std::get<std::vector<Opened>>(pieces), style, request)) {
      complain(*sentence);
      return Exit::refused;
    }
  }
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  fmt::print("{}: {} of \"{}\", in {:.1f} s\n", request.out, request.view, design->title, taken.count());
  for (const std::string& remark : remarks)
    fmt::print("{}\n", remark);
  return finish_output() ? Exit::good : Exit::refused;
}

} // namespace fanwright::cli
