#include "traced/traced.h"

#include "fit/check_limits.h"
#include "leaf/contour.h"
#include "leaf/leaf.h"
#include "leaf/region.h"
#include "leaf/tolerances.h"
#include "traced/along.h"
#include "traced/bitmap.h"
#include "traced/source.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace fanwright::traced {
namespace {

using leaf::Box;

constexpr double default_height_mm = 180;
constexpr std::size_t most_figures = 12;
/// Of the figures offered beside the largest, together: each takes a tenth of a second in a thousand points.
constexpr std::size_t most_points = 4'000;
/// A piece below this share of the largest one is a speck.
constexpr double speck_share = 0.002;

std::string mm_text(double value) {
  char text[32];
  std::snprintf(text, sizeof text, value < 1 ? "%.2f mm" : "%.1f mm", value);
  return text;
}

/// Found before any work is done on a piece; empty when it may be a figure.
std::string too_fine(const Area& piece) {
  // A square of 180 mm that is nothing but bridges of 2 mm and gaps of 1.5 mm has an edge 103 times its side.
  constexpr double longest_edge = 100;
  const Box box = leaf::bounds(piece.outline);
  double edge = length_of(piece.outline, true);
  for (const Ring& hole : piece.holes)
    edge += length_of(hole, true);
  const double times = edge / std::max({box.width(), box.height(), 1e-300});
  if (piece.holes.size() <= most_rings && times <= longest_edge)
    return {};
  if (piece.holes.size() > most_rings)
    return "The figure has " + std::to_string(piece.holes.size()) +
           " cut-outs; at most 1000 are read: keep the larger "
           "ones.";
  char text[160];
  std::snprintf(text, sizeof text,
                "The figure's edge is %.0f times as long as the figure is large, too ragged to be cut from paper; draw "
                "it smoother.",
                times);
  return text;
}

/// Curves that cross nothing, and the tolerance they were found with.
struct Curves {
  leaf::Contour outline;
  std::vector<leaf::Contour> cut_outs;
  double tolerance_mm = 0;
};

bool sound(const Curves& curves) {
  leaf::Contour closed = curves.outline;
  closed.segments.emplace_back(leaf::Line{closed.start});
  if (leaf::bounds(closed).left < -leaf::spine_snap_mm)
    return false;
  const leaf::Ring outline = leaf::flatten(closed, leaf::flatten_tolerance_mm);
  if (leaf::self_contact(outline))
    return false;
  const leaf::Region half(outline);
  std::vector<leaf::Ring> holes;
  for (const leaf::Contour& contour : curves.cut_outs) {
    holes.push_back(leaf::flatten(contour, leaf::flatten_tolerance_mm));
    if (leaf::self_contact(holes.back()) || !half.contains(holes.back().front()) ||
        half.distance_to_boundary(holes.back()) < leaf::cut_out_clearance_mm)
      return false;
    const leaf::Region hole(holes.back());
    for (std::size_t k = 0; k + 1 < holes.size(); ++k)
      if (hole.contains(holes[k].front()) || hole.distance_to_boundary(holes[k]) < leaf::cut_out_clearance_mm)
        return false;
  }
  return true;
}

/// The outline from the spine's foot to its top. The ring is counter-clockwise and runs down the spine once.
std::vector<Point> along_outline(const Ring& ring) {
  const auto on_spine = [](Point p) { return p.x <= 1e-6; };
  std::size_t foot = 0;
  for (std::size_t k = 0; k < ring.size(); ++k)
    if (on_spine(ring[k]) && !on_spine(ring[(k + 1) % ring.size()]))
      foot = k;
  std::vector<Point> line{{0, ring[foot].z}};
  for (std::size_t k = 1; k < ring.size(); ++k) {
    const Point p = ring[(foot + k) % ring.size()];
    if (on_spine(p)) {
      line.push_back({0, p.z});
      break;
    }
    line.push_back(p);
  }
  return line;
}

/// Tightens the tolerance until nothing crosses any more.
std::optional<Curves> curves_of(const Area& half, double tolerance_mm, double grain_mm) {
  const std::vector<Point> line = along_outline(half.outline);
  for (double tolerance = tolerance_mm; tolerance > 0.01; tolerance /= 2) {
    const Smoothness smoothness{tolerance, grain_mm};
    Curves curves{smooth_outline(line, smoothness), {}, tolerance};
    for (const Ring& hole : half.holes)
      curves.cut_outs.push_back(smooth_ring(hole, smoothness));
    if (sound(curves))
      return curves;
  }
  return std::nullopt;
}

class FigureMaker {
public:
  FigureMaker(const Source& source, const Wishes& wishes) : source_(source), wishes_(wishes) {}

  /// A sentence when the piece cannot become a leaf.
  std::variant<Figure, std::string> make(const Area& piece) {
    if (std::string sentence = too_fine(piece); !sentence.empty())
      return sentence;
    figure_ = {};
    place(piece);
    scale(piece);
    const Areas upright = placed({piece}, figure_.frame);
    const double grain_mm = source_.grain * figure_.frame.scale;
    const double edge_mm = figure_.shown == Shown::half ? std::max(0.3, 2 * grain_mm) : 0;
    const Areas side = side_of(upright, side_);
    Half half = at_spine(side, edge_mm);
    if (half.area.outline.size() < 3)
      return std::string("The figure does not reach its axis, so it has no spine; let both sides meet in the middle.");
    append(figure_.changed, half.notes);
    figure_.filled = half.added;
    if (side_ == Side::mean)
      tell_lost_cut_outs(upright, side);
    figure_.dropped = half.dropped;
    if (!half.dropped.empty())
      figure_.changed.push_back(std::to_string(half.dropped.size()) +
                                " piece(s) that do not hang together with the spine were dropped.");
    return finish(half.area, upright, grain_mm);
  }

private:
  static void append(std::vector<std::string>& list, const std::vector<std::string>& more) {
    list.insert(list.end(), more.begin(), more.end());
  }

  void tell_lost_cut_outs(const Areas& upright, const Areas& mean) {
    for (const auto& [one, name] : {std::pair{Side::left, "left"}, {Side::right, "right"}}) {
      const Areas lost = lost_cut_outs(side_of(upright, one), mean);
      if (lost.empty())
        continue;
      figure_.filled.insert(figure_.filled.end(), lost.begin(), lost.end());
      figure_.changed.push_back((lost.size() == 1 ? "A cut-out" : std::to_string(lost.size()) + " cut-outs") +
                                std::string(" on the ") + name + " side only " + (lost.size() == 1 ? "was" : "were") +
                                " lost to the mean of both sides; take the " + name + " side to keep " +
                                (lost.size() == 1 ? "it." : "them."));
    }
  }

  /// Finds axis and side; scale is still 1.
  void place(const Area& piece) {
    constexpr double symmetric_share = 0.01, straight_share = 0.6;
    const Box box = leaf::bounds(piece.outline);
    const double size = std::max(box.width(), box.height());
    const Symmetry symmetry = symmetry_of(piece);
    const StraightSide straight = straight_side_of(piece);
    figure_.shown = wishes_.shown;
    if (figure_.shown == Shown::found_out)
      figure_.shown = symmetry.outline_mean > symmetric_share * size && straight.share > straight_share ? Shown::half
                                                                                                        : Shown::whole;
    if (figure_.shown == Shown::half) {
      figure_.frame = straight.axis;
      side_ = Side::right;
    } else {
      figure_.frame = symmetry.axis;
      figure_.asymmetry_mm = symmetry.mean;
      figure_.most_asymmetry_mm = symmetry.largest;
      figure_.most_asymmetry_z_mm = symmetry.axis.to_leaf(symmetry.largest_at).z;
      side_ = wishes_.side.value_or(Side::mean);
    }
    figure_.tilt_deg = figure_.frame.tilt_rad * 180 / std::numbers::pi;
    // So near to upright that the drawing was meant so.
    if (source_.grain == 0 && std::abs(figure_.tilt_deg) < 0.02)
      figure_.frame.tilt_rad = figure_.tilt_deg = 0;
  }

  void scale(const Area& piece) {
    const Areas upright = placed({piece}, figure_.frame);
    const Box box = leaf::bounds(upright.front().outline);
    const double across = figure_.shown == Shown::half ? 2 * box.right : box.width();
    double mm = source_.mm.value_or(default_height_mm / box.height());
    if (wishes_.height_mm)
      mm = *wishes_.height_mm / box.height();
    if (wishes_.width_mm)
      mm = *wishes_.width_mm / across;
    if (const auto& known = wishes_.distance)
      mm = known->length_mm / std::hypot(known->to_x - known->from_x, known->to_y - known->from_y);
    figure_.frame.scale = mm;
    figure_.frame.lift_mm = -mm * box.bottom;
    figure_.asymmetry_mm *= mm;
    figure_.most_asymmetry_mm *= mm;
    figure_.most_asymmetry_z_mm = mm * figure_.most_asymmetry_z_mm + figure_.frame.lift_mm;
    // Where the sides hardly differ the right one is exact and the mean is not.
    if (!wishes_.side && figure_.most_asymmetry_mm < wishes_.tolerance_mm / 2)
      side_ = Side::right;
  }

  std::variant<Figure, std::string> finish(const Area& half, const Areas& upright, double grain_mm) {
    figure_.found = upright;
    const double tolerance = std::max(wishes_.tolerance_mm, 0.8 * grain_mm);
    if (tolerance > wishes_.tolerance_mm)
      figure_.changed.push_back("The picture is coarse: a pixel is " + mm_text(grain_mm) +
                                " large, so the curves keep within " + mm_text(tolerance) + " of it.");
    const auto clean = clean_up(half, tolerance);
    if (!clean)
      return std::string(ragged);
    auto curves = curves_of(*clean, tolerance, grain_mm);
    if (!curves)
      return std::string("The figure's edge is so tangled that no clean outline was found; draw it simpler.");
    figure_.outline = std::move(curves->outline);
    figure_.cut_outs = std::move(curves->cut_outs);
    figure_.tolerance_mm = curves->tolerance_mm;
    figure_.path = path_text(figure_.outline, figure_.cut_outs);
    if (!mark(*clean))
      return std::string(ragged);
    return measure();
  }

  /// The half without slits, slivers and specks; empty when it is too ragged.
  std::optional<Area> clean_up(const Area& half, double tolerance) {
    constexpr double speck_mm2 = 0.8; // a hole of 1 mm
    const double slit_mm = fit::limit::machine_slot_mm;
    Cleaned clean = cleaned(half, slit_mm, leaf::cut_out_clearance_mm + 2 * tolerance, speck_mm2);
    if (clean.too_ragged)
      return std::nullopt;
    append(figure_.changed, clean.notes);
    figure_.filled.insert(figure_.filled.end(), clean.filled.begin(), clean.filled.end());
    figure_.dropped.insert(figure_.dropped.end(), clean.dropped.begin(), clean.dropped.end());
    return std::move(clean.area);
  }

  /// One mark a place: a small cut-out is round too. False when there are too many fine places.
  bool mark(const Area& clean) {
    auto marks = fine_details(clean);
    if (!marks)
      return false;
    figure_.marks = *std::move(marks);
    std::vector<leaf::Contour> lines = figure_.cut_outs;
    lines.push_back(figure_.outline);
    const auto marked = [&](Point p) {
      return std::any_of(figure_.marks.begin(), figure_.marks.end(), [&](const Mark& mark) {
        return std::hypot(mark.place.x - p.x, mark.place.z - p.z) < fit::limit::knife_hole_mm;
      });
    };
    for (Mark& mark : tight_curves(lines))
      if (!marked(mark.place))
        figure_.marks.push_back(std::move(mark));
    return true;
  }

  std::variant<Figure, std::string> measure() {
    const Box box = leaf::bounds(figure_.outline);
    figure_.height_mm = box.height();
    figure_.width_mm = 2 * box.right;
    if (box.width() < leaf::narrowest_leaf_mm || box.height() < leaf::lowest_leaf_mm ||
        std::max(box.width(), box.height()) > leaf::largest_leaf_mm)
      return "The figure would be " + mm_text(2 * box.right) + " wide and " + mm_text(box.height()) +
             " high, which no leaf can be; give the height it should have.";
    return std::move(figure_);
  }

  static constexpr const char* ragged =
      "The figure's edge has too many teeth and slivers finer than a knife cuts; draw it smoother.";
  const Source& source_;
  const Wishes& wishes_;
  Figure figure_;
  Side side_ = Side::right;
};

std::string wrong_wish(const Wishes& wishes) {
  const int given = (wishes.height_mm ? 1 : 0) + (wishes.width_mm ? 1 : 0) + (wishes.distance ? 1 : 0);
  if (given > 1)
    return "Give one of height, width and a known distance, not several.";
  const auto wrong = [](const std::optional<double>& length) { return length && !(*length > 0 && *length <= 2000); };
  if (wrong(wishes.height_mm) || wrong(wishes.width_mm))
    return "Height and width must lie above 0 and at most at 2000 mm.";
  if (const auto& known = wishes.distance;
      known && (!(known->length_mm > 0) || !(std::hypot(known->to_x - known->from_x, known->to_y - known->from_y) > 0)))
    return "A known distance needs two different places and a length above 0.";
  if (!(wishes.tolerance_mm >= 0.02 && wishes.tolerance_mm <= 5))
    return "The tolerance must lie between 0.02 and 5 mm.";
  return {};
}

} // namespace

std::size_t points_of(const Figure& figure) {
  std::size_t points = figure.outline.segments.size() + 1;
  for (const leaf::Contour& cut_out : figure.cut_outs)
    points += cut_out.segments.size();
  return points;
}

std::variant<Found, std::string> silhouettes(std::string_view bytes, const Wishes& wishes) {
  if (std::string sentence = wrong_wish(wishes); !sentence.empty())
    return sentence;
  if (bytes.size() > most_bytes)
    return std::string("The file is larger than 64 MB; save it smaller.");
  auto read = read_source(bytes);
  if (auto* sentence = std::get_if<std::string>(&read))
    return std::move(*sentence);
  auto& source = std::get<Source>(read);
  std::stable_sort(source.areas.begin(), source.areas.end(),
                   [](const Area& a, const Area& b) { return area_of(a) > area_of(b); });
  Found found;
  found.kind = source.kind;
  found.page = source.page;
  found.notes = source.notes;
  const double least = speck_share * area_of(source.areas.front());
  std::size_t specks = 0, others = 0, tried = 0, points = 0;
  std::string first_fault;
  FigureMaker maker(source, wishes);
  for (const Area& piece : source.areas) {
    if (area_of(piece) < least) {
      ++specks;
      continue;
    }
    if (tried > 0)
      points += points_in({piece});
    if (tried == most_figures || points > most_points) {
      ++others;
      continue;
    }
    ++tried;
    auto figure = maker.make(piece);
    if (auto* made = std::get_if<Figure>(&figure))
      found.figures.push_back(std::move(*made));
    else if (first_fault.empty())
      first_fault = std::get<std::string>(figure);
  }
  if (found.figures.empty())
    return first_fault;
  if (others > 0)
    found.notes.push_back(std::to_string(others) +
                          (others == 1 ? " smaller figure was left out." : " smaller figures were left out."));
  if (specks > 0)
    found.notes.push_back(std::to_string(specks) + (specks == 1 ? " speck was left out." : " specks were left out."));
  return found;
}

} // namespace fanwright::traced
