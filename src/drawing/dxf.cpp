// Based on the published DXF reference for release 2000: ENTITIES (LWPOLYLINE, TEXT).
#include "drawing/dxf.h"

#include "drawing/bulged_line.h"
#include "drawing/dxf_frame.h"
#include "drawing/dxf_tags.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

namespace fanwright::drawing {

namespace {

constexpr const char* continuous = "Continuous";

/// Layer of a step; its colour's number is one that stands apart from its neighbours' on dark and on light.
struct StepLayer {
  const char* name;
  int colour;
};

StepLayer layer_of(Step step) {
  constexpr int red = 1, green = 3, cyan = 4, blue = 5, magenta = 6, grey = 8, orange = 30;
  switch (step) {
  case Step::cut:
    return {"CUT", red};
  case Step::perforate:
    return {"PERFORATE", green};
  case Step::score:
    return {"SCORE", blue};
  case Step::reverse_score:
    return {"SCORE_BACK", magenta};
  case Step::glue_inside:
    return {"GLUE_INSIDE", orange};
  case Step::glue_between:
    return {"GLUE_BETWEEN", cyan};
  case Step::print:
  case Step::dimension:
  case Step::legend:
    break;
  }
  return {"NOTES", grey};
}

/// The drawing being turned into entities; what it needs of tables gathers on the way.
class Entities {
public:
  Entities(double page_height_mm, std::string owner, Handles& handles)
      : height_(page_height_mm), owner_(std::move(owner)), handles_(handles) {}

  void operator()(const Image&) {}

  void operator()(const Path& path) {
    const std::string line_type = path.pen.filled ? continuous : line_type_of(path.pen.dash_mm);
    std::vector<BulgedLine> lines = bulged_lines(path.segments);
    for (BulgedLine& line : lines) {
      for (BulgedVertex& vertex : line.vertices)
        vertex = {upward(vertex.at), -vertex.bulge};
      put(line, path.step, line_type);
    }
    if (const std::optional<Box> box = box_round(lines))
      widen(*box);
  }

  void operator()(const Text& line) {
    // DXF's height is that of a capital: 1493 of 2048 units in the built-in font, DejaVu Sans 2.37.
    constexpr double capital = 1493.0 / 2048;
    const Point at = upward(line.baseline);
    entity("TEXT", line.step, continuous).text(100, "AcDbText").point3(10, at).real(40, capital * line.size_mm);
    tags_.text(1, dxf_words(line.words));
    if (line.align != Align::left)
      tags_.whole(72, line.align == Align::centre ? 1 : 2).point3(11, at);
    tags_.text(100, "AcDbText");
    widen({at, at});
  }

  const Tags& tags() const { return tags_; }
  const std::vector<LineType>& line_types() const { return line_types_; }
  const std::optional<Box>& extents() const { return extents_; }

  /// The layers used, in the order of the steps.
  std::vector<Layer> layers() const {
    std::vector<Layer> list;
    for (const auto& [step, line_type] : layers_)
      list.push_back({layer_of(step).name, layer_of(step).colour, line_type});
    return list;
  }

private:
  Point upward(const Point& point) const { return {point.x, height_ - point.y}; }

  void put(const BulgedLine& line, Step step, const std::string& line_type) {
    entity("LWPOLYLINE", step, line_type).text(100, "AcDbPolyline").whole(90, static_cast<long>(line.vertices.size()));
    tags_.whole(70, line.closed ? 1 : 0).real(43, 0);
    for (const BulgedVertex& vertex : line.vertices) {
      tags_.point(10, vertex.at);
      if (vertex.bulge != 0)
        tags_.real(42, vertex.bulge);
    }
  }

  Tags& entity(std::string_view type, Step step, const std::string& line_type) {
    const Step whose_layer = step == Step::dimension ? Step::legend : step;
    const auto layer = layers_.try_emplace(whose_layer, line_type).first;
    tags_.text(0, type).text(5, handles_.next()).text(330, owner_).text(100, "AcDbEntity").text(8, layer_of(step).name);
    if (line_type != layer->second)
      tags_.text(6, line_type);
    return tags_;
  }

  std::string line_type_of(const std::vector<double>& dash_mm) {
    if (dash_mm.empty())
      return continuous;
    const auto known = std::find_if(line_types_.begin(), line_types_.end(),
                                    [&](const LineType& type) { return type.dash_mm == dash_mm; });
    if (known != line_types_.end())
      return known->name;
    std::string name = "DASHES_" + std::to_string(line_types_.size() + 1);
    for (const Step step : all_steps)
      if (usual_pen(step).dash_mm == dash_mm)
        name = layer_of(step).name;
    line_types_.push_back({name, dash_mm});
    return name;
  }

  void widen(const Box& box) {
    if (!extents_)
      extents_ = box;
    extents_->low = {std::min(extents_->low.x, box.low.x), std::min(extents_->low.y, box.low.y)};
    extents_->high = {std::max(extents_->high.x, box.high.x), std::max(extents_->high.y, box.high.y)};
  }

  const double height_;
  const std::string owner_;
  Handles& handles_;
  Tags tags_;
  std::vector<LineType> line_types_;
  std::map<Step, std::string> layers_; ///< one step for each layer, with the line type of its first entity
  std::optional<Box> extents_;
};

} // namespace

std::string dxf(const Page& page, std::string_view title) {
  Handles handles;
  const FrameHandles known = take_frame_handles(handles);
  Entities entities(page.height_mm, known.model_space, handles);
  for (const Step step : all_steps)
    for (const Item& item : page.items)
      std::visit(
          [&](const auto& mark) {
            if (mark.step == step && step != Step::print)
              entities(mark);
          },
          item);
  const Box whole_page{{0, 0}, {page.width_mm, page.height_mm}};
  const Frame frame{entities.line_types(), entities.layers(), entities.extents().value_or(whole_page)};
  Tags body = tables(frame, known, handles);
  body.append(blocks(known, handles)).text(0, "SECTION").text(2, "ENTITIES").append(entities.tags()).text(0, "ENDSEC");
  body.append(objects(frame, known, handles));
  Tags file;
  file.text(999, dxf_words(title)).append(header(frame, handles.seed())).append(classes()).append(body).text(0, "EOF");
  return file.bytes();
}

} // namespace fanwright::drawing
