#include "fit/compare_causes.h"

#include "fit/advice_wording.h"
#include "leaf/contour.h"
#include "leaf/sentence.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fanwright::fit {
namespace {

using leaf::in_mm;

/// Small deviations are common and gross mistakes are not as rare as a bell curve has it: minus twice the logarithm of
/// a Student density of two degrees of freedom, beside its peak.
double doubt_of(double usual_deviations) { return std::sqrt(3 * std::log1p(usual_deviations * usual_deviations / 2)); }

/// Leaves are miscounted by one or two; or a whole packet of a gluing round, 4, 8 or 16, is left out.
double doubt_of_leaves(int more) {
  constexpr double of_a_packet = 2;
  const bool packet = more == -4 || more == -8 || more == -16;
  return packet ? std::min(of_a_packet, doubt_of(more)) : doubt_of(more);
}

/// A page that a printer has fitted to other paper.
struct Fitted {
  double scale;
  const char* how;
  bool metric; ///< happens to pages of A4 rather than letter
};

/// Page sizes: ISO 216 and ASME Y14.1. 279.4/297; 210/215.9; A4 and letter into margins of 4.233 mm and 1/4 in
/// (printers' driver notes): (210 - 8.467) / 210, (215.9 - 12.7) / 215.9.
constexpr std::array<Fitted, 4> fitted = {{{0.940741, "an A4 page on letter paper", true},
                                           {0.972673, "a letter page on A4 paper", false},
                                           {0.959683, "an A4 page shrunk to the printer's margins", true},
                                           {0.941176, "a letter page shrunk to the printer's margins", false}}};

double flat_height(const opened::Panel& panel) { return leaf::bounds(panel.outline).height(); }

std::string leaf_check(const opened::Panel& panel, double scale) {
  const double height = flat_height(panel);
  return "measure a flat leaf from end to end: it should be " + in_mm(height) + " high, and would be " +
         in_mm(scale * height);
}

void add_scales(std::vector<Trial>& list, Neighbours& near, const design::Size& size) {
  const auto open = [&near](double scale) { return near.scaled(scale); };
  const auto check = [&near](double scale) { return leaf_check(near.panel(), scale); };
  const bool metric = size.sheet.name.starts_with("A") || size.sheet.name.starts_with("B");
  for (const Fitted& page : fitted) {
    // Half again as unlikely when the design's own sheets are not of that kind.
    const double doubt = page.metric == metric ? 1.0 : 1.5;
    list.push_back({Cause::fitted_to_page, 1, page.scale, page.scale, 0, false, open, [doubt](double) { return doubt; },
                    [page](double scale) {
                      return "The templates were printed with \"fit to page\": " + std::string(page.how) +
                             " comes out at " + percent(scale, 2) + ".";
                    },
                    [check](double scale) {
                      return check(scale) + "; the ruler on the printed page shows it too. Print at 100 %";
                    }});
  }
  // Good printers are off by 0.1 to 0.5 %, copiers by 1.6 % and more (common practice, no source).
  list.push_back(
      {Cause::cut_scale, 1, 0.7, 1.4, 0.02, false, open, [](double scale) { return doubt_of(std::log(scale) / 0.005); },
       [](double scale) { return "The leaves were cut at " + percent(scale, 1) + " of their size."; }, check});
}

void add_rows(std::vector<Trial>& list, Neighbours& near) {
  const std::vector<leaf::GlueRow>& rows = near.panel().rows;
  double clear = 1e9;
  for (std::size_t k = 0; k + 1 < rows.size(); ++k) {
    clear = std::min(clear, rows[k + 1].from.z - rows[k].from.z - rows[k].width_mm);
  }
  const double width = rows.front().width_mm;
  const double foot = near.form().edge.front().z;
  const double top = near.form().edge.back().z;
  const double room = std::min(rows.front().from.z - foot, top - rows.back().from.z) - width / 2;
  list.push_back({Cause::wide_glue, 0, -0.7 * width, std::max(0.0, std::min(0.7 * clear, 2 * width)), 1, false,
                  [&near](double by) { return near.with_rows_wider(by); }, [](double by) { return doubt_of(by / 0.8); },
                  [width](double by) {
                    return "The glue took hold over " + in_mm(width + by) + " instead of " + in_mm(width) +
                           (by > 0 ? ": it was squeezed out of the rows." : ": the rows were not filled.");
                  },
                  [](double) { return std::string("open a few cells wide and measure a glue row"); }});
  list.push_back({Cause::moved_rows, 0, -std::max(0.0, room), std::max(0.0, room), std::min(1.0, room / 2), false,
                  [&near](double up) { return near.with_rows_moved(up); }, [](double up) { return doubt_of(up / 0.7); },
                  [](double up) {
                    return "All glue rows sit " + in_mm(std::abs(up)) + (up > 0 ? " too high" : " too low") +
                           " on the leaves.";
                  },
                  [](double) { return std::string("measure from the foot of a leaf to its lowest glue row"); }});
  list.push_back({Cause::stencil_scale, 1, 0.9, 1.0, -0.03, false,
                  [&near](double scale) { return near.with_rows_scaled(scale); },
                  [](double scale) { return doubt_of(std::log(scale) / 0.015); },
                  [](double scale) {
                    return "The glue rows were set with a stencil at " + percent(scale, 1) +
                           " of its size, on leaves of the right size.";
                  },
                  [](double) { return std::string("lay the stencil on the printed ruler: 100 mm must be 100 mm"); }});
}

void add_wedge(std::vector<Trial>& list, Neighbours& near, const design::Size& size) {
  const int leaves = size.leaves;
  list.push_back({Cause::leaf_count, 1.0 * leaves, std::max(2.0, std::floor(0.5 * leaves)), std::ceil(1.6 * leaves),
                  std::max(2.0, std::round(0.1 * leaves)), true,
                  [&near](double count) { return near.with_leaves(static_cast<int>(std::lround(count))); },
                  [leaves](double count) { return doubt_of_leaves(static_cast<int>(std::lround(count)) - leaves); },
                  [leaves](double count) {
                    return "It has " + number(count, 0) + " leaves instead of " + std::to_string(leaves) + ".";
                  },
                  [](double) { return std::string("count the folds on the axis, from above"); }});
  const double opening = size.opening_deg;
  const double most = opening >= 359.5 ? opening : std::min(360.0, 1.3 * opening);
  list.push_back(
      {Cause::opening, opening, 0.6 * opening, most, -20, false,
       [&near](double degrees) { return near.with_opening(degrees); },
       [opening](double degrees) { return doubt_of((degrees - opening) / 15); },
       [opening](double degrees) {
         return "It is opened through " + number(degrees, 0) + " instead of " + number(opening, 0) + " degrees.";
       },
       [opening](double) {
         return std::string(opening >= 359.5 ? "look from above: is there a gap at the seam, or an uneven place"
                                             : "measure the angle between the first leaf and the last");
       }});
}

void add_paper(std::vector<Trial>& list, Neighbours& near, const design::Size& size) {
  const double caliper = size.paper.caliper_mm;
  list.push_back({Cause::caliper, caliper, 0.4 * caliper, 2.5 * caliper, 0.25 * caliper, false,
                  [&near](double thickness) { return near.with_caliper(thickness); },
                  [caliper](double thickness) { return doubt_of(std::log(thickness / caliper) / 0.1); },
                  [caliper](double thickness) {
                    return "The paper is " + number(thickness, 3) + " mm thick instead of " + number(caliper, 3) +
                           " mm (or as much " + (thickness > caliper ? "stiffer" : "softer") + ").";
                  },
                  [](double) { return std::string("measure a stack of ten sheets and divide by ten"); }});
  list.push_back({Cause::stiffness, 1, 0.25, 4, 0.4, false,
                  [&near](double factor) { return near.with_bending(factor); },
                  [](double factor) { return doubt_of(std::log(factor) / 0.3); },
                  [](double factor) {
                    return "The paper is " + number(factor, 2) + " times as stiff in bending as the file has it.";
                  },
                  [](double) { return std::string("measure its droop: fanwright droop"); }});
  list.push_back({Cause::creases, 0, 0, 1, 1, false, [&near](double share) { return near.creased(share); },
                  [](double share) { return 0.7 * share; },
                  [](double share) {
                    return "The paper has kept a sharp crease along the glue rows (" + percent(share, 0) +
                           " of the way to a full crease).";
                  },
                  [](double) { return std::string("look into a cell: does the paper turn sharply beside the glue"); }});
  // Per % of relative humidity, along and across the grain: card of a published specification grows by at most 0.25 and
  // 0.70 % from 20 to 75 % (Tabulating card stock manufacturing specifications); grain along the spine or across it.
  const bool upright = size.paper.grain == paper::Grain::along_spine;
  const double across = (upright ? 0.70 : 0.25) / 55 / 100;
  const double along = (upright ? 0.25 : 0.70) / 55 / 100;
  list.push_back(
      {Cause::humidity, 0, -40, 40, 20, false,
       [&near, across, along](double change) { return std::optional(near.grown(across * change, along * change)); },
       [](double change) { return 0.7 + doubt_of(change / 15); },
       [](double change) {
         return "The air is " + number(std::abs(change), 0) + " % relative humidity " +
                (change > 0 ? "damper" : "drier") + " than when the leaves were cut.";
       },
       [](double) { return std::string("measure again after a day in a room of about 50 % humidity"); }});
}

} // namespace

std::vector<Trial> trials(Neighbours& neighbours, const design::Size& size) {
  std::vector<Trial> list;
  add_scales(list, neighbours, size);
  add_wedge(list, neighbours, size);
  add_paper(list, neighbours, size);
  add_rows(list, neighbours);
  return list;
}

} // namespace fanwright::fit
