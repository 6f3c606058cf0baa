// Words and signs beside the leaves: headings, the key to the lines, the grain.
#pragma once

#include "drawing/drawing.h"
#include "kit/free_room.h"

#include <string>
#include <vector>

namespace fanwright::kit {

/// Lines of text down a page, each paragraph broken to fit; in Step::legend.
class Column {
public:
  /// `top_left` is the top left corner of the first line.
  Column(drawing::Page& page, const drawing::Point& top_left, double width_mm);

  void write(const std::string& paragraph, double size_mm, bool bold = false);
  void skip(double mm) { y_ += mm; }
  double y() const { return y_; } ///< below everything written so far

private:
  drawing::Page& page_;
  double left_, y_, width_;
};

/// "1 leaf", "2 leaves".
std::string counted(std::size_t count, const std::string& one, const std::string& many);

/// Title and one line of words: in the free room nearest to the top left, or small in the top margin, which is
/// `margin_mm` wide.
void add_heading(drawing::Page& page, FreeRoom& room, double margin_mm, const std::string& title,
                 const std::string& words);

/// How a key shows one kind of line.
enum class Sample {
  cut,
  score,
  reverse_score,
  inside_framed,
  inside_hatched,
  between_framed,
  between_hatched,
  between_corners
};

struct KeyLine {
  Sample sample = Sample::cut;
  std::string words;
};

inline constexpr double key_line_mm = 5.5; ///< from one line of a key to the next

/// Each line's look with its words; `left` is where the first sample's middle begins. Samples are part of the notes.
void add_key(drawing::Page& page, const drawing::Point& left, const std::vector<KeyLine>& lines);

inline constexpr double grain_width_mm = 12,
                        grain_height_mm = 28; ///< box of the upright arrow; lying, the other way round

/// The grain's arrow in the free room nearest to `wish`, where there is any.
void add_grain(drawing::Page& page, FreeRoom& room, const drawing::Point& wish, bool upright);

/// An arrow with two heads along the grain and its name; `corner` is the top left of its box.
void add_grain(drawing::Page& page, const drawing::Point& corner, bool upright);

} // namespace fanwright::kit
