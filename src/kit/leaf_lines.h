// A leaf drawn on a page: its cuts, and its glue places in the ways the faces and the readers need them.
#pragma once

#include "kit/leaf_cuts.h"
#include "kit/place.h"

#include <string>

namespace fanwright::kit {

/// Cuts, and where they lie on a page.
struct LaidCuts {
  const LeafCuts* cuts = nullptr;
  Place place;
};

/// Draws them in the order a machine should make them: scores first; of the cuts, what lies inside before what lies
/// around it, small before large.
void add_cuts(drawing::Page& page, const std::vector<LaidCuts>& laid);

/// The same for several like leaves.
void add_cuts(drawing::Page& page, const LeafCuts& cuts, const std::vector<Place>& places);

/// framed: the outline alone, which is all that a pen in a machine should draw; hatched: outline and lines across, to
/// be told apart without colour; corners: four small angles, the least that says where it is.
enum class GlueLook { framed, hatched, corners };

/// Draws the rows of one face. Every strip is drawn `inset_mm` smaller all round, but never less than half as wide.
void add_rows(drawing::Page& page, const leaf::Marks& marks, leaf::Face face, const Place& place, GlueLook look,
              double inset_mm = 0);

/// Draws a strip of glue on the inner or outer face, corners counter-clockwise.
void add_strip(drawing::Page& page, leaf::Face face, const std::array<leaf::Point, 4>& corners, const Place& place,
               GlueLook look);

/// Like add_rows with the inner face hatched, and the words set into the longest level strip of the right half, where
/// they are glued over. False when no strip holds them (or the leaf lies sideways): then they are left out.
bool add_inside_rows_with_name(drawing::Page& page, const leaf::Marks& marks, const Place& place,
                               const std::string& words);

} // namespace fanwright::kit
