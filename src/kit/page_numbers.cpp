#include "kit/page_numbers.h"

#include <cmath>

namespace fanwright::kit {

namespace {

using Json = nlohmann::ordered_json;

double rounded(double value) { return std::round(value * 1e4) / 1e4 + 0.0; } // + 0.0 turns -0 into 0

Json pair(double x, double y) { return Json::array({rounded(x), rounded(y)}); }

Json scale_numbers(const Scale& scale) {
  return {{"zero_mm", pair(scale.zero.x, scale.zero.y)},
          {"length_mm", rounded(scale.length_mm)},
          {"runs", scale.upright ? "up" : "right"}};
}

Json leaf_numbers(const Place& place) {
  return {{"spine_foot_origin_mm", pair(place.origin.x, place.origin.y)},
          {"turn_deg", place.turn_deg},
          {"mirrored", place.mirrored}};
}

} // namespace

Json page_numbers(const MeasuredPage& measured) {
  Json page = {{"shows", measured.shows}};
  if (!measured.name.empty())
    page["name"] = measured.name;
  page["copies"] = measured.copies;
  page["page_mm"] = pair(measured.page.width_mm, measured.page.height_mm);
  const auto add_places = [&page](const char* key, const std::vector<Place>& places) {
    page[key] = Json::array();
    for (const Place& place : places)
      page[key].push_back(leaf_numbers(place));
  };
  add_places("leaves", measured.leaves);
  if (!measured.right_halves.empty() || !measured.left_halves.empty()) {
    add_places("right_halves", measured.right_halves);
    add_places("left_halves", measured.left_halves);
  }
  if (measured.part)
    page["window_mm"] =
        Json::array({pair(measured.part->left, measured.part->top), pair(measured.part->right, measured.part->bottom)});
  if (measured.millimetres)
    page["millimetres"] = scale_numbers(*measured.millimetres);
  if (measured.inches)
    page["inches"] = scale_numbers(*measured.inches);
  if (measured.square)
    page["square_corner_mm"] = pair(measured.square->x, measured.square->y);
  if (measured.left_side)
    page["square_sides"] = Json::array({scale_numbers(*measured.foot), scale_numbers(*measured.left_side)});
  return page;
}

} // namespace fanwright::kit
