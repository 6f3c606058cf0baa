// Based on ISO 32000-1, sections 8.4 (graphics state), 8.5 (paths) and 8.9 (images).
#include "drawing/pdf_operators.h"

#include "drawing/decimal.h"
#include "drawing/font.h"

#include <algorithm>

namespace fanwright::drawing {

namespace {

std::string pair(const Point& point) { return decimal(point.x) + " " + decimal(point.y) + " "; }

/// Writes the segments of one path; remembers the current point, which arcs need.
class PathOperators {
public:
  void operator()(const Move& s) { put(s.to, pair(s.to) + "m\n"), subpath_ = s.to; }
  void operator()(const Line& s) { put(s.to, pair(s.to) + "l\n"); }
  void operator()(const Cubic& s) { put(s.to, pair(s.control1) + pair(s.control2) + pair(s.to) + "c\n"); }
  void operator()(const Arc& s) {
    for (const Cubic& piece : cubics_of(current_, s))
      (*this)(piece);
  }
  void operator()(const Close&) { put(subpath_, "h\n"); }
  const std::string& text() const { return text_; }

private:
  void put(const Point& to, const std::string& operators) {
    text_ += operators;
    current_ = to;
  }
  std::string text_;
  Point current_, subpath_;
};

std::string components(const Colour& colour) {
  std::string text;
  for (const double part : {colour.red, colour.green, colour.blue})
    text += decimal(std::clamp(part, 0.0, 1.0)) + " ";
  return text;
}

} // namespace

std::string operators_of(const Path& path) {
  PathOperators operators;
  for (const Segment& segment : path.segments)
    std::visit(operators, segment);
  const std::string colour = path.step == Step::print ? components(path.pen.colour) : "";
  if (path.pen.filled)
    return (colour.empty() ? "" : colour + "rg\n") + operators.text() + "f\n";
  std::string dashes;
  for (const double length : path.pen.dash_mm)
    dashes += decimal(length) + " ";
  return (colour.empty() ? "" : colour + "RG ") + decimal(path.pen.width_mm) + " w [" + dashes + "] 0 d\n" +
         operators.text() + "S\n";
}

std::string operators_of(const Image& image, const std::string& name) {
  // An image is a unit square with its first row at y = 1; the page's y runs down, so it is turned over.
  return "q " + decimal(image.width_mm) + " 0 0 " + decimal(-image.height_mm) + " " + decimal(image.corner.x) + " " +
         decimal(image.corner.y + image.height_mm) + " cm " + name + " Do Q\n";
}

std::string begin_page_coordinates(const std::string& page_height) {
  return "q " + decimal(points_per_mm, 9) + " 0 0 " + decimal(-points_per_mm, 9) + " 0 " + page_height + " cm 1 j\n";
}

} // namespace fanwright::drawing
