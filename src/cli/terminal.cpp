#include "cli/terminal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <string>
#include <unistd.h>

namespace fanwright::cli {
namespace {

volatile std::sig_atomic_t interrupt_seen = 0;

extern "C" void note_interrupt(int /*signal*/) { interrupt_seen = 1; }

} // namespace

void complain(std::string_view sentence) {
  std::string line(sentence);
  std::ranges::replace_if(
      line, [](unsigned char c) { return c < 0x20 || c == 0x7F; }, '?');
  fmt::print(stderr, "fanwright: {}\n", line);
}

Progress::Progress() : on_terminal(isatty(STDERR_FILENO) != 0) {}

Progress::~Progress() {
  if (shown) {
    std::fputs("\r\033[K", stderr);
  }
}

void Progress::show(double share, std::string_view doing) {
  if (!on_terminal) {
    return;
  }
  const auto percent = std::lround(100.0 * std::clamp(share, 0.0, 1.0));
  fmt::print(stderr, "\r\033[K{:3} %  {:.60}", percent, doing);
  std::fflush(stderr);
  shown = true;
}

bool finish_output() {
  if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) {
    return true;
  }
  complain("The result could not be written to standard output; the disk is full or its reader has gone.");
  return false;
}

void catch_interrupts() {
  static_cast<void>(std::signal(SIGINT, note_interrupt));
  static_cast<void>(std::signal(SIGTERM, note_interrupt));
}

bool interrupted() { return interrupt_seen != 0; }

} // namespace fanwright::cli
