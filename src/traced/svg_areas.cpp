#include "traced/svg_areas.h"

#include "leaf/contour.h"
#include "traced/along.h"
#include "traced/bitmap.h"
#include "traced/crossings.h"
#include "traced/outlines.h"
#include "traced/pieces.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace fanwright::traced {
namespace {

using leaf::Box;

Box joined_box(const Box& a, const Box& b) {
  return {std::min(a.left, b.left), std::max(a.right, b.right), std::min(a.bottom, b.bottom), std::max(a.top, b.top)};
}

constexpr Box nothing = {1e300, -1e300, 1e300, -1e300};

Box box_of(const PaintedShape& shape) {
  Box box = nothing;
  for (const leaf::Subpath& subpath : shape.subpaths)
    box = joined_box(box, leaf::bounds(leaf::Contour{subpath.start, subpath.segments}));
  return box;
}

class Painter {
public:
  explicit Painter(const SvgDrawing& drawing) : drawing_(drawing) {
    Box all = nothing;
    for (const PaintedShape& shape : drawing.shapes)
      all = joined_box(all, box_of(shape));
    size_ = std::max({all.width(), all.height(), 1e-3});
    choose_tolerance();
  }

  std::variant<Painted, std::string> paint() {
    if (std::string sentence = too_dense(); !sentence.empty())
      return sentence;
    find_ground();
    if (std::string sentence = too_many(); !sentence.empty())
      return sentence;
    std::vector<DrawnLine> lines;
    std::vector<Areas> clipped_lines;
    for (auto shape = drawing_.shapes.begin() + first_; shape != drawing_.shapes.end(); ++shape) {
      const Role role = role_of(*shape);
      if (role == Role::ink) {
        take_away();
        waiting_.push_back(area(*shape));
      } else if (role == Role::line) {
        shape->clips.empty() ? add_lines(*shape, lines) : clipped_lines.push_back(area(*shape));
      } else if (role == Role::ground) {
        settle();
        taken_.push_back(area(*shape));
      }
      if (work_ > most_work)
        return std::string("The drawing changes between ink and ground, or is clipped, too often to be a silhouette; "
                           "keep its outline and its cut-outs alone.");
    }
    settle();
    take_away();
    if (!add_outlines(std::move(lines), std::move(clipped_lines)))
      return std::string(tangled);
    result_.notes.insert(result_.notes.end(), drawing_.left_out.begin(), drawing_.left_out.end());
    return std::move(result_);
  }

private:
  static constexpr const char* tangled =
      "The drawing's lines cross one another in too many places to be a silhouette; keep its outline alone.";
  static constexpr double most_work = 1e6; ///< points gone over again and again: 500 changes on 2,000 points

  /// What a shape does to the figure.
  enum class Role { none, ink, ground, line };

  Role role_of(const PaintedShape& shape) const {
    if (is_ink(shape) || (!any_ink_ && shape.fill && !shape.stroke))
      return Role::ink;
    if (shape.stroke && !alike(*shape.stroke, ground_))
      return Role::line;
    return shape.fill ? Role::ground : Role::none;
  }

  /// Fine, as long as that does not make too many points.
  void choose_tolerance() {
    constexpr double fine_share = 2e-5, coarse_share = 1e-3, most_points = 300'000;
    const auto points = [&] {
      double count = 0;
      for (const PaintedShape& shape : drawing_.shapes)
        for (const leaf::Subpath& subpath : shape.subpaths)
          count += leaf::flattened_size({subpath.start, subpath.segments}, tolerance_);
      return count;
    };
    tolerance_ = fine_share * size_;
    while (tolerance_ < coarse_share * size_ && points() > most_points)
      tolerance_ *= 4;
  }

  /// Counts what is clipped together with what clips it.
  std::string too_dense() const {
    // Of one line; a square of 180 mm that is nothing but bridges of 2 mm and gaps of 1.5 mm has 103 times its side.
    constexpr double longest_line = 60;
    std::vector<Ring> rings;
    std::set<const Clip*> counted;
    const auto add = [&](const auto& again, const PaintedShape& shape) -> void {
      for (const leaf::Subpath& subpath : shape.subpaths)
        rings.push_back(ring_of(subpath));
      for (const auto& clip : shape.clips)
        if (counted.insert(clip.get()).second)
          for (const PaintedShape& part : clip->shapes)
            again(again, part);
    };
    for (const PaintedShape& shape : drawing_.shapes)
      add(add, shape);
    if (!rings.empty() && !crossings_of(rings))
      return tangled;
    for (const Ring& ring : rings) {
      const Box box = leaf::bounds(ring);
      if (length_of(ring, true) > longest_line * std::max(box.width(), box.height()))
        return "The drawing holds a line more than 60 times as long as it is large, too ragged to be cut from paper; "
               "draw it smoother.";
    }
    return {};
  }

  /// Pieces and cut-outs are counted before the work on them is begun.
  std::string too_many() const {
    std::vector<Box> added, taken;
    for (auto shape = drawing_.shapes.begin() + first_; shape != drawing_.shapes.end(); ++shape) {
      const Role role = role_of(*shape);
      for (const leaf::Subpath& subpath : shape->subpaths) {
        const Box box = leaf::bounds(leaf::Contour{subpath.start, subpath.segments});
        if (!shape->clips.empty() || (role == Role::line && !subpath.closed) || box.width() <= 0 || box.height() <= 0)
          continue;
        if (role != Role::none)
          (role == Role::ground ? taken : added).push_back(box);
      }
    }
    if (groups_of(std::move(added)) > most_rings)
      return "The SVG file shows more than 1000 separate pieces; keep the silhouette alone.";
    if (groups_of(std::move(taken)) > most_rings)
      return "The drawing has more than 1000 separate cut-outs; keep the larger ones.";
    return {};
  }

  bool is_ink(const PaintedShape& shape) const { return shape.fill && !alike(*shape.fill, ground_); }

  /// A first shape that covers the page, with others upon it, is no figure.
  void find_ground() {
    find_page();
    any_ink_ = std::any_of(drawing_.shapes.begin() + first_, drawing_.shapes.end(),
                           [&](const PaintedShape& shape) { return is_ink(shape); });
  }

  void find_page() {
    if (drawing_.shapes.size() < 2 || !drawing_.shapes.front().fill)
      return;
    const Box box = box_of(drawing_.shapes.front());
    const double slack = 0.002 * std::max(drawing_.width, drawing_.height);
    if (box.left > slack || box.bottom > slack || box.right < drawing_.width - slack ||
        box.top < drawing_.height - slack)
      return;
    first_ = 1;
    ground_ = *drawing_.shapes.front().fill;
    if (!alike(ground_, white()))
      result_.notes.emplace_back("A shape as large as the page was taken for its ground.");
  }

  Ring ring_of(const leaf::Subpath& subpath) const {
    leaf::Contour contour{subpath.start, subpath.segments};
    if (!subpath.closed)
      contour.segments.emplace_back(leaf::Line{subpath.start});
    Ring ring = leaf::flatten(contour, tolerance_);
    for (Point& p : ring)
      p.z = -p.z;
    return ring;
  }

  Areas area(const PaintedShape& shape) {
    std::vector<Ring> rings;
    for (const leaf::Subpath& subpath : shape.subpaths)
      rings.push_back(ring_of(subpath));
    return within(filled(rings, shape.rule), shape.clips);
  }

  Areas within(Areas areas, const std::vector<std::shared_ptr<const Clip>>& clips) {
    for (const auto& clip : clips) {
      const Areas& window = area(*clip);
      work_ += static_cast<double>(points_in(window) + points_in(areas));
      areas = shared(areas, window);
    }
    return areas;
  }

  const Areas& area(const Clip& clip) {
    const auto known = clips_.find(&clip);
    if (known != clips_.end())
      return known->second;
    std::vector<Areas> parts;
    for (const PaintedShape& shape : clip.shapes)
      parts.push_back(area(shape));
    return clips_[&clip] = within(united(parts), clip.within);
  }

  void settle() {
    if (waiting_.empty())
      return;
    work_ += static_cast<double>(points_in(result_.areas));
    waiting_.push_back(std::move(result_.areas));
    result_.areas = united(waiting_);
    waiting_.clear();
  }

  void take_away() {
    if (!taken_.empty() && !result_.areas.empty()) {
      work_ += static_cast<double>(points_in(result_.areas));
      result_.areas = without(result_.areas, united(taken_));
    }
    taken_.clear();
  }

  void add_lines(const PaintedShape& shape, std::vector<DrawnLine>& lines) const {
    for (const leaf::Subpath& subpath : shape.subpaths)
      lines.push_back({ring_of(subpath), subpath.closed});
  }

  /// False when they meet too often.
  bool add_outlines(std::vector<DrawnLine> lines, std::vector<Areas> outlines) {
    constexpr double gap_share = 0.01; // ends this near were meant to meet
    constexpr std::size_t most_nested = 300;
    Joined chains = joined(std::move(lines), gap_share * size_);
    // Open lines on a filled figure are decoration.
    if (chains.straight_closing > 0 && !result_.areas.empty()) {
      chains.rings.clear();
      ++chains.left_open;
    }
    report(chains);
    for (const Ring& ring : chains.rings) {
      Areas areas = filled({ring}, FillRule::nonzero);
      if (area_of(areas) > 1e-6 * size_ * size_)
        outlines.push_back(std::move(areas));
    }
    if (outlines.empty())
      return true;
    const auto all = outlines.size() > most_nested ? united(outlines) : nested(outlines);
    if (all)
      result_.areas = result_.areas.empty() ? *all : united(result_.areas, *all);
    return all.has_value();
  }

  void report(const Joined& chains) {
    if (chains.left_open > 0)
      result_.notes.push_back(std::to_string(chains.left_open) + (chains.left_open == 1
                                                                      ? " line that encloses nothing was left out."
                                                                      : " lines that enclose nothing were left out."));
    if (chains.straight_closing > gap_worth_telling() && !chains.rings.empty())
      result_.notes.emplace_back("The outline is open; it was closed by a straight line from its end to its start.");
    else if (chains.widest_gap > gap_worth_telling())
      result_.notes.push_back("Lines were joined whose ends lay apart (" + std::to_string(chains.joints) + ").");
  }

  double gap_worth_telling() const { return 1e-4 * size_; }

  const SvgDrawing& drawing_;
  double size_ = 1, tolerance_ = 1;
  std::ptrdiff_t first_ = 0; ///< the first shape that is not the ground
  bool any_ink_ = false;
  Paint ground_ = white();
  std::vector<Areas> waiting_; ///< painted one after the other, still to be united
  std::vector<Areas> taken_;   ///< painted over in the ground's colour, still to be taken away
  double work_ = 0;            ///< points gone over: each change between ink and ground goes over all that is painted
  Painted result_;
  std::map<const Clip*, Areas> clips_;
};

} // namespace

std::variant<Painted, std::string> painted(const SvgDrawing& drawing) { return Painter(drawing).paint(); }

} // namespace fanwright::traced
