// What a command says to the person at the terminal, as opposed to its result on standard output.
#pragma once

#include <string_view>

namespace fanwright::cli {

/// Exit codes of every command.
enum Exit : int {
  good = 0,
  check_failed = 1, ///< the design is understood but fails a check
  refused = 2,      ///< the command or the file is wrong
};

/// Writes "fanwright: <sentence>" as exactly one line to standard error; control characters become '?'.
void complain(std::string_view sentence);

/// One line on standard error that is overwritten as work goes on. Shows nothing when standard error is no terminal.
class Progress {
public:
  Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  Progress(Progress&&) = delete;
  Progress& operator=(Progress&&) = delete;
  ~Progress(); ///< wipes the line

  /// `share` 0..1 of the work is done; `doing` says what comes now.
  void show(double share, std::string_view doing);

private:
  bool on_terminal;
  bool shown = false;
};

/// Flushes standard output; false, with a complaint, when not all of it could be written.
bool finish_output();

/// From now on an interrupt (Ctrl-C) or a request to end no longer ends the process at once but makes interrupted()
/// true.
void catch_interrupts();
bool interrupted();

} // namespace fanwright::cli
