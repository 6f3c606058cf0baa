// What of a drawing is seen through a window: for drawings larger than a page.
#pragma once

#include "kit/place.h"

#include <vector>

namespace fanwright::kit {

/// The points of a path's curves, chords within 0.005 mm; one list for each stretch between moves.
std::vector<std::vector<drawing::Point>> chords_of(const drawing::Path& path);

/// The items inside the window, moved so that its top left corner comes to lie at `corner`. Paths wholly inside stay
/// exact, others are cut off at the window's edge and become chords; text stays where its baseline begins inside.
std::vector<drawing::Item> seen_through(const std::vector<drawing::Item>& items, const PageBox& window,
                                        const drawing::Point& corner);

} // namespace fanwright::kit
