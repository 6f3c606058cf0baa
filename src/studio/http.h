// The web server under the studio: loopback only, every request bounded in size and time before anything looks at it.
#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace fanwright::studio {

/// One request, complete.
struct Request {
  std::string method; ///< "GET"
  std::string path;   ///< decoded, without the query
  std::multimap<std::string, std::string> query;
  std::multimap<std::string, std::string> headers; ///< names in small letters
  std::string body;

  /// The first header or query value of this name (small letters); empty when there is none.
  std::string header(const std::string& name) const;
  std::string asked(const std::string& name) const;
};

/// What is written while a reply goes on; false: the reader has gone, or the server is ending.
using Write = std::function<bool(std::string_view)>;

struct Reply {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::multimap<std::string, std::string> headers;
  /// Instead of `body`: called again and again to write on. It returns false when nothing more is to come, and never
  /// waits longer than about a second.
  std::function<bool(const Write&)> goes_on;
};

/// Bounds on every request.
struct Bounds {
  std::size_t head_bytes = 32'768; ///< request line and headers
  int headers = 64;
  std::size_t body_bytes = 1'048'576;
  std::size_t large_body_bytes = 64 * 1'048'576; ///< where `large` allows it
  std::chrono::milliseconds whole{10'000};       ///< from the first byte waited for to the last of the body
  std::chrono::milliseconds whole_when_busy{1'000};
  int busy = 24;    ///< requests that are being waited for, from which on less patience is had
  int threads = 96; ///< a third may be taken by replies that go on
};

/// Whether a request of this path and head (raw, small letters kept as sent) may have a large body.
using Large = std::function<bool(std::string_view path, std::string_view head)>;

class Server {
public:
  Server(std::function<Reply(const Request&)> answer, Large large, Bounds bounds = {});
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  /// Takes a port of 127.0.0.1, any free one when `port` is 0. Empty when it is not free.
  std::optional<int> bind(int port);

  /// Serves until stop(); call once, after bind().
  void run();

  /// From any thread, also before run().
  void stop();

private:
  class Listener;
  std::unique_ptr<Listener> listener_;
};

} // namespace fanwright::studio
