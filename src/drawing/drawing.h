// One neutral drawing of a page: paths and text, each in a processing step. What SVG and PDF are written from.
// Page coordinates: mm, x right from the left edge, y DOWN from the top edge.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::drawing {

/// What a mark on the page is for; the words follow ISO 19593-1. `print` is ordinary printed matter (a booklet's text
/// and pictures): it is on no layer and in the colours of its pens.
enum class Step { print, cut, perforate, score, reverse_score, glue_inside, glue_between, dimension, legend };

inline constexpr std::array<Step, 9> all_steps = {Step::print,        Step::cut,           Step::perforate,
                                                  Step::score,        Step::reverse_score, Step::glue_inside,
                                                  Step::glue_between, Step::dimension,     Step::legend};

/// Name of a step as the maker reads it in a list of layers: "Cut", "Score", "Glue inside" ...
std::string_view name_of(Step step);

struct Point {
  double x = 0; ///< mm from the left edge
  double y = 0; ///< mm below the top edge
};

struct Move {
  Point to;
};
struct Line {
  Point to;
};
struct Cubic {
  Point control1, control2, to;
};
/// Elliptical arc in the meaning of SVG 2, section 9.5.1 (y down, so sweep is clockwise as seen).
struct Arc {
  double radius_x = 0, radius_y = 0; ///< mm
  double rotation_deg = 0;
  bool large = false, sweep = false;
  Point to;
};
struct Close {};
using Segment = std::variant<Move, Line, Cubic, Arc, Close>;

/// sRGB, 0..1. Only `Step::print` has colours of its own; every other step is in its own ink.
struct Colour {
  double red = 0, green = 0, blue = 0;
};

/// The thinnest line that every printer shows: the least width of ISO 128-2.
inline constexpr double hairline_mm = 0.13;

/// How a path is drawn. Line types must be told apart without colour (ISO 128-2 gives widths in steps of sqrt 2).
struct Pen {
  double width_mm = 0.25;
  std::vector<double> dash_mm; ///< on, off, ...; empty: solid
  bool filled = false;         ///< filled instead of stroked
  Colour colour = {};          ///< looked at in Step::print only
};

/// cut: solid 0.25 mm; perforate: dash; score: long dash; reverse score: long dash and dot; glue: thin solid (inside)
/// or short dash (between); others thin solid.
Pen usual_pen(Step step);

struct Path {
  Step step = Step::cut;
  std::vector<Segment> segments; ///< begins with a Move
  Pen pen = usual_pen(Step::cut);
};

enum class Align { left, centre, right };

/// One line of text. Glyphs the built-in font lacks are drawn as boxes in PDF.
struct Text {
  Step step = Step::legend;
  Point baseline;     ///< mm; start, middle or end of the baseline, by `align`
  double size_mm = 3; ///< height of the em square
  std::string words;  ///< UTF-8; control characters are left out
  Align align = Align::left;
  bool bold = false;
  Colour colour = {}; ///< looked at in Step::print only
};

/// A picture of 8-bit sRGB pixels, rows from the top, 3 bytes each, filling a rectangle; in Step::print, written to PDF
/// only.
struct Image {
  static constexpr Step step = Step::print;
  Point corner; ///< top left, mm
  double width_mm = 0, height_mm = 0;
  int width_px = 0, height_px = 0;
  std::shared_ptr<const std::vector<std::uint8_t>> rgb; ///< 3 * width_px * height_px bytes
};

using Item = std::variant<Path, Text, Image>;

struct Page {
  double width_mm = 210;
  double height_mm = 297;
  std::vector<Item> items; ///< drawn in this order within each step; steps in the order of `all_steps`
};

/// What a file says of itself besides its pages.
struct About {
  std::string title;
  std::string author;   ///< may be empty
  std::string subject;  ///< may be empty
  std::string language; ///< ISO 639-1, may be empty
};

/// Why a drawing could not be written; `sentence` is for the maker.
struct Failure {
  std::string sentence;
};

/// The arc from `from` as cubics of at most 45 degrees each (radial error below 5e-6 of the radius).
/// A zero radius gives a straight line, radii too small are enlarged, as SVG 2 section 9.5.2 demands.
std::vector<Cubic> cubics_of(const Point& from, const Arc& arc);

/// Parallel lines across a convex area, `spacing_mm` apart and at `angle_deg` to the x axis (clockwise as seen),
/// as one path in `step`, a hairline wide.
Path hatched(Step step, const std::vector<Point>& convex_area, double angle_deg, double spacing_mm);

/// Straight-line path through the points, closed when asked, with the step's usual pen.
Path polyline(Step step, const std::vector<Point>& points, bool closed);

/// Size at which one line of ordinary `words` fits in width_mm, at most largest_mm and at least 0.5 mm. Goes by the
/// mean width of a letter; a line of capitals alone may run a fifth over.
double fitted_size_mm(std::string_view words, double width_mm, double largest_mm, bool bold);

/// A horizontal ruler with its zero at `left`, ticks each mm below the line, longer at 5 and 10, a figure each 10 mm
/// and one line of advice underneath. The base line runs exactly from `left` to `left.x + length_mm`.
void add_ruler(Page& page, const Point& left, double length_mm);

/// A horizontal ruler of 1..100 inches with its zero at `left`, ticks each 1/8 in above the line, longer at 1/4, 1/2
/// and 1, a figure above each inch. With its line 1 mm above an add_ruler line both read as one ruler with two edges.
/// The base line runs exactly from `left` over 25.4 mm for each inch; all of it stands within 5.5 mm above `left`.
void add_inch_ruler(Page& page, const Point& left, int inches);

/// A square to measure across and along the paper, which printers need not stretch alike; its top left at `corner`, its
/// size lettered inside.
void add_square(Page& page, const Point& corner, double side_mm);

} // namespace fanwright::drawing
