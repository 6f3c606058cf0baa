#include "kit/kit.h"
#include "kit/maker_notes.h"
#include "kit/numbers.h"
#include "kit/shared_design.h"
#include "kit/staging.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

using namespace fanwright;
namespace fs = std::filesystem;

namespace {

/// A small body that is solved quickly; `more` is put before the closing brace.
design::Design design_of(const std::string& more) {
  const std::string text = R"({ "fanwright": 1, "title": "Acorn", "units": "mm",
    "silhouette": { "path": "M 0 0 H 12 A 22 22 0 0 1 12 44 L 0 60 Z", "shows": "flat" },
    "leaves": 30, "rows": { "count": 5, "first": "inside", "width": 3, "spine_gap": 3, "edge_gap": 3 },
    "paper": { "grammage": 120 })" +
                           more + "}";
  const auto parsed = design::parse(text);
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed))
    ADD_FAILURE() << refusal->where << ": " << refusal->sentence;
  return std::holds_alternative<design::Design>(parsed) ? std::get<design::Design>(parsed) : design::Design{};
}

class kit : public testing::Test {
protected:
  void SetUp() override {
    place_ = fs::path(testing::TempDir()) /
             ("fanwright-" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(place_);
    fs::create_directories(place_);
  }
  void TearDown() override { fs::remove_all(place_); }

  fs::path out() const { return place_ / "acorn-kit"; }

  std::optional<fanwright::kit::Problem> write(const design::Design& design,
                                               std::function<bool()> cancelled = nullptr) const {
    fanwright::kit::Options options;
    options.picture_px = options.cover_px = 32;
    options.picture_samples = 1;
    options.cancelled = std::move(cancelled);
    return fanwright::kit::write(design, out(), options);
  }

  /// Names (relative) and bytes of all files under `folder`.
  static std::map<std::string, std::string> files(const fs::path& folder) {
    std::map<std::string, std::string> found;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
      if (entry.is_regular_file()) {
        std::stringstream bytes;
        bytes << std::ifstream(entry.path(), std::ios::binary).rdbuf();
        found[entry.path().lexically_relative(folder).generic_string()] = bytes.str();
      }
    return found;
  }

  static void put(const fs::path& file, const std::string& bytes) {
    fs::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << bytes;
  }

  fs::path place_;
};

using fanwright::kit::Cause;

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_F(kit, holds_a_folder_for_each_size_and_lists_its_files) {
  ASSERT_FALSE(write(design_of(R"(, "sizes": [ { "name": "small", "height": 50 }, { "name": "large" } ])")));
  const auto found = files(out());
  std::set<std::string> names;
  for (const auto& [name, bytes] : found)
    names.insert(name);
  std::set<std::string> wanted = {"README.txt",
                                  "acorn-kit.zip",
                                  "kit.json",
                                  "booklet-en-A4.pdf",
                                  "booklet-en-letter.pdf",
                                  "for-you-only/plan-and-price-A4.pdf",
                                  "for-you-only/plan-and-price-letter.pdf"};
  for (const char* size : {"small/", "large/"})
    for (const char* name :
         {"opened.png", "print-A4.pdf", "print-letter.pdf", "master-leaf-A4.pdf", "master-leaf-letter.pdf",
          "cut/leaf.svg", "cut/leaf.dxf", "cut/sheet-1.svg", "cut/sheet-1.dxf", "cut/sheet-2.svg", "cut/sheet-2.dxf",
          "stencil-inside.svg", "stencil-inside.dxf", "stencil-between.svg", "stencil-between.dxf", "stencils-A4.pdf",
          "stencils-letter.pdf"})
      wanted.insert(std::string(size) + name);
  EXPECT_EQ(names, wanted);
  names.erase("kit.json");
  for (const std::string& name : names)
    EXPECT_TRUE(holds(found.at("kit.json"), "\"" + name + "\"")) << name;
  EXPECT_EQ(std::distance(fs::directory_iterator(place_), fs::directory_iterator()), 1) << "nothing left beside it";
}

TEST_F(kit, two_runs_give_the_same_bytes) {
  const auto design = design_of("");
  ASSERT_FALSE(write(design));
  const auto first = files(out());
  ASSERT_FALSE(write(design)); // replaces the first
  EXPECT_EQ(files(out()), first);
}

TEST_F(kit, drawings_keep_arcs_exact_and_put_marks_in_their_groups) {
  ASSERT_FALSE(write(design_of("")));
  const auto found = files(out());
  const auto drawing = std::find_if(found.begin(), found.end(), [](const auto& f) { return holds(f.first, ".svg"); });
  ASSERT_NE(drawing, found.end());
  EXPECT_TRUE(holds(drawing->second, "A 22 22 ")); // the silhouette's own arc
  for (const char* id : {"cut", "score", "glue-inside", "glue-between", "notes"})
    EXPECT_TRUE(holds(drawing->second, std::string("<g id=\"") + id + "\"")) << id;
}

TEST_F(kit, replaces_an_old_kit_and_an_empty_folder) {
  fs::create_directories(out());
  ASSERT_FALSE(write(design_of("")));
  ASSERT_FALSE(write(design_of(R"(, "sizes": [ { "name": "only" } ])")));
  EXPECT_TRUE(fs::exists(out() / "only" / "cut" / "leaf.svg"));
  EXPECT_EQ(std::distance(fs::directory_iterator(out()), fs::directory_iterator()), 7);
}

TEST_F(kit, refuses_a_folder_that_is_no_kit_and_leaves_it_alone) {
  put(out() / "letters" / "to-mother.txt", "Dear");
  const auto problem = write(design_of(""));
  ASSERT_TRUE(problem);
  EXPECT_EQ(problem->cause, Cause::folder);
  EXPECT_EQ(files(out()), (std::map<std::string, std::string>{{"letters/to-mother.txt", "Dear"}}));
}

TEST_F(kit, refuses_a_folder_with_a_foreign_kit_json) {
  put(out() / "kit.json", R"({"drums": 5})");
  EXPECT_TRUE(write(design_of("")));
  put(out() / "kit.json", "[[[[");
  EXPECT_TRUE(write(design_of("")));
}

TEST_F(kit, refuses_to_lose_what_the_maker_put_into_an_old_kit) {
  ASSERT_FALSE(write(design_of("")));
  put(out() / "my-notes.txt", "blue paper next time");
  const auto problem = write(design_of(""));
  ASSERT_TRUE(problem);
  EXPECT_TRUE(holds(problem->sentence, "my-notes.txt")) << problem->sentence;
  EXPECT_TRUE(fs::exists(out() / "my-notes.txt"));
}

TEST_F(kit, refuses_a_file_in_the_way) {
  put(out(), "a file");
  const auto problem = write(design_of(""));
  ASSERT_TRUE(problem);
  EXPECT_EQ(problem->cause, Cause::folder);
  EXPECT_TRUE(fs::is_regular_file(out()));
}

TEST_F(kit, stopped_half_way_leaves_the_old_kit_whole_and_nothing_beside) {
  ASSERT_FALSE(write(design_of("")));
  const auto old = files(out());
  int polls = 0;
  const auto problem =
      write(design_of(R"(, "sizes": [ { "name": "a" }, { "name": "b" } ])"), [&] { return ++polls > 3; });
  ASSERT_TRUE(problem);
  EXPECT_EQ(problem->cause, Cause::cancelled);
  EXPECT_EQ(files(out()), old);
  EXPECT_EQ(std::distance(fs::directory_iterator(place_), fs::directory_iterator()), 1);
}

TEST_F(kit, clears_what_a_killed_run_left_beside) {
  put(place_ / ".acorn-kit.fanwright-new" / "size" / "leaf.svg", "half a leaf");
  ASSERT_FALSE(write(design_of("")));
  EXPECT_EQ(std::distance(fs::directory_iterator(place_), fs::directory_iterator()), 1);
}

TEST_F(kit, brings_back_the_old_kit_that_a_killed_run_had_put_aside) {
  ASSERT_FALSE(write(design_of("")));
  const auto old = files(out());
  fs::rename(out(), place_ / ".acorn-kit.fanwright-old");
  const auto problem = write(design_of(""), [] { return true; });
  ASSERT_TRUE(problem);
  EXPECT_EQ(files(out()), old);
}

TEST_F(kit, a_wrong_design_leaves_no_trace) {
  const auto problem =
      write(design_of(R"(, "sizes": [ { "name": "huge", "height": 1900 } ], "sheet": { "size": "A4" })"));
  ASSERT_TRUE(problem);
  EXPECT_EQ(problem->cause, Cause::form);
  EXPECT_TRUE(holds(problem->where, "/sizes/0")) << problem->where;
  EXPECT_TRUE(holds(problem->sentence, "A4")) << problem->sentence;
  EXPECT_TRUE(fs::is_empty(place_));
}

TEST_F(kit, an_outline_no_leaf_reaches_is_refused_with_changes_that_were_tried) {
  const auto parsed = design::parse(R"({ "fanwright": 1, "title": "Bell",
    "silhouette": { "path": "M 0 0 L 36 0 C 27 12 27 26 25 48 C 23 70 14 84 0 88 Z", "shows": "opened" },
    "leaves": 8, "rows": { "count": 7, "width": 2.5 }, "paper": { "grammage": 120 } })");
  ASSERT_TRUE(std::holds_alternative<design::Design>(parsed));
  const auto problem = write(std::get<design::Design>(parsed));
  ASSERT_TRUE(problem);
  EXPECT_EQ(problem->cause, Cause::form);
  EXPECT_TRUE(holds(problem->sentence, "Tried, and ")) << problem->sentence;
  EXPECT_TRUE(holds(problem->sentence, ": at least ")) << problem->sentence;
  EXPECT_TRUE(fs::is_empty(place_));
}

TEST_F(kit, sizes_whose_names_make_no_distinct_folders_still_get_their_own) {
  // The design file refuses most such names; a design built in memory can still hold them.
  design::Design design =
      design_of(R"(, "sizes": [ { "name": "a" }, { "name": "b" }, { "name": "c" }, { "name": "d" } ])");
  const std::vector<std::string> names = {"A/B", "a b", "kit.json", "../.."};
  for (std::size_t i = 0; i < names.size(); ++i)
    design.sizes.at(i).name = names[i];
  ASSERT_FALSE(write(design));
  for (const char* folder : {"A-B", "a-b-2", "kit.json-2", "size"})
    EXPECT_TRUE(fs::exists(out() / folder / "print-A4.pdf")) << folder;
}

TEST_F(kit, folder_names_hold_no_path_and_no_odd_letters) {
  EXPECT_EQ(fanwright::kit::folder_name("../../etc"), "etc");
  EXPECT_EQ(fanwright::kit::folder_name("8 in / 20 cm"), "8-in-20-cm");
  EXPECT_EQ(fanwright::kit::folder_name("..."), "size");
  EXPECT_EQ(fanwright::kit::folder_name("groß"), "groß");
  EXPECT_LE(fanwright::kit::folder_name(std::string(500, 'x')).size(), 60u);
}

TEST_F(kit, progress_rises_to_the_end) {
  double last = 0;
  fanwright::kit::Options options;
  options.picture_px = 32;
  options.picture_samples = 1;
  options.progress = [&](double done, std::string_view) {
    EXPECT_GE(done, last - 1e-12);
    EXPECT_LE(done, 1 + 1e-12);
    last = done;
  };
  ASSERT_FALSE(fanwright::kit::write(design_of(R"(, "sizes": [ { "name": "a" }, { "name": "b" } ])"), out(), options));
  EXPECT_EQ(last, 1);
}

TEST_F(kit, notes_say_which_file_is_for_what_and_the_cautions) {
  ASSERT_FALSE(write(design_of(R"(, "publishing": { "licence": "Make as many as you like.", "version": "7" })")));
  const auto found = files(out());
  const std::string& notes = found.at("README.txt");
  for (const char* word : {"Acorn", "30", "120", "candles", "children", "100 %", "Make as many as you like.", "7"})
    EXPECT_TRUE(holds(notes, word)) << word;
  for (const auto& [name, bytes] : found) {
    const bool listed = holds(notes, name.substr(name.find('/') + 1));
    EXPECT_EQ(listed, name != "README.txt" && !holds(name, "for-you-only/")) << name;
  }
}

TEST_F(kit, carries_its_design_without_the_rates_of_the_maker) {
  fanwright::kit::Options options;
  options.picture_px = options.cover_px = 32;
  options.picture_samples = 1;
  options.design_text = R"({ "fanwright": 1, "title": "Acorn", "prices": { "hour": 18.5 } })";
  ASSERT_FALSE(fanwright::kit::write(design_of(""), out(), options));
  const std::string carried = files(out()).at("acorn.ornament.json");
  EXPECT_TRUE(holds(carried, "Acorn")) << carried;
  EXPECT_FALSE(holds(carried, "18.5")) << carried;
  EXPECT_FALSE(holds(carried, "prices")) << carried;
}

TEST_F(kit, a_design_without_rates_is_carried_byte_for_byte) {
  const std::string text = "{ \"fanwright\": 1,\n\t\"title\": \"Acorn\" }\n";
  EXPECT_EQ(fanwright::kit::shared_design(text), text);
}
