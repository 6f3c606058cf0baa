// Programs that are not ours, let loose on what a test has drawn.
#pragma once

#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace outside {

/// A folder of its own for the running test, gone with it.
class Folder {
public:
  Folder() {
    std::string pattern = std::filesystem::temp_directory_path() / "fanwright-drawing-XXXXXX";
    path_ = mkdtemp(pattern.data());
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  /// Writes a file; gives its path.
  std::string file(const std::string& name, const std::string& bytes) const {
    const std::filesystem::path path = path_ / name;
    std::ofstream(path, std::ios::binary) << bytes;
    return path;
  }

private:
  std::filesystem::path path_;
};

/// Runs a script of tests/readers on files; what it said when it found fault, else nothing.
inline std::string faults_found_by(const std::string& script, const std::vector<std::string>& files) {
  std::string command = "'" FANWRIGHT_PYTHON "' '" FANWRIGHT_SOURCE_DIR "/tests/readers/" + script + "'";
  for (const std::string& file : files)
    command += " '" + file + "'";
  FILE* reader = popen((command + " 2>&1").c_str(), "r");
  if (reader == nullptr)
    return "cannot run " + command;
  std::string said;
  for (int letter = fgetc(reader); letter != EOF; letter = fgetc(reader))
    said += static_cast<char>(letter);
  return pclose(reader) == 0 ? "" : said + "\n(" + command + ")";
}

} // namespace outside
