#include "cli/opened_files.h"

#include "drawing/svg.h"
#include "picture/line_drawing.h"
#include "picture/mesh_files.h"
#include "studio/whole_file.h"

#include <array>
#include <cctype>
#include <filesystem>
#include <string_view>
#include <utility>
#include <variant>

namespace fanwright::cli {
namespace {

namespace fs = std::filesystem;

struct MeshFormat {
  std::string_view ending;
  std::string (*write)(const picture::Body&);
};

constexpr std::array<MeshFormat, 4> mesh_formats = {
    {{".glb", picture::gltf}, {".stl", picture::stl}, {".obj", picture::obj}, {".3mf", picture::three_mf}}};

struct LineView {
  std::string_view name;
  double azimuth_deg, elevation_deg;
};

constexpr std::array<LineView, 3> seen_from = {{{"three-quarter", 24, 20}, {"front", 0, 0}, {"top", 24, 90}}};

picture::View view_of(std::string_view name) {
  picture::View view;
  for (const LineView& known : seen_from)
    if (known.name == name)
      view.azimuth_deg = known.azimuth_deg, view.elevation_deg = known.elevation_deg;
  return view;
}

std::string ending_of(const std::string& file) {
  std::string ending = fs::path(file).extension().string();
  for (char& letter : ending)
    letter = static_cast<char>(std::tolower(static_cast<unsigned char>(letter)));
  return ending;
}

const MeshFormat* format_of(const std::string& file) {
  for (const MeshFormat& format : mesh_formats)
    if (format.ending == ending_of(file))
      return &format;
  return nullptr;
}

} // namespace

std::vector<std::string> line_views() {
  std::vector<std::string> names;
  names.reserve(seen_from.size());
  for (const LineView& known : seen_from)
    names.emplace_back(known.name);
  return names;
}

std::optional<std::string> fault_of(const OpenedFiles& files) {
  if (!files.mesh.empty() && !format_of(files.mesh))
    return files.mesh + ": A mesh file ends in .glb, .stl, .obj or .3mf; choose one of these endings for --mesh.";
  if (!files.lines.empty() && ending_of(files.lines) != ".svg")
    return files.lines + ": A line drawing ends in .svg; choose this ending for --lines.";
  if (files.lines.empty() && !files.view.empty())
    return "A view is that of a line drawing; name its file with --lines FILE.svg.";
  return std::nullopt;
}

std::optional<std::string> write_opened_files(const OpenedFiles& files, const design::Design& design,
                                              const opened::Panel& panel, const opened::Form& form,
                                              const std::vector<picture::FanPaper>& fans) {
  if (files.mesh.empty() && files.lines.empty())
    return std::nullopt;
  const auto body = picture::body_of(panel, form, design.title, design.colour, picture::most_mesh_triangles, fans);
  if (const auto* sentence = std::get_if<std::string>(&body))
    return *sentence;
  if (!files.mesh.empty())
    if (auto sentence = studio::write_whole(files.mesh, format_of(files.mesh)->write(std::get<picture::Body>(body))))
      return sentence;
  if (files.lines.empty())
    return std::nullopt;
  const auto page = picture::line_drawing(std::get<picture::Body>(body), view_of(files.view));
  if (const auto* sentence = std::get_if<std::string>(&page))
    return *sentence;
  return studio::write_whole(files.lines, drawing::svg(std::get<drawing::Page>(page), design.title));
}

} // namespace fanwright::cli
