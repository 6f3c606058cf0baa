// Based on SVG 2 (W3C), chapters 8 (coordinate systems) and 9 (paths).
#include "drawing/svg.h"

#include "drawing/decimal.h"
#include "drawing/xml_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fanwright::drawing {

namespace {

struct Group {
  std::string_view id;
  std::string_view colour;
  std::vector<Step> steps;
};

const std::array<Group, 8>& groups() {
  static const std::array<Group, 8> list = {{{"print", "#101418", {Step::print}},
                                             {"cut", "#101418", {Step::cut}},
                                             {"perforate", "#27602f", {Step::perforate}},
                                             {"score", "#1c6e8c", {Step::score}},
                                             {"score-back", "#8c1c5e", {Step::reverse_score}},
                                             {"glue-inside", "#b3541e", {Step::glue_inside}},
                                             {"glue-between", "#5a4690", {Step::glue_between}},
                                             {"notes", "#4a4a4a", {Step::dimension, Step::legend}}}};
  return list;
}

std::string pair(const Point& point) { return decimal(point.x) + " " + decimal(point.y); }

struct PathData {
  std::string operator()(const Move& s) const { return std::string("M ") + pair(s.to); }
  std::string operator()(const Line& s) const { return std::string("L ") + pair(s.to); }
  std::string operator()(const Cubic& s) const {
    return std::string("C ") + pair(s.control1) + " " + pair(s.control2) + " " + pair(s.to);
  }
  std::string operator()(const Arc& s) const {
    return std::string("A ") + decimal(s.radius_x) + " " + decimal(s.radius_y) + " " + decimal(s.rotation_deg) +
           (s.large ? " 1" : " 0") + (s.sweep ? " 1 " : " 0 ") + pair(s.to);
  }
  std::string operator()(const Close&) const { return "Z"; }
};

/// "#rrggbb"
std::string hexadecimal(const Colour& colour) {
  std::string text = "#";
  for (const double part : {colour.red, colour.green, colour.blue}) {
    const auto level = static_cast<unsigned>(std::lround(255 * std::clamp(part, 0.0, 1.0)));
    text += "0123456789abcdef"[level / 16];
    text += "0123456789abcdef"[level % 16];
  }
  return text;
}

std::string element(const Path& path, std::string_view group_colour) {
  const bool print = path.step == Step::print;
  const std::string colour = print ? hexadecimal(path.pen.colour) : std::string(group_colour);
  std::string data;
  for (const Segment& segment : path.segments) {
    data += data.empty() ? "" : " ";
    data += std::visit(PathData{}, segment);
  }
  std::string text = "    <path d=\"" + data + "\"";
  if (path.pen.filled)
    return text + " fill=\"" + colour + "\" stroke=\"none\"/>\n";
  if (print)
    text += " stroke=\"" + colour + "\"";
  text += " stroke-width=\"" + decimal(path.pen.width_mm) + "\"";
  if (!path.pen.dash_mm.empty()) {
    std::string dashes;
    for (const double length : path.pen.dash_mm) {
      dashes += dashes.empty() ? "" : " ";
      dashes += decimal(length);
    }
    text += " stroke-dasharray=\"" + dashes + "\"";
  }
  return text + "/>\n";
}

std::string element(const Text& line, std::string_view group_colour) {
  const std::string colour = line.step == Step::print ? hexadecimal(line.colour) : std::string(group_colour);
  std::string text = "    <text x=\"" + decimal(line.baseline.x) + "\" y=\"" + decimal(line.baseline.y) +
                     "\" font-size=\"" + decimal(line.size_mm) + "\" fill=\"" + colour + "\" stroke=\"none\"";
  if (line.align == Align::centre)
    text += " text-anchor=\"middle\"";
  if (line.align == Align::right)
    text += " text-anchor=\"end\"";
  if (line.bold)
    text += " font-weight=\"bold\"";
  return text + ">" + xml_text(line.words) + "</text>\n";
}

/// Raster pictures are for PDF alone.
std::string element(const Image&, std::string_view) { return {}; }

std::string content(const Page& page, const Group& group) {
  std::string text;
  for (const Step step : group.steps)
    for (const Item& item : page.items)
      std::visit(
          [&](const auto& mark) {
            if (mark.step == step)
              text += element(mark, group.colour);
          },
          item);
  return text;
}

} // namespace

std::string svg(const Page& page, std::string_view title) {
  const std::string width = decimal(page.width_mm), height = decimal(page.height_mm);
  std::string text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" +
                     width + "mm\" height=\"" + height + "mm\" viewBox=\"0 0 " + width + " " + height + "\">\n";
  text += "  <title>" + xml_text(title) + "</title>\n";
  for (const Group& group : groups()) {
    const std::string marks = content(page, group);
    if (marks.empty())
      continue;
    text += "  <g id=\"" + std::string(group.id) + "\" fill=\"none\" stroke=\"" + std::string(group.colour) +
            "\" stroke-linejoin=\"round\" font-family=\"DejaVu Sans, sans-serif\">\n" + marks + "  </g>\n";
  }
  return text + "</svg>\n";
}

} // namespace fanwright::drawing
