// Printed matter: colours, pictures and what the file says of itself.
#include "drawing/pdf.h"
#include "drawing/svg.h"
#include "outside_reader.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cstdint>
#include <memory>
#include <vector>

using namespace fanwright::drawing;

namespace {

constexpr Colour sage{0.2, 0.4, 0.2}, plum{0.6, 0, 0.4}, white{1, 1, 1};

Path filled_box(double left, double top, double right, double bottom, const Colour& colour) {
  Path box = polyline(Step::print, {{left, top}, {right, top}, {right, bottom}, {left, bottom}}, true);
  box.pen = {0.25, {}, true, colour};
  return box;
}

/// Four quarters: red, green above blue, yellow.
Image quarters(int side_px) {
  auto rgb = std::make_shared<std::vector<std::uint8_t>>();
  for (int y = 0; y < side_px; ++y)
    for (int x = 0; x < side_px; ++x) {
      const bool right = x >= side_px / 2, low = y >= side_px / 2;
      rgb->push_back(right == low ? (low ? 250 : 200) : 10);
      rgb->push_back(right ? 180 : 20);
      rgb->push_back(low && !right ? 220 : 30);
    }
  return {{20, 60}, 40, 40, side_px, side_px, rgb};
}

Page printed_page() {
  Page page{120, 150, {}};
  page.items.push_back(Text{Step::print, {10, 15}, 6, "Opening the Pear", Align::left, true, plum});
  page.items.push_back(filled_box(10, 20, 110, 50, sage));
  page.items.push_back(Text{Step::print, {15, 32}, 5, "White on sage", Align::left, false, white});
  page.items.push_back(filled_box(70, 22, 108, 48, white)); // covers the box, must itself stay below the next line
  page.items.push_back(Text{Step::print, {72, 32}, 5, "Plum on white", Align::left, false, plum});
  page.items.push_back(quarters(64));
  Path line = polyline(Step::print, {{70, 80}, {110, 80}}, false);
  line.pen = {2, {}, false, plum};
  page.items.push_back(line);
  page.items.push_back(Text{Step::print, {90, 106}, 20, "I", Align::centre, true, sage});
  page.items.push_back(polyline(Step::cut, {{10, 110}, {110, 110}, {110, 140}, {10, 140}}, true));
  page.items.push_back(Text{Step::legend, {12, 120}, 4, "Cut along the line", Align::left, false, {}});
  return page;
}

const About about{"\xc3\x84pfel & <Birnen>", "A maker", "Templates", "de"};

std::string written(const std::vector<Page>& pages, const About& what = about) {
  auto result = pdf(pages, what);
  EXPECT_TRUE(std::holds_alternative<std::string>(result));
  return std::holds_alternative<std::string>(result) ? std::get<std::string>(result) : std::string();
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1))
    ++found;
  return found;
}

} // namespace

TEST(drawing, printed_pages_read_back_with_their_colours_words_and_titles) {
  const outside::Folder folder;
  const nlohmann::json spots = {{12, 22, {51, 102, 51}},   // sage
                                {72, 24, {255, 255, 255}}, // the white box covers it
                                {90, 80, {153, 0, 102}},   // the plum line
                                {90, 99, {51, 102, 51}},   // the upright of the large I
                                {25, 65, {200, 20, 30}},   {55, 65, {10, 180, 30}}, {25, 95, {10, 20, 220}},
                                {55, 95, {250, 180, 30}},  {5, 5, {255, 255, 255}}};
  const nlohmann::json stated = {
      {"title", about.title},
      {"author", about.author},
      {"subject", about.subject},
      {"language", about.language},
      {"layers", {"Cut", "Notes"}},
      {"pages",
       {{{"size_mm", {120, 150}},
         {"words", {"Opening the Pear", "White on sage", "Plum on white", "I", "Cut along the line"}},
         {"spots", spots}}}}};
  EXPECT_EQ(outside::faults_found_by("print_reads_back.py", {folder.file("print.pdf", written({printed_page()})),
                                                             folder.file("stated.json", stated.dump())}),
            "");
}

TEST(drawing, printed_matter_is_on_no_layer_and_does_not_overprint) {
  Page page{50, 50, {}};
  page.items.push_back(filled_box(5, 5, 45, 45, sage));
  const std::string bytes = written({page});
  EXPECT_EQ(count(bytes, "/OCProperties"), 0u);
  EXPECT_EQ(count(bytes, "/Separation"), 0u);
  EXPECT_EQ(count(bytes, "/OP true"), 0u);
}

TEST(drawing, a_picture_on_many_pages_is_stored_once) {
  Page page{80, 120, {}};
  page.items.push_back(quarters(64));
  EXPECT_EQ(count(written({page, page, page}), "/Subtype /Image"), 1u);
}

TEST(drawing, plain_pictures_become_small) {
  Page page{80, 120, {}};
  page.items.push_back(quarters(600));
  EXPECT_LT(written({page}).size(), 600u * 600 * 3 / 50);
}

TEST(drawing, pictures_of_smooth_shades_become_small) {
  auto rgb = std::make_shared<std::vector<std::uint8_t>>();
  constexpr int side = 300;
  for (int y = 0; y < side; ++y)
    for (int x = 0; x < side; ++x)
      for (const int part : {x * x + 3 * y * y, 2 * x * x + y * y, x * x + 2 * x * y})
        rgb->push_back(static_cast<std::uint8_t>(part / 1800));
  Page page{80, 120, {}};
  page.items.push_back(Image{{0, 0}, 50, 50, side, side, rgb});
  EXPECT_LT(written({page}).size(), rgb->size() / 6); // without prediction it is a third
}

TEST(drawing, a_picture_without_its_pixels_is_a_failure_with_a_sentence) {
  Page page{80, 120, {}};
  Image image = quarters(8);
  image.height_px = 9;
  page.items.push_back(image);
  EXPECT_TRUE(std::holds_alternative<Failure>(pdf({page}, about)));
  page.items = {Image{}};
  EXPECT_TRUE(std::holds_alternative<Failure>(pdf({page}, about)));
}

TEST(drawing, printed_pages_give_the_same_bytes) {
  EXPECT_EQ(written({printed_page(), printed_page()}), written({printed_page(), printed_page()}));
}

TEST(drawing, a_file_says_nothing_it_was_not_told) {
  Page page{50, 50, {}};
  page.items.push_back(filled_box(5, 5, 45, 45, sage));
  const std::string bytes = written({page}, {"Only a title", {}, {}, {}});
  for (const char* key : {"/Author", "/Subject /", "/Lang", "Date", "dc:creator", "dc:description"})
    EXPECT_EQ(count(bytes, key), 0u) << key;
  EXPECT_GT(count(bytes, "dc:title"), 0u);
}

TEST(drawing, svg_prints_in_the_pens_colours) {
  const std::string text = svg(printed_page(), "Pear");
  EXPECT_EQ(count(text, "<g id=\"print\""), 1u);
  EXPECT_EQ(count(text, "fill=\"#336633\""), 2u); // the box and a letter
  EXPECT_EQ(count(text, "stroke=\"#990066\""), 1u);
  EXPECT_EQ(count(text, "fill=\"#990066\""), 2u);
}
