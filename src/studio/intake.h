// Reads one request from a connection, within bounds of size and time.
#pragma once

#include "studio/http.h"

#include <atomic>
#include <string>

namespace fanwright::studio {

/// A request as it came over the wire, or why it is not taken.
struct Intake {
  std::string bytes; ///< head and body
  int status = 0;    ///< 0: take it; -1: nothing came, or the sender has gone; else what to answer
  std::string sentence;
};

/// Waits for a whole request on `socket`. `waiting` counts the requests that are being waited for; `ending` ends it.
/// Bodies need a Content-Length (411 otherwise).
Intake take_in(int socket, const Bounds& bounds, const Large& large, std::atomic<int>& waiting,
               const std::atomic<bool>& ending);

/// Takes what the sender still sends, for a short while, so that the answer is not lost when the connection is closed.
void let_go(int socket);

} // namespace fanwright::studio
