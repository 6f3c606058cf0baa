#include "booklet/told.h"

#include "booklet/catalogue.h"
#include "drawing/words.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <regex>

namespace fanwright::booklet {
namespace {

constexpr double margin_mm = 15;
constexpr double hair_mm = 0.01; // rounding of sums of line heights

struct Box2 {
  double left = 0, right = 0, top = 0, bottom = 0;
};

/// The room a line of text takes: from the tops of capitals to the bottoms of descenders.
Box2 box_of(const drawing::Text& text) {
  const double width = drawing::words_width_mm(text.words, text.size_mm, text.bold);
  const double share = text.align == drawing::Align::left ? 0.0 : text.align == drawing::Align::centre ? 0.5 : 1.0;
  const double left = text.baseline.x - share * width;
  constexpr double capital = 0.73, descender = 0.236; // of the em square: DejaVu Sans, its OS/2 and hhea tables
  return {left, left + width, text.baseline.y - capital * text.size_mm, text.baseline.y + descender * text.size_mm};
}

std::vector<const drawing::Text*> texts_of(const drawing::Page& page) {
  std::vector<const drawing::Text*> texts;
  for (const drawing::Item& item : page.items)
    if (const auto* text = std::get_if<drawing::Text>(&item); text != nullptr && !text->words.empty())
      texts.push_back(text);
  return texts;
}

bool within_margins(const Box2& box, const drawing::Page& page) {
  return box.left >= margin_mm - hair_mm && box.right <= page.width_mm - margin_mm + hair_mm &&
         box.top >= margin_mm - hair_mm && box.bottom <= page.height_mm - margin_mm + hair_mm;
}

bool over_each_other(const Box2& a, const Box2& b) {
  return std::min(a.right, b.right) - std::max(a.left, b.left) > hair_mm &&
         std::min(a.bottom, b.bottom) - std::max(a.top, b.top) > hair_mm;
}

/// What is wrong with the place of some text; empty when nothing is.
std::string misplaced(const drawing::Page& page) {
  const auto texts = texts_of(page);
  std::vector<Box2> boxes;
  boxes.reserve(texts.size());
  for (const drawing::Text* text : texts)
    boxes.push_back(box_of(*text));
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (!within_margins(boxes[i], page))
      return "over the margin: " + texts[i]->words;
    for (std::size_t j = i + 1; j < texts.size(); ++j)
      if (over_each_other(boxes[i], boxes[j]))
        return "over each other: " + texts[i]->words + " / " + texts[j]->words;
  }
  return {};
}

design::Design with_everything(design::Design design) {
  design.making.glitter = design.making.sealer = true;
  design.making.cutting = design::Cutting::by_machine;
  design.making.score = design::ScoreStyle::dashes;
  design.making.display = design::Display::hangs;
  design.making.hands = design.making.presses = 3;
  design.making.pieces = 4;
  design.prices.currency = "EUR";
  design.prices.hour = 20;
  design.publishing = {"Orchard", "3", "Make as many as you like.\nDo not sell the files.", {"en", "de"}};
  return design;
}

struct Case {
  std::string_view language;
  PageSize page;
};

std::vector<Case> all_cases() {
  std::vector<Case> cases;
  for (const std::string_view language : languages())
    for (const PageSize page : {PageSize::a4, PageSize::letter})
      cases.push_back({language, page});
  return cases;
}

TEST(booklet, no_text_leaves_its_page_or_lies_on_another) {
  for (const char* name : {"pear", "moth", "cypress"})
    for (const auto& all : {told(example(name)), told(with_everything(example(name)))})
      for (const Case& asked : all_cases()) {
        for (const drawing::Page& page : pages(all->contents, asked.page, asked.language))
          EXPECT_EQ(misplaced(page), "") << name << ' ' << asked.language;
        for (const drawing::Page& page : maker_pages(all->contents, asked.page, asked.language))
          EXPECT_EQ(misplaced(page), "") << name << ' ' << asked.language;
      }
}

TEST(booklet, has_8_to_16_pages_of_the_size_asked_for_and_none_is_empty) {
  const auto all = told(example("pear"));
  for (const Case& asked : all_cases()) {
    const auto list = pages(all->contents, asked.page, asked.language);
    EXPECT_GE(list.size(), 8U);
    EXPECT_LE(list.size(), 16U);
    for (const drawing::Page& page : list) {
      // ISO 216 and ASME Y14.1
      EXPECT_DOUBLE_EQ(page.width_mm, asked.page == PageSize::a4 ? 210 : 215.9);
      EXPECT_DOUBLE_EQ(page.height_mm, asked.page == PageSize::a4 ? 297 : 279.4);
      const std::size_t foot = &page == &list.front() ? 0 : 2;
      EXPECT_GT(texts_of(page).size(), foot + 1) << asked.language << ' ' << words_of(page);
    }
  }
}

TEST(booklet, is_printed_matter_without_layers) {
  const auto all = told(example("pear"));
  for (const drawing::Page& page : pages(all->contents, PageSize::a4, "en"))
    for (const drawing::Item& item : page.items)
      EXPECT_EQ(std::visit([](const auto& i) { return i.step; }, item), drawing::Step::print);
}

TEST(booklet, same_contents_same_pages) {
  const auto all = told(example("moth"));
  EXPECT_EQ(words_of(pages(all->contents, PageSize::a4, "de")), words_of(pages(all->contents, PageSize::a4, "de")));
}

TEST(booklet, no_place_of_a_text_is_left_unfilled) {
  const auto all = told(with_everything(example("pear")));
  for (const Case& asked : all_cases()) {
    const std::string words = words_of(pages(all->contents, asked.page, asked.language)) +
                              words_of(maker_pages(all->contents, asked.page, asked.language));
    EXPECT_EQ(words.find_first_of("{}"), std::string::npos);
    EXPECT_FALSE(std::regex_search(words, std::regex("  |\\( *\\)| [,.;:]|: *\\."))) << "a value is missing";
  }
}

TEST(booklet, a_plan_for_many_hands_and_presses_goes_on_over_pages) {
  design::Design design = with_everything(example("moth"));
  design.sizes.resize(1);
  design.making.hands = 20;
  design.making.presses = 50;
  design.making.packets_per_press = 1;
  design.making.pieces = 30;
  const auto all = told(design);
  const auto list = maker_pages(all->contents, PageSize::letter, "en");
  for (const drawing::Page& page : list)
    EXPECT_EQ(misplaced(page), "");
  EXPECT_NE(words_of(list).find("Press 50"), std::string::npos);
}

TEST(booklet, the_batch_takes_as_much_as_its_pieces_and_the_waste) {
  design::Design design = example("moth");
  design.sizes.resize(1);
  design.making.pieces = 10;
  design.prices.waste = 0.25;
  const auto all = told(design);
  all->contents.sizes.front().sheets = 5;
  EXPECT_NE(words_of(maker_pages(all->contents, PageSize::a4, "en")).find("63 of A4"), std::string::npos); // 62.5
}

TEST(booklet, buyers_are_told_no_prices) {
  const auto all = told(with_everything(example("pear")));
  EXPECT_EQ(words_of(pages(all->contents, PageSize::a4, "en")).find("EUR"), std::string::npos);
  EXPECT_NE(words_of(maker_pages(all->contents, PageSize::a4, "en")).find("EUR"), std::string::npos);
}

TEST(booklet, without_prices_the_maker_is_shown_none) {
  const auto all = told(example("moth"));
  for (SizeFacts& facts : all->contents.sizes)
    facts.cost.reset();
  const std::string words = words_of(maker_pages(all->contents, PageSize::a4, "en"));
  EXPECT_EQ(words.find("Cost and price"), std::string::npos);
  EXPECT_NE(words.find("Time plan"), std::string::npos);
}

TEST(booklet, halves_of_large_leaves_are_joined_before_they_are_folded) {
  const auto all = told(example("pear"));
  EXPECT_EQ(words_of(pages(all->contents, PageSize::a4, "en")).find("Join the halves"), std::string::npos);
  all->contents.figures.lap_mm = all->contents.sizes.front().lap_mm = 12;
  const std::string words = words_of(pages(all->contents, PageSize::a4, "en"));
  const std::size_t join = words.find("Join the halves"), fold = words.find("Score and fold the spine");
  EXPECT_LT(words.find("a lap of 12"), fold);
  EXPECT_LT(join, fold);
  EXPECT_LT(words.find("glue on this face"), fold) << "the picture's key";
  for (const drawing::Page& page : pages(all->contents, PageSize::a4, "de"))
    EXPECT_EQ(misplaced(page), "");
}

TEST(booklet, tells_how_to_finish_as_the_design_says) {
  design::Design design = example("pear");
  design.making.display = design::Display::stands;
  design.making.glitter = design.making.sealer = false;
  const std::string standing = words_of(pages(told(design)->contents, PageSize::a4, "en"));
  EXPECT_NE(standing.find("Give it a foot"), std::string::npos);
  EXPECT_EQ(standing.find("Give it a hanger"), std::string::npos);
  EXPECT_EQ(standing.find("Finish the edges"), std::string::npos);
  const std::string hanging = words_of(pages(told(with_everything(design))->contents, PageSize::a4, "en"));
  EXPECT_EQ(hanging.find("Give it a foot"), std::string::npos);
  EXPECT_NE(hanging.find("Give it a hanger"), std::string::npos);
  EXPECT_NE(hanging.find("Finish the edges"), std::string::npos);
  EXPECT_NE(hanging.find("Cords and loops"), std::string::npos);
}

TEST(booklet, a_piece_opened_to_less_than_a_circle_has_a_backing_and_no_seam) {
  design::Design design = example("pear");
  for (design::Size& size : design.sizes)
    size.opening_deg = 180;
  const std::string words = words_of(pages(told(design)->contents, PageSize::a4, "en"));
  EXPECT_EQ(words.find("Close the seam"), std::string::npos);
  EXPECT_EQ(words.find("Before the seam"), std::string::npos);
  EXPECT_NE(words.find("Fix it to its backing"), std::string::npos);
  EXPECT_NE(words.find("180°"), std::string::npos);
}

/// Figures of a line such as "10 joints; packet 21 of 21 waits" or "10 packets of 4, 1 of 2".
std::vector<int> figures_in(const std::string& words) {
  std::vector<int> figures;
  const std::regex figure("[0-9]+");
  for (std::sregex_iterator at(words.begin(), words.end(), figure), end; at != end; ++at)
    figures.push_back(std::stoi(at->str()));
  return figures;
}

TEST(booklet, the_table_of_rounds_joins_every_leaf_once) {
  design::Design design = example("moth");
  design.sizes.resize(1);
  for (const int leaves : {2, 3, 36, 46, 101}) {
    design.sizes.front().leaves = leaves;
    const std::string words = words_of(pages(told(design)->contents, PageSize::a4, "en"));
    int joints = 0, rounds = 0;
    const std::regex line("(^|\\n)([0-9]+) joints?");
    for (std::sregex_iterator at(words.begin(), words.end(), line), end; at != end; ++at, ++rounds)
      joints += std::stoi((*at)[2]);
    EXPECT_EQ(joints, leaves - 1);
    EXPECT_EQ(rounds, static_cast<int>(making::rounds(leaves).size()));
    EXPECT_NE(words.find("1 block of " + std::to_string(leaves)), std::string::npos);
    const std::regex packets("(^|\\n)[0-9]+ packets? of [^\\n]*");
    for (std::sregex_iterator at(words.begin(), words.end(), packets), end; at != end; ++at) {
      const std::vector<int> figures = figures_in(at->str());
      int counted = 0;
      for (std::size_t i = 0; i + 1 < figures.size(); i += 2)
        counted += figures[i] * figures[i + 1];
      EXPECT_EQ(counted, leaves) << at->str();
    }
  }
}

TEST(booklet, the_size_table_gives_opened_measures_with_their_spread) {
  const auto all = told(example("moth"));
  const std::string words = words_of(pages(all->contents, PageSize::a4, "en"));
  EXPECT_NE(words.find("123\u202f±\u202f2\u202fmm"), std::string::npos);
  EXPECT_NE(words.find("88\u202f±\u202f1\u202fmm"), std::string::npos);
}

TEST(booklet, the_licence_is_the_makers_own) {
  const auto all = told(with_everything(example("moth")));
  const std::string words = words_of(pages(all->contents, PageSize::a4, "de"));
  EXPECT_NE(words.find("Make as many as you like."), std::string::npos);
  EXPECT_NE(words.find("Do not sell the files."), std::string::npos);
}

std::string words_of_length(int letters, bool with_spaces) {
  std::string words;
  while (static_cast<int>(words.size()) < letters)
    words += with_spaces ? "Wörter " : "Öffnungsprobe";
  return words;
}

RC_GTEST_PROP(booklet, any_words_of_the_maker_fit_their_page, ()) {
  design::Design design = with_everything(example("moth"));
  const design::Size size = design.sizes.front();
  design.sizes.assign(static_cast<std::size_t>(*rc::gen::inRange(1, 13)), size);
  const bool spaces = *rc::gen::arbitrary<bool>();
  for (design::Size& each : design.sizes) {
    each.name = words_of_length(*rc::gen::inRange(1, 60), spaces);
    each.leaves = *rc::gen::inRange(2, 60);
  }
  design.title = words_of_length(*rc::gen::inRange(1, 120), spaces);
  design.making.glue = words_of_length(*rc::gen::inRange(1, 120), spaces);
  design.publishing.maker = words_of_length(*rc::gen::inRange(0, 120), spaces);
  design.publishing.licence = words_of_length(*rc::gen::inRange(0, 8000), spaces);
  const auto all = told(design);
  const PageSize page = *rc::gen::element(PageSize::a4, PageSize::letter);
  const std::string language = *rc::gen::element(std::string("en"), std::string("de"));
  const bool for_the_maker = *rc::gen::arbitrary<bool>();
  for (const drawing::Page& each :
       for_the_maker ? maker_pages(all->contents, page, language) : pages(all->contents, page, language))
    RC_ASSERT(misplaced(each) == "");
}

} // namespace
} // namespace fanwright::booklet
