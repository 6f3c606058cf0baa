// Which parts of a page are still free, to find room for rulers, keys and notes beside the leaves.
#pragma once

#include "kit/place.h"

#include <optional>
#include <vector>

namespace fanwright::kit {

class FreeRoom {
public:
  /// All of the page but a rim of `margin_mm` is free. Pages up to 3 m are told apart in cells of half a millimetre.
  FreeRoom(double width_mm, double height_mm, double margin_mm);

  /// Takes the area inside a closed ring and its edge.
  void take(const std::vector<drawing::Point>& ring);
  /// The same with the breathing space around it, so that no note touches it.
  void take_widely(const std::vector<drawing::Point>& ring);
  void take(const PageBox& box);
  /// Takes a box and the breathing space around it, so that notes do not touch each other.
  void take_note(const drawing::Point& corner, double width_mm, double height_mm);
  /// Takes the cells along an open line.
  void take_line(const std::vector<drawing::Point>& points);
  /// Takes what is taken on the other face of the same sheet, seen from this one (mirrored left to right).
  void take_mirrored(const FreeRoom& other_face);

  /// Top left corner of a free box of this size, the one nearest to `wished` (its own top left corner); empty when
  /// there is none. The box found is free by at least half a cell all round.
  std::optional<drawing::Point> find(double width_mm, double height_mm, const drawing::Point& wished) const;

private:
  int column(double x) const;
  int row(double y) const;
  void take_cell(int column, int row);

  int columns_, rows_;
  std::vector<unsigned char> taken_;
};

} // namespace fanwright::kit
