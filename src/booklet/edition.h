// The contents in one language on one size of page, and the parts of the booklet made from them.
#pragma once

#include "booklet/block.h"
#include "booklet/booklet.h"
#include "booklet/catalogue.h"

#include <functional>
#include <string>

namespace fanwright::booklet {

struct Edition {
  const Contents& contents;
  Language language;
  Look look;

  const design::Design& design() const { return *contents.design; }
  std::string say(Message message, const Values& values = {}) const { return language.say(message, values); }
};

/// "A4", or width × height of a sheet that has no trade name.
std::string sheet_words(const Edition& edition, const design::Sheet& sheet);

/// What holds for all sizes alike, said once; else each with its size's name behind it. Refers to the tables where
/// there are more than four sizes.
std::string for_each_size(const Edition& edition, const std::function<std::string(const SizeFacts&)>& words);

/// Amounts below 10 g to the tenth: they are weighed or guessed, never more exact.
std::string grams(const Edition& edition, double mass_g);

/// How the grain lies in the leaf.
Message grain_of(const paper::Paper& paper);

/// Number of the leaf's rows on one side.
int rows_on(const leaf::Leaf& leaf, design::Side side);

/// The first page: title, picture, sizes, maker, version.
drawing::Page cover_page(const Edition& edition);

Blocks idea_blocks(const Edition& edition);
Blocks needs_blocks(const Edition& edition);
Blocks size_blocks(const Edition& edition);
Blocks file_blocks(const Edition& edition);
Blocks step_blocks(const Edition& edition);
Blocks round_blocks(const Edition& edition);

/// The time plan as pictures, one for each size, with a legend. `schedule` chooses which of a size's schedules.
Blocks plan_blocks(const Edition& edition, making::Schedule SizeFacts::*schedule);
Blocks time_blocks(const Edition& edition);
Blocks caution_blocks(const Edition& edition);
Blocks licence_blocks(const Edition& edition);

/// For the maker's own pages.
Blocks batch_blocks(const Edition& edition);
Blocks cost_blocks(const Edition& edition);

} // namespace fanwright::booklet
