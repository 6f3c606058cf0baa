// What the booklet tells of seats.
#include "booklet/told.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace fanwright::booklet {
namespace {

/// The moth's wings in a seat that is made up: two leaf edges for each wing.
fan::SeatedFan wings_of(const fan::SizedFan& sized, double length_mm) {
  const fan::Placed placed{{{}, {fan::Point3{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}, sized.made.spread, sized.made.strip};
  fan::SeatedFan wings;
  wings.seated.fans = {placed, placed};
  wings.seated.azimuth_deg = 92;
  wings.seated.taken_deg = 101.3;
  wings.seated.neck_clear_mm = 3;
  wings.seated.glued = {{10, 1, 172, 181, length_mm, false},
                        {10, 2, 172, 181, length_mm - 2, false},
                        {31, 2, 172, 181, length_mm, false},
                        {31, 1, 172, 181, length_mm - 2, false}};
  return wings;
}

struct Seats {
  std::unique_ptr<Told> all = told(example("moth"));
  std::vector<std::vector<fan::SeatedFan>> of_sizes;
  Seats() {
    of_sizes.resize(all->contents.sizes.size());
    for (std::size_t i = 0; i < of_sizes.size(); ++i) {
      of_sizes[i] = {wings_of(all->fans[i].front(), 15)};
      all->contents.sizes[i].seats = &of_sizes[i];
      all->contents.sizes[i].figure = fan::Figure{228 + static_cast<double>(i), 101, 267, {}};
    }
  }
  std::string words(std::string_view language) const {
    std::string one_line = words_of(pages(all->contents, PageSize::a4, language));
    for (char& letter : one_line)
      letter = letter == '\n' ? ' ' : letter;
    return one_line;
  }
};

bool has(const std::string& words, const std::string& wanted) { return words.find(wanted) != std::string::npos; }

TEST(booklet_seats, the_step_says_where_and_to_which_leaf_edges_a_wing_is_glued) {
  const Seats seats;
  const std::string words = seats.words("en");
  EXPECT_TRUE(has(words, "below the neck")) << words;
  EXPECT_TRUE(has(words, "at the figure's own right side"));
  EXPECT_TRUE(has(words, "right: leaf 10, both halves; left: leaf 31, both halves; over"));
  EXPECT_TRUE(has(words, "spread it evenly to 101°"));
  EXPECT_TRUE(has(words, "Its last pleat stays free."));
  // Gluing by guess is for fans without a seat.
  EXPECT_FALSE(has(words, "where the fan begins"));
}

TEST(booklet_seats, sizes_tell_how_large_the_figure_is_with_its_fans) {
  const Seats seats;
  for (const char* language : {"en", "de"}) {
    const std::string words = seats.words(language);
    EXPECT_TRUE(has(words, "228 × 267")) << language;
    EXPECT_TRUE(has(words, "229 × 267")) << language;
  }
  EXPECT_FALSE(has(words_of(pages(told(example("moth"))->contents, PageSize::a4, "en")), "With fans"));
}

TEST(booklet_seats, a_last_pleat_on_the_head_is_told_with_its_own_edges) {
  Seats seats;
  for (std::size_t i = 0; i < seats.of_sizes.size(); ++i) {
    seats.all->fans[i].front().seat->last_on_head = true;
    auto& glued = seats.of_sizes[i].front().seated.glued;
    glued = {glued[0], {11, 1, 200, 206, 6, true}, glued[2], {30, 2, 200, 206, 6, true}};
  }
  const std::string words = seats.words("en");
  EXPECT_TRUE(has(words, "until its last pleat meets the head")) << words;
  EXPECT_TRUE(has(words, "leaf 11, half 1"));
  EXPECT_TRUE(has(words, "leaf 30, half 2"));
}

TEST(booklet_seats, the_figure_shows_the_seat_on_the_outline) {
  const Seats seats;
  Subject subject = seats.all->contents.figures;
  const Sketch without = sketch(Scene::fan_spreading, subject);
  opened::Form form;
  form.diameter_mm = 100;
  form.edge = {{0, 0, 0, 0}, {50, 60, 50, 60}, {20, 190, 20, 190}, {30, 215, 30, 215}, {0, 240, 0, 240}};
  subject.seated = &seats.of_sizes.back().front().seated;
  subject.form = &form;
  const Sketch with = sketch(Scene::fan_spreading, subject);
  EXPECT_GT(with.items.size(), without.items.size());
  EXPECT_EQ(std::ranges::count(with.callouts, Part::seat, &Callout::part), 1);
}

} // namespace
} // namespace fanwright::booklet
