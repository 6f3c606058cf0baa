#include "drawing/decimal.h"
#include "drawing/drawing.h"
#include "drawing/pdf.h"
#include "drawing/svg.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <cstdlib>
#include <limits>
#include <numbers>

using namespace fanwright::drawing;

namespace {

Page sample_page() {
  Page page{210, 297, {}};
  Path leaf = polyline(Step::cut, {{20, 20}, {60, 20}}, false);
  leaf.segments.push_back(Cubic{{70, 30}, {70, 60}, {60, 70}});
  leaf.segments.push_back(Arc{20, 20, 0, false, true, {20, 70}});
  leaf.segments.push_back(Close{});
  page.items.push_back(leaf);
  page.items.push_back(polyline(Step::score, {{40, 20}, {40, 70}}, false));
  const std::vector<Point> inside = {{22, 30}, {38, 30}, {38, 33}, {22, 33}};
  const std::vector<Point> between = {{22, 50}, {38, 50}, {38, 53}, {22, 53}};
  page.items.push_back(polyline(Step::glue_inside, inside, true));
  page.items.push_back(hatched(Step::glue_inside, inside, 45, 1));
  page.items.push_back(polyline(Step::glue_between, between, true));
  page.items.push_back(hatched(Step::glue_between, between, -45, 1));
  page.items.push_back(Text{Step::legend, {20, 15}, 5, "Pear & <quince>", Align::left, true});
  add_ruler(page, {20, 280}, 100);
  return page;
}

std::string written_pdf(const std::vector<Page>& pages, const std::string& title = "Sample") {
  auto result = pdf(pages, {title, {}, {}, {}});
  EXPECT_TRUE(std::holds_alternative<std::string>(result));
  return std::holds_alternative<std::string>(result) ? std::get<std::string>(result) : std::string();
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST(drawing, writes_numbers_without_trailing_zeros_exponents_or_minus_zero) {
  EXPECT_EQ(decimal(1.5), "1.5");
  EXPECT_EQ(decimal(-0.00001), "0");
  EXPECT_EQ(decimal(100), "100");
  EXPECT_EQ(decimal(0.12345), "0.1235");
  EXPECT_EQ(decimal(1e-9), "0");
  EXPECT_EQ(decimal(std::numeric_limits<double>::quiet_NaN()), "0");
  EXPECT_EQ(decimal(std::numeric_limits<double>::max()), "0");
}

TEST(drawing, cuts_page_sizes_off_instead_of_rounding_up) {
  // ISO 216: A4 is 210 x 297 mm; ISO 32000-1: one unit is 1/72 in. 595.27559... and 841.88976... points.
  EXPECT_EQ(truncated_decimal(210 * 72 / 25.4), "595.2755");
  EXPECT_EQ(truncated_decimal(297 * 72 / 25.4), "841.8897");
}

TEST(drawing, turns_a_half_circle_into_cubics_on_the_circle) {
  const auto cubics = cubics_of({-10, 0}, {10, 10, 0, false, true, {10, 0}});
  ASSERT_EQ(cubics.size(), 4u);
  Point from{-10, 0};
  for (const Cubic& c : cubics) {
    const Point middle{(from.x + 3 * c.control1.x + 3 * c.control2.x + c.to.x) / 8,
                       (from.y + 3 * c.control1.y + 3 * c.control2.y + c.to.y) / 8};
    EXPECT_NEAR(std::hypot(middle.x, middle.y), 10, 5e-5); // 5e-6 of the radius, the bound drawing.h states
    EXPECT_LT(middle.y, 0);                                // sweep is clockwise as seen with y down: over the top
    from = c.to;
  }
  EXPECT_EQ(from.x, 10);
}

RC_GTEST_PROP(drawing, every_arc_ends_where_it_was_sent, ()) {
  const auto number = [](int low, int high) { return *rc::gen::inRange(low, high) / 10.0; };
  const Point from{number(-500, 500), number(-500, 500)};
  const Arc arc{number(0, 400),
                number(0, 400),
                number(-3600, 3600),
                *rc::gen::arbitrary<bool>(),
                *rc::gen::arbitrary<bool>(),
                {number(-500, 500), number(-500, 500)}};
  const auto cubics = cubics_of(from, arc);
  if (from.x == arc.to.x && from.y == arc.to.y) {
    RC_ASSERT(cubics.empty());
    return;
  }
  RC_ASSERT(!cubics.empty());
  RC_ASSERT(cubics.back().to.x == arc.to.x && cubics.back().to.y == arc.to.y);
  for (const Cubic& c : cubics)
    RC_ASSERT(std::isfinite(c.control1.x + c.control1.y + c.control2.x + c.control2.y));
}

TEST(drawing, hatches_lie_inside_their_area_and_lean_as_asked) {
  const Path path = hatched(Step::glue_inside, {{0, 0}, {10, 0}, {10, 4}, {0, 4}}, 45, 1);
  ASSERT_GE(path.segments.size(), 16u);
  for (std::size_t i = 0; i + 1 < path.segments.size(); i += 2) {
    const Point a = std::get<Move>(path.segments[i]).to, b = std::get<Line>(path.segments[i + 1]).to;
    EXPECT_NEAR((b.y - a.y) / (b.x - a.x), 1.0, 1e-9);
    for (const Point& p : {a, b})
      EXPECT_TRUE(p.x > -1e-9 && p.x < 10 + 1e-9 && p.y > -1e-9 && p.y < 4 + 1e-9);
  }
}

TEST(drawing, lines_too_long_for_their_room_are_set_smaller) {
  EXPECT_EQ(fitted_size_mm("Pear", 100, 5, true), 5);
  EXPECT_NEAR(fitted_size_mm(std::string(100, 'n'), 72, 5, true), 1.0, 1e-12); // 100 x 0.72 x 1 mm
  EXPECT_GT(fitted_size_mm(std::string(100, 'n'), 72, 5, false), 1.0);
  EXPECT_NEAR(fitted_size_mm("\xc3\xa4\xc3\xa4", 1.44, 5, true), 1.0, 1e-12); // two letters, four bytes
  EXPECT_GT(fitted_size_mm("", 0, 5, false), 0);
}

TEST(drawing, svg_has_millimetres_an_equal_view_box_and_named_groups) {
  const std::string text = svg(sample_page(), "A & B");
  EXPECT_TRUE(holds(text, R"(width="210mm" height="297mm" viewBox="0 0 210 297")"));
  for (const char* id : {"cut", "score", "glue-inside", "glue-between", "notes"})
    EXPECT_TRUE(holds(text, std::string("<g id=\"") + id + "\"")) << id;
  EXPECT_TRUE(holds(text, "Pear &amp; &lt;quince&gt;"));
  EXPECT_TRUE(holds(text, "C 70 30 70 60 60 70 A 20 20 0 0 1 20 70 Z")); // curves stay exact
}

TEST(drawing, svg_leaves_out_groups_that_are_not_used) {
  Page page{50, 50, {}};
  page.items.push_back(polyline(Step::cut, {{1, 1}, {9, 9}}, false));
  const std::string text = svg(page, "One cut");
  EXPECT_TRUE(holds(text, "id=\"cut\""));
  EXPECT_FALSE(holds(text, "id=\"notes\""));
}

TEST(drawing, line_types_differ_without_colour) {
  const std::vector<Step> steps = {Step::cut, Step::score, Step::glue_inside, Step::glue_between};
  for (std::size_t i = 0; i < steps.size(); ++i)
    for (std::size_t k = i + 1; k < steps.size(); ++k) {
      const Pen a = usual_pen(steps[i]), b = usual_pen(steps[k]);
      EXPECT_TRUE(a.dash_mm != b.dash_mm || a.width_mm != b.width_mm);
    }
}

TEST(drawing, pdf_states_true_size_no_scaling_and_processing_steps) {
  const std::string bytes = written_pdf({sample_page(), sample_page()});
  EXPECT_TRUE(holds(bytes, "%PDF-1.6"));
  EXPECT_TRUE(holds(bytes, "/MediaBox [ 0 0 595.2755 841.8897 ]"));
  EXPECT_TRUE(holds(bytes, "/PrintScaling /None"));
  // ISO 19593-1:2018: the groups Legend and Dimensions take no type.
  EXPECT_TRUE(holds(bytes, "/GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Cutting"));
  EXPECT_TRUE(holds(bytes, "/GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Creasing"));
  EXPECT_TRUE(holds(bytes, "/GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Gluing"));
  EXPECT_TRUE(holds(bytes, "/GTS_ProcStepsGroup /Legend >>"));
  EXPECT_TRUE(holds(bytes, "/GTS_ProcStepsGroup /Dimensions >>"));
  EXPECT_TRUE(holds(bytes, "/Separation /Cut /DeviceCMYK"));
  EXPECT_TRUE(holds(bytes, "/OP true"));
  EXPECT_TRUE(holds(bytes, "/Title (Sample)"));
  EXPECT_FALSE(holds(bytes, "CreationDate"));
}

TEST(drawing, same_pages_give_the_same_bytes) {
  EXPECT_EQ(written_pdf({sample_page()}), written_pdf({sample_page()}));
  EXPECT_EQ(svg(sample_page(), "x"), svg(sample_page(), "x"));
}

TEST(drawing, pdf_embeds_the_built_in_font_whatever_the_machine_prefers) {
  const std::string usual = written_pdf({sample_page()});
  ASSERT_EQ(setenv("FONTCONFIG_FILE", "/nonexistent/fonts.conf", 1), 0);
  EXPECT_EQ(written_pdf({sample_page()}), usual);
  unsetenv("FONTCONFIG_FILE");
  EXPECT_TRUE(holds(usual, "DejaVuSans"));
}

TEST(drawing, pdf_takes_titles_of_any_bytes) {
  Page page{50, 50, {}};
  page.items.push_back(Text{Step::legend, {5, 5}, 3, std::string("a\0\x01\xff\xfe z", 7), Align::left, false});
  EXPECT_FALSE(written_pdf({page}, "\xc3\x84pfel").empty());
}

TEST(drawing, pdf_without_pages_is_a_failure_with_a_sentence) {
  const auto result = pdf({}, {"Nothing", {}, {}, {}});
  ASSERT_TRUE(std::holds_alternative<Failure>(result));
  EXPECT_FALSE(std::get<Failure>(result).sentence.empty());
}
