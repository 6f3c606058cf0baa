#include "cli/studio_command.h"

#include "cli/terminal.h"
#include "studio/folder.h"
#include "studio/studio.h"

#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <system_error>
#include <thread>
#include <unistd.h>

namespace fanwright::cli {
namespace {

namespace fs = std::filesystem;

/// Asks the desktop to show the address. Whether there is a desktop does not matter: the address is printed as well.
void show_in_browser(std::string address) {
  std::thread([address = std::move(address)]() mutable {
    std::string program = "xdg-open";
    char* arguments[] = {program.data(), address.data(), nullptr};
    posix_spawn_file_actions_t quietly;
    posix_spawn_file_actions_init(&quietly);
    posix_spawn_file_actions_addopen(&quietly, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&quietly, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    pid_t browser = 0;
    if (posix_spawnp(&browser, program.c_str(), &quietly, nullptr, arguments, environ) == 0)
      waitpid(browser, nullptr, 0);
    posix_spawn_file_actions_destroy(&quietly);
  }).detach();
}

} // namespace

int run_studio(const StudioRequest& request) {
  const fs::path file = request.file;
  studio::Options options;
  std::error_code error;
  options.folder = fs::canonical(file.has_parent_path() ? file.parent_path() : fs::path("."), error);
  if (error) {
    complain(request.file + ": There is no such folder; check its name.");
    return Exit::refused;
  }
  if (!request.file.empty())
    options.file = file.filename().string();
  options.port = request.port;
  catch_interrupts();
  options.interrupted = interrupted;
  options.started = [&](const std::string& address) {
    fmt::print("Fanwright studio: {}  (Ctrl+C ends it)\n", address);
    std::fflush(stdout);
    if (!request.no_browser)
      show_in_browser(address);
  };
  if (const auto sentence = studio::run(options)) {
    complain((request.file.empty() ? "" : request.file + ": ") + *sentence);
    return Exit::refused;
  }
  return Exit::good;
}

} // namespace fanwright::cli
