#include "fit/remedy.h"

#include "fit/narrowed.h"
#include "leaf/contour.h"
#include "leaf/path_data.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace fanwright::fit {
namespace {

/// A low bell that opens well with 30 leaves.
design::Design bell(int leaves) {
  design::Design design;
  design.title = "Bell";
  design.silhouette_path = "M 0 0 L 36 0 C 27 12 27 26 25 48 C 23 70 14 84 0 88 Z";
  design.shows = design::Shows::opened;
  design::Size size;
  size.name = "one";
  size.where = "/sizes/0";
  size.leaves = leaves;
  size.rows = design::EvenRows{7, design::Side::inside, 2.5, 3, 3};
  size.paper = paper::typical_paper(120);
  design.sizes = {size};
  return design;
}

Failure refusal(const design::Design& design) {
  const auto found = opened_leaf(design, design.sizes[0]);
  if (const auto* failure = std::get_if<Failure>(&found))
    return *failure;
  ADD_FAILURE() << "a leaf was found";
  return {};
}

/// Looks for remedies and applies each; gives them in words.
std::string tried(const design::Design& design) {
  const Failure failure = refusal(design);
  EXPECT_TRUE(failure.fails_check);
  const auto found = remedies(design, design.sizes[0], failure);
  EXPECT_FALSE(found.empty()) << failure.sentence;
  for (const Change& change : found) {
    const Changed changed = with(design, design.sizes[0], change);
    EXPECT_TRUE(std::holds_alternative<OpenedLeaf>(opened_leaf(changed.design, changed.size))) << change.sentence;
    EXPECT_EQ(change.where.front(), '/');
  }
  return refusal_of(failure, found);
}

TEST(fit, few_leaves_are_refused_with_changes_that_were_tried_and_work) {
  const std::string told = tried(bell(8));
  EXPECT_NE(told.find("lock ratio"), std::string::npos) << told;
  EXPECT_NE(told.find("Tried, and"), std::string::npos) << told;
  EXPECT_NE(told.find("at least "), std::string::npos) << told;
}

TEST(fit, leaves_that_fill_the_middle_are_refused_with_a_count_that_does_not) {
  const std::string told = tried(bell(250));
  EXPECT_NE(told.find("fill the middle"), std::string::npos) << told;
  EXPECT_NE(told.find("at most "), std::string::npos) << told;
}

TEST(fit, a_mistake_in_the_file_has_no_remedies) {
  design::Design design = bell(30);
  design.silhouette_path = "M 0 0 L 40 0 L 10 60 L 40 50 L 5 20 L 0 88";
  EXPECT_TRUE(remedies(design, design.sizes[0], refusal(design)).empty());
}

TEST(fit, advice_that_was_not_tried_is_left_out) {
  EXPECT_EQ(reason_of("It locks; use more leaves."), "It locks.");
  EXPECT_EQ(reason_of("It locks."), "It locks.");
}

/// Points of a path's first stretch.
leaf::Ring points_of(const std::string& path) {
  const auto parsed = leaf::parse_path_data(path);
  if (const auto* fault = std::get_if<leaf::PathFault>(&parsed)) {
    ADD_FAILURE() << path << ": " << fault->sentence;
    return {};
  }
  const auto& first = std::get<std::vector<leaf::Subpath>>(parsed).front();
  return leaf::flatten({first.start, first.segments}, 0.001);
}

// The image of an ellipse x^2/a^2 + z^2/b^2 = 1, turned, under (x, z) -> (f x, z): each point of the narrowed path lies
// on the path once it is widened again.
RC_GTEST_PROP(fit, a_narrowed_arc_is_the_arc_narrowed, ()) {
  const double factor = *rc::gen::inRange(30, 180) / 100.0;
  const std::string arc = "M 5 3 A " + std::to_string(*rc::gen::inRange(8, 40)) + " " +
                          std::to_string(*rc::gen::inRange(8, 40)) + " " + std::to_string(*rc::gen::inRange(-90, 90)) +
                          " " + std::to_string(*rc::gen::inRange(0, 2)) + " " +
                          std::to_string(*rc::gen::inRange(0, 2)) + " 12 16";
  const leaf::Ring before = points_of(arc), after = points_of(narrowed(arc, factor));
  RC_ASSERT(before.size() > 4U);
  for (const leaf::Point& p : after) {
    double least = 1e9;
    for (std::size_t k = 0; k + 1 < before.size(); ++k) {
      const leaf::Point a = before[k], b = before[k + 1];
      const double dx = b.x - a.x, dz = b.z - a.z;
      const double t = std::clamp(((p.x / factor - a.x) * dx + (p.z - a.z) * dz) / (dx * dx + dz * dz), 0.0, 1.0);
      least = std::min(least, std::hypot(a.x + t * dx - p.x / factor, a.z + t * dz - p.z));
    }
    // Chords of 0.001 mm, widened by at most 1 / 0.3; coordinates to 1e-4.
    RC_ASSERT(least < 0.01);
  }
}

TEST(fit, a_narrowed_path_keeps_its_curves) {
  EXPECT_EQ(narrowed("M0,0 h40 q 2 8 -4 12 C 30 20 20 40 0 60 z", 0.5),
            "M 0 0 L 20 0 Q 21 8 18 12 C 15 20 10 40 0 60 L 0 0 Z");
}

} // namespace
} // namespace fanwright::fit
