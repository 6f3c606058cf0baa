#include "drawing/dxf.h"
#include "drawing/svg.h"
#include "outside_reader.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>

using namespace fanwright::drawing;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// What ezdxf finds when it compares one page's DXF with another's SVG.
std::string differences(const Page& in_dxf, const Page& in_svg) {
  const outside::Folder folder;
  return outside::faults_found_by("dxf_reads_back.py", {folder.file("page.dxf", dxf(in_dxf, "Pear")),
                                                        folder.file("page.svg", svg(in_svg, "Pear"))});
}

Page leaf_page() {
  Page page{210, 297, {}};
  Path leaf = polyline(Step::cut, {{20, 20}, {60, 20}}, false);
  leaf.segments.push_back(Cubic{{90, 40}, {55, 60}, {80, 90}});
  leaf.segments.push_back(Arc{30, 12, 25, true, true, {60, 120}});
  leaf.segments.push_back(Arc{20, 20, 0, false, true, {20, 120}});
  leaf.segments.push_back(Close{});
  page.items.push_back(leaf);
  Path window{Step::cut, {}, usual_pen(Step::cut)};
  window.segments = {Move{{30, 40}}, Arc{5, 5, 0, false, false, {40, 40}}, Arc{5, 5, 0, false, false, {30, 40}},
                     Close{}};
  page.items.push_back(window);
  page.items.push_back(polyline(Step::score, {{40, 20}, {40, 110}}, false));
  page.items.push_back(polyline(Step::reverse_score, {{45, 20}, {45, 110}}, false));
  page.items.push_back(polyline(Step::perforate, {{50, 20}, {50, 110}}, false));
  const std::vector<Point> row = {{22, 50}, {38, 50}, {38, 53}, {22, 53}};
  page.items.push_back(polyline(Step::glue_inside, row, true));
  page.items.push_back(hatched(Step::glue_inside, row, 45, 1));
  page.items.push_back(polyline(Step::glue_between, row, true));
  Path odd = polyline(Step::legend, {{100, 20}, {150, 30}}, false);
  odd.pen.dash_mm = {3, 1};
  page.items.push_back(odd);
  page.items.push_back(polyline(Step::print, {{100, 100}, {150, 130}}, false));
  page.items.push_back(Text{Step::legend, {20, 15}, 5, "\xc3\x84pfel 50%% \\U+0041 ^A", Align::centre, true, {}});
  add_ruler(page, {20, 280}, 100);
  return page;
}

} // namespace

TEST(drawing, dxf_reads_back_in_another_program_without_a_fault) {
  EXPECT_EQ(differences(leaf_page(), leaf_page()), "");
}

TEST(drawing, the_other_program_sees_a_curve_that_is_five_hundredths_off) {
  Page other = leaf_page();
  std::get<Cubic>(std::get<Path>(other.items.at(0)).segments.at(2)).control1.x += 0.12; // moves it by 0.444 of that
  EXPECT_NE(differences(leaf_page(), other), "");
}

TEST(drawing, dxf_of_an_empty_page_reads_back) { EXPECT_EQ(differences(Page{100, 50, {}}, Page{100, 50, {}}), ""); }

TEST(drawing, dxf_states_release_millimetres_and_the_page_turned_up) {
  Page page{100, 50, {}};
  page.items.push_back(polyline(Step::cut, {{0, 10}, {100, 10}}, false));
  const std::string text = dxf(page, "A line");
  EXPECT_TRUE(holds(text, "$ACADVER\n  1\nAC1015\n"));
  EXPECT_TRUE(holds(text, "$INSUNITS\n 70\n4\n"));
  EXPECT_TRUE(holds(text, "$MEASUREMENT\n 70\n1\n"));
  EXPECT_TRUE(holds(text, " 10\n0.0\n 20\n40.0\n 10\n100.0\n 20\n40.0\n")); // exactly 100 mm, 40 above the lower edge
}

TEST(drawing, dxf_arcs_turn_the_other_way_when_the_page_is_turned_up) {
  // Clockwise as seen is a negative bulge in DXF (positive: counter-clockwise); a quarter: tan(90 deg / 4) = 0.414214.
  Page page{100, 50, {}};
  page.items.push_back(Path{Step::cut, {Move{{30, 20}}, Arc{10, 10, 0, false, true, {20, 30}}}, usual_pen(Step::cut)});
  EXPECT_TRUE(holds(dxf(page, "Quarter"), " 42\n-0.414213562\n"));
}

TEST(drawing, dxf_holds_only_layers_in_use_and_no_print) {
  Page page{100, 50, {}};
  page.items.push_back(polyline(Step::print, {{1, 1}, {9, 9}}, false));
  page.items.push_back(polyline(Step::score, {{0, 10}, {100, 10}}, false));
  const std::string text = dxf(page, "Score");
  EXPECT_TRUE(holds(text, "  2\nSCORE\n"));
  EXPECT_FALSE(holds(text, "  2\nCUT\n"));
  EXPECT_FALSE(holds(text, "  2\nNOTES\n"));
  EXPECT_EQ(text.find("LWPOLYLINE"), text.rfind("LWPOLYLINE"));
}

TEST(drawing, dxf_is_the_same_on_every_run_and_plain_ascii) {
  const std::string text = dxf(leaf_page(), "\xc3\x84pfel\nEOF");
  EXPECT_EQ(text, dxf(leaf_page(), "\xc3\x84pfel\nEOF"));
  for (const char letter : text)
    ASSERT_TRUE(letter == '\n' || (letter >= 0x20 && letter < 0x7f));
}

TEST(drawing, dxf_takes_words_of_any_bytes) {
  Page page{100, 50, {}};
  page.items.push_back(
      Text{Step::legend, {5, 5}, 3, std::string("a\0\x01\xff\xfe z\n  0\nEOF", 15), Align::left, false, {}});
  page.items.push_back(Text{Step::legend, {5, 15}, 3, "\xf0\x9f\x8d\x90 pear", Align::right, false, {}});
  const std::string text = dxf(page, "Words");
  EXPECT_TRUE(holds(text, "\\U+25A1 pear\n"));
  EXPECT_EQ(text.find("\nEOF\n"), text.size() - 5);
}

TEST(drawing, dxf_of_many_curves_reads_back) {
  // Curves drawn from a fixed sequence: many shapes in one file, for the other program takes a second to start.
  unsigned state = 1;
  const auto number = [&](int low, int high) {
    state = state * 1664525U + 1013904223U; // Numerical Recipes' linear congruential generator
    return low + static_cast<int>((state >> 8) % static_cast<unsigned>(high - low));
  };
  const auto point = [&] { return Point{number(0, 2000) / 10.0, number(0, 2000) / 10.0}; };
  Page page{200, 200, {}};
  for (int i = 0; i < 16; ++i) {
    Path path{i % 2 == 0 ? Step::cut : Step::perforate, {Move{point()}}, usual_pen(Step::cut)};
    path.segments.push_back(Cubic{point(), point(), point()});
    path.segments.push_back(Arc{number(10, 900) / 10.0, number(10, 900) / 10.0, 1.0 * number(0, 180), number(0, 2) == 1,
                                number(0, 2) == 1, point()});
    if (i % 3 == 0)
      path.segments.push_back(Close{});
    page.items.push_back(path);
  }
  EXPECT_EQ(differences(page, page), "");
}
