// Found with a summed-area table, so that each candidate costs four look-ups.
#include "kit/free_room.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace fanwright::kit {

namespace {

constexpr double cell_mm = 0.5;
constexpr double largest_page_mm = 3000;
constexpr double breath_mm = 1.5;

int cells(double length_mm) { return std::max(1, static_cast<int>(std::min(length_mm, largest_page_mm) / cell_mm)); }

} // namespace

FreeRoom::FreeRoom(double width_mm, double height_mm, double margin_mm)
    : columns_(cells(width_mm)), rows_(cells(height_mm)),
      taken_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), 0) {
  const int rim = static_cast<int>(std::ceil(margin_mm / cell_mm));
  for (int r = 0; r < rows_; ++r)
    for (int c = 0; c < columns_; ++c)
      if (c < rim || r < rim || c >= columns_ - rim || r >= rows_ - rim)
        take_cell(c, r);
}

int FreeRoom::column(double x) const {
  return static_cast<int>(std::clamp(std::floor(x / cell_mm), -1.0, columns_ + 0.0));
}
int FreeRoom::row(double y) const { return static_cast<int>(std::clamp(std::floor(y / cell_mm), -1.0, rows_ + 0.0)); }

void FreeRoom::take_cell(int c, int r) {
  if (c >= 0 && r >= 0 && c < columns_ && r < rows_)
    taken_[static_cast<std::size_t>(r) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(c)] = 1;
}

void FreeRoom::take(const PageBox& box) {
  for (int r = row(box.top); r <= row(box.bottom); ++r)
    for (int c = column(box.left); c <= column(box.right); ++c)
      take_cell(c, r);
}

void FreeRoom::take_note(const drawing::Point& corner, double width_mm, double height_mm) {
  take(PageBox{corner.x - breath_mm, corner.y - breath_mm, corner.x + width_mm + breath_mm,
               corner.y + height_mm + breath_mm});
}

void FreeRoom::take_line(const std::vector<drawing::Point>& points) {
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const drawing::Point &p = points[i], &q = points[i + 1];
    const int steps = static_cast<int>(std::min(1e5, std::hypot(q.x - p.x, q.y - p.y) / (cell_mm / 2))) + 1;
    for (int k = 0; k <= steps; ++k) {
      const double t = static_cast<double>(k) / steps;
      take_cell(column(p.x + (q.x - p.x) * t), row(p.y + (q.y - p.y) * t));
    }
  }
}

void FreeRoom::take(const std::vector<drawing::Point>& ring) {
  const std::size_t count = ring.size();
  double top = 1e9, bottom = -1e9;
  for (std::size_t i = 0; i < count; ++i) {
    const drawing::Point &p = ring[i], &q = ring[(i + 1) % count];
    top = std::min(top, p.y), bottom = std::max(bottom, p.y);
    take_line({p, q});
  }
  std::vector<double> crossings;
  for (int r = std::max(0, row(top)); r <= std::min(rows_ - 1, row(bottom)); ++r) {
    const double y = (r + 0.5) * cell_mm;
    crossings.clear();
    for (std::size_t i = 0; i < count; ++i) {
      const drawing::Point &p = ring[i], &q = ring[(i + 1) % count];
      if ((p.y < y) != (q.y < y))
        crossings.push_back(p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y));
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2)
      for (int c = column(crossings[i]); c <= column(crossings[i + 1]); ++c)
        take_cell(c, r);
  }
}

void FreeRoom::take_widely(const std::vector<drawing::Point>& ring) {
  for (const drawing::Point& shift : {drawing::Point{-breath_mm, -breath_mm},
                                      {breath_mm, -breath_mm},
                                      {breath_mm, breath_mm},
                                      {-breath_mm, breath_mm}}) {
    std::vector<drawing::Point> shifted = ring;
    for (drawing::Point& point : shifted)
      point = {point.x + shift.x, point.y + shift.y};
    take(shifted);
  }
  take(ring);
}

void FreeRoom::take_mirrored(const FreeRoom& other_face) {
  // A page's width need not be a whole number of cells: a cell may meet two of the other face's.
  for (int r = 0; r < std::min(rows_, other_face.rows_); ++r)
    for (int c = 0; c < other_face.columns_; ++c)
      if (other_face.taken_[static_cast<std::size_t>(r) * static_cast<std::size_t>(other_face.columns_) +
                            static_cast<std::size_t>(c)] != 0) {
        take_cell(columns_ - 1 - c, r);
        take_cell(columns_ - c, r);
      }
}

std::optional<drawing::Point> FreeRoom::find(double width_mm, double height_mm, const drawing::Point& wished) const {
  const auto stride = static_cast<std::size_t>(columns_) + 1;
  std::vector<int> sums(stride * (static_cast<std::size_t>(rows_) + 1), 0);
  const auto at = [&](int c, int r) -> int& {
    return sums[static_cast<std::size_t>(r) * stride + static_cast<std::size_t>(c)];
  };
  for (int r = 0; r < rows_; ++r)
    for (int c = 0; c < columns_; ++c)
      at(c + 1, r + 1) =
          at(c, r + 1) + at(c + 1, r) - at(c, r) +
          taken_[static_cast<std::size_t>(r) * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(c)];
  const int wide = static_cast<int>(std::ceil(width_mm / cell_mm)) + 1;
  const int high = static_cast<int>(std::ceil(height_mm / cell_mm)) + 1;
  std::optional<drawing::Point> best;
  double nearest = 1e18;
  for (int r = 0; r + high <= rows_; ++r)
    for (int c = 0; c + wide <= columns_; ++c) {
      const drawing::Point corner{(c + 0.5) * cell_mm, (r + 0.5) * cell_mm};
      const double distance = std::hypot(corner.x - wished.x, corner.y - wished.y);
      if (distance < nearest && at(c + wide, r + high) - at(c, r + high) - at(c + wide, r) + at(c, r) == 0) {
        nearest = distance;
        best = corner;
      }
    }
  return best;
}

} // namespace fanwright::kit
