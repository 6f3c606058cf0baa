#include "kit/check_page.h"

#include "kit/page_measures.h"

namespace fanwright::kit {

namespace {

using drawing::Point;

constexpr double edge_mm = 15, text_mm = 3;

/// Centres of the crosses: alike on both faces, as they lie symmetrically.
std::vector<Point> cross_centres(const paper::SheetSize& size) {
  constexpr double in = 10;
  return {{in, in}, {size.width_mm - in, in}, {in, size.height_mm - in}, {size.width_mm - in, size.height_mm - in}};
}

/// Names the blank page and heads it; the column goes on below the advice.
Column begun(MeasuredPage& measured, const paper::SheetSize& size, const char* shows, const std::string& title,
             const std::string& heading, const std::string& advice) {
  measured.shows = shows;
  measured.page = {size.width_mm, size.height_mm, {}};
  const double width = size.width_mm - 2 * edge_mm;
  Column column(measured.page, {edge_mm, edge_mm}, width);
  column.write(title, drawing::fitted_size_mm(title, width, 5, true), true);
  column.write(heading, 3.6, true);
  column.skip(2);
  column.write(advice, text_mm);
  column.skip(5);
  return column;
}

} // namespace

CheckPage check_page(const paper::SheetSize& size, const CheckWords& words, bool both_sides) {
  CheckPage result;
  MeasuredPage& measured = result.measured;
  Column column =
      begun(measured, size, "check", words.title, "Print and check this page first (" + words.number + ")",
            "Print it at 100 %, \"actual size\", never \"fit to page\". Then lay a ruler on the scale and along two "
            "sides of the square: 100 mm, 4 in and 50 mm must be what they say, to half a millimetre. A scale of 94 or "
            "97 mm tells that the page was fitted: switch that off. All leaves must be printed in the same way.");
  const double top = column.y();
  add_double_scale(measured, {edge_mm - 2, top});
  add_square(measured, {size.width_mm - edge_mm - square_mm, top});
  add_key(measured.page, {edge_mm, top + double_scale_height_mm + 7}, words.key);
  column.skip(square_mm + 7);
  for (const std::string& paragraph : words.paragraphs) {
    column.write(paragraph, text_mm);
    column.skip(2);
  }
  if (both_sides)
    add_crosses(measured.page, cross_centres(size));
  result.free_from_mm = column.y();
  return result;
}

MeasuredPage check_back(const paper::SheetSize& size, const CheckWords& words) {
  MeasuredPage measured;
  const Column column =
      begun(measured, size, "check back", words.title, "Back of the page to check first (" + words.number + ")",
            "Hold the sheet against the light: the crosses near its corners must meet those of the front, to 1 mm. If "
            "they do not, turn the sheets the other way, or print the fronts alone.");
  add_double_scale(measured, {edge_mm - 2, column.y()});
  add_square(measured, {size.width_mm - edge_mm - square_mm, column.y()});
  add_crosses(measured.page, cross_centres(size));
  return measured;
}

} // namespace fanwright::kit
