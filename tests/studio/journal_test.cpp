#include "studio/asked.h"
#include "studio/folder.h"
#include "studio/journal.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdlib>
#include <fstream>

namespace fanwright::studio {
namespace {

namespace fs = std::filesystem;

class TemporaryFolder {
public:
  TemporaryFolder() {
    std::string name = (fs::temp_directory_path() / "fanwright-journal-XXXXXX").string();
    path = mkdtemp(name.data());
  }
  ~TemporaryFolder() { fs::remove_all(path); }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  fs::path path;
};

Journal opened(const fs::path& file, const std::string& base = "{}", const std::string& print = "f") {
  auto journal = Journal::open(file, base, print, false);
  if (const auto* sentence = std::get_if<std::string>(&journal))
    throw std::runtime_error(*sentence);
  return std::get<Journal>(std::move(journal));
}

std::string text_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

TEST(journal, gives_back_what_was_appended) {
  const TemporaryFolder folder;
  const fs::path file = folder.path / "a";
  {
    Journal journal = opened(file, "base \n \"text\"", "f1");
    EXPECT_FALSE(journal.append({"{\"do\":1}", "{\"undo\":1}"}));
    EXPECT_TRUE(journal.recorded().unsaved);
    EXPECT_FALSE(journal.saved("f2"));
    EXPECT_FALSE(journal.recorded().unsaved);
  }
  const Journal again = opened(file, "other");
  EXPECT_EQ(again.recorded().base, "base \n \"text\"");
  EXPECT_EQ(again.recorded().fingerprint, "f2");
  EXPECT_EQ(again.recorded().lines, (std::vector<std::string>{"{\"do\":1}", "{\"undo\":1}", "{\"saved\":\"f2\"}"}));
  EXPECT_FALSE(again.recorded().unsaved);
}

RC_GTEST_PROP(journal, broken_off_anywhere_keeps_every_whole_line, ()) {
  const auto steps = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 1000));
  const TemporaryFolder folder;
  const fs::path file = folder.path / "a";
  std::vector<std::string> lines;
  {
    Journal journal = opened(file);
    for (const int step : steps)
      lines.push_back("{\"do\":" + std::to_string(step) + "}");
    RC_ASSERT(!journal.append(lines));
  }
  const std::string whole = text_of(file);
  const std::size_t base = whole.find('\n') + 1;
  const auto cut = *rc::gen::inRange<std::size_t>(base, whole.size() + 1);
  fs::resize_file(file, cut);
  const auto kept =
      static_cast<std::size_t>(std::count(whole.begin(), whole.begin() + static_cast<long>(cut), '\n')) - 1;
  lines.resize(kept);
  {
    Journal journal = opened(file);
    RC_ASSERT(journal.recorded().lines == lines);
    RC_ASSERT(!journal.append({"{\"redo\":1}"}));
  }
  lines.emplace_back("{\"redo\":1}");
  RC_ASSERT(opened(file).recorded().lines == lines);
}

TEST(journal, is_held_by_one_at_a_time) {
  const TemporaryFolder folder;
  const Journal first = opened(folder.path / "a");
  EXPECT_TRUE(std::holds_alternative<std::string>(Journal::open(folder.path / "a", "{}", "f", false)));
}

TEST(journal, begins_anew_and_moves) {
  const TemporaryFolder folder;
  {
    Journal journal = opened(folder.path / "a");
    EXPECT_FALSE(journal.append({"{\"do\":1}"}));
    EXPECT_FALSE(journal.restart("new", "f3", true));
    EXPECT_TRUE(journal.recorded().unsaved);
    EXPECT_TRUE(journal.recorded().lines.empty());
    EXPECT_FALSE(journal.rename(folder.path / "b"));
    EXPECT_FALSE(journal.append({"{\"do\":2}"}));
  }
  EXPECT_FALSE(fs::exists(folder.path / "a"));
  Journal moved = opened(folder.path / "b");
  EXPECT_EQ(moved.recorded().base, "new");
  EXPECT_EQ(moved.recorded().lines, std::vector<std::string>{"{\"do\":2}"});
  moved.remove();
  EXPECT_FALSE(fs::exists(folder.path / "b"));
}

TEST(journal, follows_no_link) {
  const TemporaryFolder folder;
  std::ofstream(folder.path / "target") << "mine";
  fs::create_symlink(folder.path / "target", folder.path / "a");
  EXPECT_TRUE(std::holds_alternative<std::string>(Journal::open(folder.path / "a", "{}", "f", false)));
  EXPECT_EQ(text_of(folder.path / "target"), "mine");
}

TEST(folder, takes_plain_names_only) {
  for (const char* name :
       {"", ".ornament.json", "../a.ornament.json", "a/b.ornament.json", ".a.ornament.json", "a.ornament.json/",
        "a.json", "a\n.ornament.json", "a\\b.ornament.json", "c:a.ornament.json"})
    EXPECT_TRUE(fault_of_name(name)) << name;
  EXPECT_TRUE(fault_of_name(std::string(200, 'a') + ".ornament.json"));
  EXPECT_TRUE(fault_of_name(std::string("a\0b.ornament.json", 17)));
  EXPECT_FALSE(fault_of_name("pear tree-2.ornament.json"));
  EXPECT_FALSE(fault_of_name("Bäumchen.ornament.json"));
}

TEST(folder, tells_texts_apart) {
  // Test vectors of FNV-1a with 64 bits: the offset basis for no text, and "a" (draft-eastlake-fnv; from memory).
  EXPECT_EQ(fingerprint(""), "cbf29ce484222325");
  EXPECT_EQ(fingerprint("a"), "af63dc4c8601ec8c");
}

TEST(asked, refuses_what_is_nested_too_deeply_or_no_json) {
  EXPECT_TRUE(asked::is_json("[[[1]]]"));
  EXPECT_FALSE(asked::is_json(std::string(100, '[') + std::string(100, ']')));
  EXPECT_FALSE(asked::is_json("{\"a\":1"));
  EXPECT_FALSE(asked::is_json("\"\xff\""));
  EXPECT_TRUE(asked::is_json("\"" + std::string(200, '[') + "\\\"[\""));
}

} // namespace
} // namespace fanwright::studio
