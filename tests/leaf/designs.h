// Designs and readers of results shared by the leaf tests.
#pragma once

#include "leaf/leaf.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

namespace fanwright::leaf {

inline design::Design design_of(const std::string& path, const design::Rows& rows = design::EvenRows{}) {
  design::Design design;
  design.silhouette_path = path;
  design::Size size;
  size.name = "only";
  size.rows = rows;
  design.sizes.push_back(size);
  return design;
}

/// 60 mm wide, 150 mm high.
inline const std::string rectangle = "M 0 0 H 60 V 150 H 0";

inline Leaf built(const design::Design& design) {
  auto result = build(design, design.sizes.front());
  if (const auto* refusal = std::get_if<design::Refusal>(&result))
    throw std::runtime_error(refusal->where + ": " + refusal->sentence);
  return std::get<Leaf>(result);
}

/// Expects a refusal at `where` whose sentence holds `words`.
inline void expect_refused(const design::Design& design, const std::string& where, const std::string& words) {
  const auto result = build(design, design.sizes.front());
  const auto* refusal = std::get_if<design::Refusal>(&result);
  ASSERT_NE(refusal, nullptr) << "accepted: " << design.silhouette_path;
  EXPECT_EQ(refusal->where, where) << refusal->sentence;
  EXPECT_NE(refusal->sentence.find(words), std::string::npos) << refusal->sentence;
}

} // namespace fanwright::leaf
