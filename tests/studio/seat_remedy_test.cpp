#include "studio/seat_remedy.h"

#include "leaf/outline.h"
#include "leaf/path_data.h"
#include "studio/changed_text.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace fanwright::studio {
namespace {

const std::string text = R"({
  "fanwright": 1,
  "silhouette": { "path": "M 0 0 H 30 C 60 0 60 100 0 120", "shows": "flat" },
  "fans": [ { "name": "wing", "depth": 6, "pleats": 12, "outline": "M 30 -40 L 50 0 L 30 40 L -10 40",
              "seat": { "last_on_head": true } } ]
})";

design::Design changed_by(const std::vector<told::Change>& changes) {
  return std::get<design::Design>(design::parse(*with_changes(text, changes)));
}

TEST(seat_remedy, writes_each_change_where_and_as_the_file_has_it) {
  const auto all = seat_remedies(text, {{"/fans/0/seat/below_neck", 14.25, "", {}},
                                        {"/fans/0/pleats", 15, "", {}},
                                        {"/fans/0/seat/last_on_head", 0, "", {}}});
  ASSERT_EQ(all.size(), 3U);
  EXPECT_DOUBLE_EQ(changed_by(all[0]).fans[0].seat->below_neck_mm, 14.25);
  EXPECT_EQ(changed_by(all[1]).fans[0].pleats, 15);
  EXPECT_FALSE(changed_by(all[2]).fans[0].seat->last_on_head);
}

TEST(seat_remedy, scales_the_drawn_edge_to_the_reach_that_works) {
  const auto all = seat_remedies(text, {{"/fans/0/outline", 25, "", {{"/fans/0/seat/below_neck", 3, "", {}}}}});
  ASSERT_EQ(all.size(), 1U);
  const design::Fan fan = changed_by(all[0]).fans[0];
  EXPECT_DOUBLE_EQ(fan.seat->below_neck_mm, 3); // what must go with it goes with it
  const auto paths = std::get<std::vector<leaf::Subpath>>(leaf::parse_path_data(fan.outline_path));
  double reach = 0;
  for (const leaf::Point& p : leaf::flatten({paths[0].start, paths[0].segments}, 0.01))
    reach = std::max(reach, std::hypot(p.x, p.z));
  EXPECT_NEAR(reach, 25, 0.01);
  EXPECT_NEAR(paths[0].start.z, -20, 0.01); // the shape stays
}

TEST(seat_remedy, leaves_out_what_cannot_be_written) {
  EXPECT_TRUE(seat_remedies(text, {{"/fans/1/outline", 25, "", {}}}).empty());
  EXPECT_TRUE(seat_remedies("no design", {{"/fans/0/pleats", 15, "", {}}}).empty());
}

} // namespace
} // namespace fanwright::studio
