// Her drawing, scan or photo as clean silhouettes, each ready for a design file.
#pragma once

#include "leaf/outline.h"
#include "traced/axis.h"
#include "traced/clean.h"
#include "traced/curves.h"
#include "traced/halves.h"
#include "traced/source.h"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::traced {

/// Whether the file shows the whole figure or the half right or left of its axis.
enum class Shown { found_out, whole, half };

/// Two places in the file and how far apart they are. In pixels for pictures, from the upper left corner; in CSS pixels
/// for SVG, that is in units of a page without a view box.
struct KnownDistance {
  double from_x = 0, from_y = 0, to_x = 0, to_y = 0;
  double length_mm = 0;
};

/// At most one of height, width and distance. Without any, an SVG page with a size in mm or inches gives the size, and
/// anything else becomes 180 mm high.
struct Wishes {
  std::optional<double> height_mm;
  std::optional<double> width_mm; ///< of the whole figure, both sides
  std::optional<KnownDistance> distance;
  Shown shown = Shown::found_out;
  std::optional<Side> side; ///< of a whole figure; empty: their mean where they differ, else the right one
  double tolerance_mm = 0.2;
};

struct Figure {
  leaf::Contour outline; ///< from the spine's foot to its top, open, mm
  std::vector<leaf::Contour> cut_outs;
  std::string path;                   ///< the same as the design file takes it
  double height_mm = 0, width_mm = 0; ///< of the whole figure
  Shown shown = Shown::whole;         ///< what it was taken for
  double tilt_deg = 0;                ///< by which the axis leant, anticlockwise; corrected
  double asymmetry_mm = 0;            ///< mean distance between one side and the other mirrored; 0 for a half
  double most_asymmetry_mm = 0;
  double most_asymmetry_z_mm = 0;   ///< height of that place
  double tolerance_mm = 0;          ///< the curves lie within this of the figure found
  std::vector<std::string> changed; ///< sentences: what was done to it
  std::vector<Mark> marks;          ///< finer than a knife cuts
  Areas found;                      ///< the figure as it was in the file, in leaf coordinates, both sides
  Areas filled, dropped;            ///< what was changed, on the half
  Frame frame;                      ///< how the file's coordinates became these
};

/// Points that the figure's curves run between.
std::size_t points_of(const Figure& figure);

struct Found {
  std::string kind;               ///< "SVG", "PNG" or "JPEG"
  SourcePage page;                ///< what the figures lie on
  std::vector<Figure> figures;    ///< in order of size, of the twelve largest pieces
  std::vector<std::string> notes; ///< sentences about the file as a whole
};

/// Largest file read, bytes.
inline constexpr std::size_t most_bytes = 64u << 20;

/// A sentence when the file is broken, too large or shows no silhouette. Reads nothing but `bytes`. Deterministic.
std::variant<Found, std::string> silhouettes(std::string_view bytes, const Wishes& wishes = {});

} // namespace fanwright::traced
