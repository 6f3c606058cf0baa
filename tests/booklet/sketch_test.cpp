#include "booklet/sketch.h"

#include "leaf/contour.h"
#include "making/making.h"
#include "opened/opened.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <numbers>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>

namespace fanwright::booklet {
namespace {

constexpr Scene all_scenes[] = {Scene::sheet_and_cut, Scene::joining,       Scene::score_and_fold, Scene::stencil_use,
                                Scene::inside_rows,   Scene::between_rows,  Scene::packets,        Scene::press,
                                Scene::opening,       Scene::seam,          Scene::backing,        Scene::stuck_cells,
                                Scene::fan_pleating,  Scene::fan_spreading, Scene::foot,           Scene::hanger,
                                Scene::finishing,     Scene::storing};

const std::string bell = "M 0 0 H 40 C 40 40 20 50 12 80 L 0 90";
const std::string pierced = bell + " M 12 12 L 26 12 L 26 18 L 12 18 Z";

void add_tail(design::Design& design) {
  design.fans.push_back({"tail", false, 8, 12, "", 40, 150, {}, {}, {}, {}, {}, "/fans/0"});
}

design::Design design_of(const std::string& path, int leaves, double opening_deg, int rows = 5) {
  design::Design design;
  design.title = "Bell";
  design.silhouette_path = path;
  design.making.glitter = design.making.sealer = true;
  design::Size size;
  size.leaves = leaves;
  size.opening_deg = opening_deg;
  design::EvenRows even;
  even.count = rows;
  size.rows = even;
  size.sheet.size = {210, 297};
  design.sizes.push_back(size);
  add_tail(design);
  return design;
}

/// The example, with a fan where it has none: every scene can be drawn of it.
design::Design example(const std::string& name) {
  std::ifstream file(FANWRIGHT_SOURCE_DIR "/examples/orchard/" + name + ".ornament.json");
  std::stringstream text;
  text << file.rdbuf();
  auto design = design::parse(text.str());
  if (const auto* refusal = std::get_if<design::Refusal>(&design))
    throw std::runtime_error(name + " " + refusal->where + ": " + refusal->sentence);
  auto& read = std::get<design::Design>(design);
  if (read.fans.empty())
    add_tail(read);
  return std::move(read);
}

leaf::Leaf leaf_of(const design::Design& design) {
  auto leaf = leaf::build(design, design.sizes.front());
  if (const auto* refusal = std::get_if<design::Refusal>(&leaf))
    throw std::runtime_error(refusal->where + ": " + refusal->sentence);
  return std::get<leaf::Leaf>(std::move(leaf));
}

/// A design with everything that its sketches need, which must outlive the subject.
struct Made {
  design::Design design;
  leaf::Leaf leaf;
  std::vector<fan::SizedFan> fans;
  explicit Made(design::Design d)
      : design(std::move(d)), leaf(leaf_of(design)),
        fans(std::get<std::vector<fan::SizedFan>>(fan::fans_of(design, design.sizes.front()))) {}
  Made(const Made&) = delete; // fans point into the design
  Subject subject() const {
    Subject subject;
    subject.design = &design, subject.size = &design.sizes.front(), subject.leaf = &leaf;
    subject.lap_mm = 12;
    subject.fan = fans.empty() ? nullptr : &fans.front();
    return subject;
  }
};

struct Bounds {
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  void take(drawing::Point p, double around) {
    left = std::min(left, p.x - around), right = std::max(right, p.x + around);
    top = std::min(top, p.y - around), bottom = std::max(bottom, p.y + around);
  }
  double width() const { return right - left; }
  double height() const { return bottom - top; }
};

/// Bounds of a path of straight lines with its pen.
Bounds bounds_of(const drawing::Path& path, bool with_pen = true) {
  Bounds bounds;
  const double around = with_pen && !path.pen.filled ? path.pen.width_mm / 2 : 0;
  for (const auto& segment : path.segments)
    if (const auto* move = std::get_if<drawing::Move>(&segment))
      bounds.take(move->to, around);
    else if (const auto* line = std::get_if<drawing::Line>(&segment))
      bounds.take(line->to, around);
    else
      EXPECT_TRUE(std::holds_alternative<drawing::Close>(segment));
  return bounds;
}

Bounds bounds_of(const drawing::Text& text) {
  Bounds bounds;
  // Figures of the built-in font are 0.7 of the em square wide when bold (from memory), capitals 0.73 high.
  const double half = 0.35 * text.size_mm * static_cast<double>(text.words.size());
  bounds.take({text.baseline.x - half, text.baseline.y - 0.73 * text.size_mm}, 0);
  bounds.take({text.baseline.x + half, text.baseline.y}, 0);
  return bounds;
}

void expect_within_its_box(const Sketch& sketch, const std::string& which) {
  EXPECT_GT(sketch.items.size(), 1U) << which;
  for (const auto& item : sketch.items) {
    Bounds b;
    if (const auto* path = std::get_if<drawing::Path>(&item)) {
      EXPECT_EQ(path->step, drawing::Step::print) << which;
      b = bounds_of(*path);
    } else
      b = bounds_of(std::get<drawing::Text>(item));
    ASSERT_TRUE(b.left >= 0 && b.top >= 0 && b.right <= sketch.width_mm && b.bottom <= sketch.height_mm)
        << which << ": " << b.left << ".." << b.right << " x " << b.top << ".." << b.bottom << " in " << sketch.width_mm
        << " x " << sketch.height_mm;
  }
}

/// All coordinates, pens and words, for comparing.
std::string written(const Sketch& sketch) {
  std::ostringstream text;
  text.precision(17);
  for (const auto& item : sketch.items)
    if (const auto* path = std::get_if<drawing::Path>(&item)) {
      text << path->pen.width_mm << path->pen.colour.red;
      for (const auto& segment : path->segments)
        if (const auto* move = std::get_if<drawing::Move>(&segment))
          text << 'M' << move->to.x << ' ' << move->to.y;
        else if (const auto* line = std::get_if<drawing::Line>(&segment))
          text << 'L' << line->to.x << ' ' << line->to.y;
    } else if (const auto* words = std::get_if<drawing::Text>(&item))
      text << words->words << words->baseline.x << ' ' << words->baseline.y;
  return text.str();
}

OpenedViews views_of(const Made& made) {
  const auto panel = opened::panel_of(made.leaf, made.design.sizes.front());
  const auto form = opened::open(panel);
  if (const auto* failure = std::get_if<opened::Failure>(&form))
    throw std::runtime_error(failure->sentence);
  auto views = opened_views(panel, std::get<opened::Form>(form));
  if (const auto* sentence = std::get_if<std::string>(&views))
    throw std::runtime_error(*sentence);
  return std::get<OpenedViews>(std::move(views));
}

void expect_all_within(const Subject& subject, const std::string& which) {
  for (const Scene scene : all_scenes)
    for (const auto& [width, height] : {std::pair{84.0, 58.0}, {176.0, 62.0}, {44.0, 70.0}})
      expect_within_its_box(sketch(scene, subject, width, height), which + " " + std::string(name_of(scene)));
}

} // namespace

TEST(booklet, every_sketch_of_the_orchard_stays_in_its_box) {
  for (const auto* name : {"apple", "cypress", "moth", "pear"}) {
    const Made made(example(name));
    expect_all_within(made.subject(), name);
  }
}

TEST(booklet, sketches_with_views_stay_in_their_boxes) {
  const Made made(example("pear"));
  const OpenedViews views = views_of(made);
  Subject subject = made.subject();
  subject.views = &views;
  expect_all_within(subject, "pear");
}

TEST(booklet, sketches_take_cut_outs_few_leaves_many_and_a_half_opening) {
  for (const auto& [path, leaves, opening_deg] :
       {std::tuple{pierced, 40, 360.0}, {bell, 2, 360.0}, {bell, 400, 360.0}, {bell, 24, 180.0}, {bell, 1, 90.0}}) {
    const Made made(design_of(path, leaves, opening_deg));
    expect_all_within(made.subject(), std::to_string(leaves) + " leaves");
  }
}

TEST(booklet, sketches_take_the_fewest_rows) {
  const Made made(design_of(bell, 24, 360, 2));
  expect_all_within(made.subject(), "two rows");
}

TEST(booklet, sketches_are_the_same_each_time) {
  const Made made(example("cypress"));
  const OpenedViews views = views_of(made), again = views_of(made);
  Subject subject = made.subject();
  for (const Scene scene : all_scenes) {
    subject.views = &views;
    const std::string first = written(sketch(scene, subject));
    subject.views = &again;
    EXPECT_EQ(first, written(sketch(scene, subject))) << name_of(scene);
  }
}

TEST(booklet, cut_outs_are_drawn_on_the_unfolded_leaf) {
  const auto rings_of_largest = [](const std::string& path) {
    const Made made(design_of(path, 40, 360));
    std::size_t rings = 0;
    double area = 0;
    for (const auto& item : sketch(Scene::inside_rows, made.subject()).items)
      if (const auto* drawn = std::get_if<drawing::Path>(&item); drawn && drawn->pen.filled) {
        const Bounds b = bounds_of(*drawn);
        if (b.width() * b.height() > area) {
          area = b.width() * b.height();
          rings = static_cast<std::size_t>(std::count_if(drawn->segments.begin(), drawn->segments.end(), [](auto& s) {
            return std::holds_alternative<drawing::Move>(s);
          }));
        }
      }
    return rings;
  };
  EXPECT_EQ(rings_of_largest(bell), 1U);
  EXPECT_EQ(rings_of_largest(pierced), 3U); // one in each half
}

RC_GTEST_PROP(booklet, the_drawn_leaf_has_the_proportions_of_the_leaf, ()) {
  const int width = *rc::gen::inRange(20, 120), height = *rc::gen::inRange(60, 300);
  const std::string w = std::to_string(width), h = std::to_string(height);
  const Made made(design_of("M 0 0 H " + w + " C " + w + " " + h + " 10 " + h + " 0 " + h, 30, 360, 4));
  const leaf::Box box = leaf::bounds(made.leaf.outline);
  for (const Scene scene : {Scene::inside_rows, Scene::score_and_fold}) {
    const Sketch drawn = sketch(scene, made.subject());
    // The first paper drawn is the whole leaf, unfolded.
    const auto& path = std::get<drawing::Path>(drawn.items.front());
    const Bounds b = bounds_of(path);
    const double across = b.width() / (2 * box.width()), up = b.height() / box.height();
    RC_ASSERT(std::abs(across / up - 1) < 0.004); // points are left out where that moves the line by 0.04 mm or less
  }
}

TEST(booklet, the_opened_views_know_where_the_axis_leaves_the_ornament) {
  const Made made(example("pear"));
  const OpenedViews views = views_of(made);
  // Closed round, it is its own mirror image: the axis stands in the middle of the page.
  EXPECT_NEAR(views.whole.spine_top.x, views.whole.page.width_mm / 2, 0.5);
  EXPECT_NEAR(views.whole.spine_foot.x, views.whole.page.width_mm / 2, 0.5);
  const double seen = (views.whole.spine_foot.y - views.whole.spine_top.y) / std::cos(24 * std::numbers::pi / 180);
  const double spine = made.leaf.spine_top_z - made.leaf.spine_foot_z;
  EXPECT_NEAR(seen, spine, 0.02 * spine); // an opened spine bows by a percent or so
  EXPECT_LT(views.third.page.width_mm, views.whole.page.width_mm);
}

TEST(booklet, as_many_packets_are_drawn_as_the_rounds_make) {
  for (int leaves = 1; leaves <= 52; ++leaves) {
    const Made made(design_of(bell, leaves, 360));
    int wanted = leaves;
    for (const auto& round : making::rounds(leaves))
      wanted += static_cast<int>(round.packets.size());
    EXPECT_EQ(sketch(Scene::packets, made.subject()).packets, wanted) << leaves << " leaves";
  }
}

TEST(booklet, many_packets_are_cut_short_with_dots) {
  const Made made(design_of(bell, 100, 360));
  // Columns of 100, 50, 25, 13, 7, 4, 2, 1; more than 52 become 49 and three dots.
  const auto drawn = sketch(Scene::packets, made.subject());
  int wanted = 0;
  for (const int packets : {100, 50, 25, 13, 7, 4, 2, 1})
    wanted += packets > 52 ? 49 : packets;
  EXPECT_EQ(drawn.packets, wanted);
}

TEST(booklet, tags_are_lettered_in_order_and_each_points_at_another_part) {
  const Made made(example("moth"));
  for (const Scene scene : all_scenes) {
    const Sketch drawn = sketch(scene, made.subject());
    std::set<Part> parts;
    for (std::size_t k = 0; k < drawn.callouts.size(); ++k) {
      EXPECT_EQ(drawn.callouts[k].tag, std::string(1, static_cast<char>('A' + k))) << name_of(scene);
      EXPECT_TRUE(parts.insert(drawn.callouts[k].part).second) << name_of(scene);
      EXPECT_FALSE(name_of(drawn.callouts[k].part).empty());
    }
  }
}

TEST(booklet, scenes_follow_the_design) {
  design::Design design = design_of(bell, 24, 360);
  const auto has = [&](Scene scene) {
    const auto scenes = scenes_of(design, design.sizes.front());
    return std::find(scenes.begin(), scenes.end(), scene) != scenes.end();
  };
  EXPECT_TRUE(has(Scene::seam) && !has(Scene::backing) && has(Scene::foot) && !has(Scene::hanger));
  EXPECT_TRUE(has(Scene::finishing));
  EXPECT_TRUE(has(Scene::fan_pleating) && has(Scene::fan_spreading));
  design.sizes.front().opening_deg = 180;
  design.making.display = design::Display::hangs;
  design.making.glitter = design.making.sealer = false;
  design.fans.clear();
  EXPECT_FALSE(has(Scene::fan_pleating) || has(Scene::fan_spreading));
  EXPECT_TRUE(!has(Scene::seam) && has(Scene::backing) && !has(Scene::foot) && has(Scene::hanger));
  EXPECT_FALSE(has(Scene::finishing));
}

TEST(booklet, a_sketch_placed_is_the_sketch_moved) {
  const Made made(design_of(bell, 24, 360));
  const Sketch drawn = sketch(Scene::press, made.subject());
  drawing::Page page;
  place(drawn, {30, 40}, page);
  ASSERT_EQ(page.items.size(), drawn.items.size());
  const Bounds before = bounds_of(std::get<drawing::Path>(drawn.items.front()), false),
               after = bounds_of(std::get<drawing::Path>(page.items.front()), false);
  EXPECT_NEAR(after.left - before.left, 30, 1e-9);
  EXPECT_NEAR(after.top - before.top, 40, 1e-9);
}

} // namespace fanwright::booklet
