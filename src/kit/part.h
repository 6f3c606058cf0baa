// All that is computed for one size of the design before anything is drawn.
#pragma once

#include "fan/seated_fans.h"
#include "kit/fan_sheets.h"
#include "kit/halves.h"
#include "kit/kit.h"
#include "leaf/marks.h"
#include "opened/opened.h"
#include "opened/spread.h"
#include "sheets/sheets.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::kit {

struct Part {
  const design::Size* size = nullptr; ///< of the design that was handed in
  std::string folder;                 ///< folder name, unique in the kit
  leaf::Leaf leaf;
  leaf::Marks marks;
  leaf::Ring outline; ///< of the whole unfolded leaf, chords within 0.001 mm
  double left_mm = 0, bottom_mm = 0, width_mm = 0, height_mm = 0; ///< the leaf's box in leaf coordinates
  opened::Form form;
  std::optional<opened::Spread> spread; ///< how far the made piece may differ from `form`; empty: none could be told
  std::vector<std::string> remarks;     ///< sentences on what comes near to the wanted outline, not up to it
  sheets::Plan plan;                    ///< of whole leaves; empty when `halves` are cut
  std::optional<Halves> halves;         ///< where the sheet does not take the leaf whole
  std::vector<fan::SizedFan> fans;
  std::vector<FanLayout> fan_layouts; ///< on the size's sheet
  std::vector<fan::SeatedFan> seats;  ///< of those fans that have a seat
  std::optional<fan::Figure> figure;  ///< with the seated fans; empty where there are none
};

/// The leaf and its layout, with the form of a leaf that is derived. Takes milliseconds for a flat outline, seconds for
/// an opened one; a refusal names changes that were tried, which takes seconds more. With a lap (mm, 0: none) a leaf
/// that its sheet does not take whole is cut as two halves.
std::variant<Part, Problem> planned(const design::Design& design, const design::Size& size,
                                    const std::function<void(double)>& progress, const std::function<bool()>& cancelled,
                                    double lap_mm = 0);

/// The same for a leaf that is known already; its fans are left empty.
std::variant<Part, Problem> laid_out(const design::Size& size, leaf::Leaf leaf, double lap_mm = 0);

/// Computes the part's opened form, if it is not known yet, and its spread. `progress` gets 0..1.
std::optional<Problem> open(Part& part, const std::function<void(double)>& progress,
                            const std::function<bool()>& cancelled);

/// Puts the fans of an opened part in their seats.
std::optional<Problem> take_seats(const design::Design& design, Part& part);

/// What to say when the caller asked to stop.
Problem stopped();

} // namespace fanwright::kit
