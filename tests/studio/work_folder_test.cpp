#include "studio/work_folder.h"

#include <gtest/gtest.h>

#include <csignal>
#include <cstdlib>
#include <fstream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

namespace fanwright::studio {
namespace {

namespace fs = std::filesystem;

/// Each test has a place of its own.
class WorkFolders : public ::testing::Test {
protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "work-folder-XXXXXX").string();
    ASSERT_NE(mkdtemp(name.data()), nullptr);
    place = name;
  }
  void TearDown() override { fs::remove_all(place); }
  fs::path place;
};

/// Another process makes a folder with a file in it and is killed; the folder.
fs::path left_by_a_killed_studio(const fs::path& place) {
  int told[2];
  if (pipe(told) != 0)
    return {};
  const pid_t child = fork();
  if (child == 0) {
    const auto folder = WorkFolder::make(place);
    std::ofstream(folder->path() / "kit.zip") << "half a kit";
    const std::string name = folder->path().string();
    static_cast<void>(write(told[1], name.c_str(), name.size()));
    pause();
  }
  char name[4096] = {};
  static_cast<void>(read(told[0], name, sizeof name - 1));
  kill(child, SIGKILL);
  waitpid(child, nullptr, 0);
  close(told[0]);
  close(told[1]);
  return name;
}

TEST_F(WorkFolders, are_gone_with_their_owner) {
  fs::path folder;
  {
    const auto made = WorkFolder::make(place);
    ASSERT_TRUE(made);
    folder = made->path();
    EXPECT_TRUE(fs::is_directory(folder));
    EXPECT_EQ(fs::status(folder).permissions(), fs::perms::owner_all);
  }
  EXPECT_FALSE(fs::exists(folder));
}

TEST_F(WorkFolders, of_killed_studios_are_cleared_away_but_not_those_of_living_ones_or_others) {
  const fs::path left = left_by_a_killed_studio(place);
  ASSERT_TRUE(fs::exists(left / "kit.zip"));
  const auto living = WorkFolder::make(place);
  const fs::path other = place / "fanwright-studio-notes", target = place / "elsewhere",
                 link = place / "fanwright-studio-link";
  fs::create_directories(other);
  fs::create_directories(target);
  std::ofstream(target / "owner") << "";
  fs::create_directory_symlink(target, link);
  WorkFolder::clear_abandoned(place);
  EXPECT_FALSE(fs::exists(left));
  EXPECT_TRUE(fs::exists(living->path()));
  EXPECT_TRUE(fs::exists(other));
  EXPECT_TRUE(fs::exists(target / "owner"));
  EXPECT_TRUE(fs::is_symlink(link));
}

TEST_F(WorkFolders, cannot_be_where_there_is_no_such_place) {
  EXPECT_FALSE(WorkFolder::make("/nowhere/at/all"));
  WorkFolder::clear_abandoned("/nowhere/at/all");
}

} // namespace
} // namespace fanwright::studio
