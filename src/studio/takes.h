// What one size takes: paper, sheets, glue, hours, money.
#pragma once

#include "fit/follow.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::studio {

/// One layout of a sheet as a small picture, and how many sheets are cut like it.
struct LayoutPicture {
  int sheets = 1;
  std::string svg; ///< 1 unit is 1 mm
};

struct Takes {
  std::string size;
  int leaves = 0;
  double grammage_gsm = 0;
  double height_mm = 0, diameter_mm = 0; ///< once open
  int sheets = 0, per_sheet = 0;
  std::string sheet; ///< "A4"
  std::vector<LayoutPicture> layouts;
  double glue_g = 0;
  int joints = 0;
  double hours = 0;    ///< hands-on, for one piece
  double weight_g = 0; ///< of the finished piece
  struct Money {
    std::string currency;
    double materials = 0, labour = 0, total = 0, price = 0;
  };
  std::optional<Money> cost; ///< empty where the design holds no prices
  std::string problem;       ///< why the leaves cannot be laid out; the rest is then without sheets
};

/// All from the followed leaf and form, by the ways the kit uses.
Takes takes(const design::Design& design, const fit::Followed& followed);

/// A size whose leaf or form was not found.
Takes no_takes(const design::Size& size, const std::string& problem);

} // namespace fanwright::studio
