#include "studio/intake.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <poll.h>
#include <sys/socket.h>

namespace fanwright::studio {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::string_view end_of_head = "\r\n\r\n";
constexpr int slice_ms = 200; ///< how often the end of the server is looked for

Intake refused(int status, std::string sentence) { return {{}, status, std::move(sentence)}; }

std::string small(std::string_view text) {
  std::string letters(text);
  std::ranges::transform(letters, letters.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return letters;
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
    text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
    text.remove_suffix(1);
  return text;
}

/// What the head says of the body.
struct Head {
  std::string_view path;
  bool sound = true; ///< a request line and headers as RFC 9112 writes them
  int headers = 0;
  bool encoded = false;       ///< sent in chunks or otherwise
  bool ranges = false;        ///< asks for parts of an answer
  bool asks_to_go_on = false; ///< "Expect: 100-continue"
  std::optional<std::size_t> length;
};

bool token(std::string_view name) {
  return !name.empty() && std::ranges::all_of(name, [](unsigned char c) {
    return std::isalnum(c) != 0 ||
           std::string_view("!#$%&'*+-.^_`|~").find(static_cast<char>(c)) != std::string_view::npos;
  });
}

void note_header(Head& head, const std::string& name, std::string_view value) {
  ++head.headers;
  if (name == "transfer-encoding")
    head.encoded = true;
  if (name == "range")
    head.ranges = true;
  if (name == "expect")
    head.asks_to_go_on = small(value) == "100-continue";
  if (name != "content-length")
    return;
  std::size_t length = 0;
  const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), length);
  const bool whole = error == std::errc{} && end == value.data() + value.size();
  // Two lengths are how one request is hidden in another.
  head.sound = head.sound && !head.length && (whole || error == std::errc::result_out_of_range);
  head.length = whole ? length : SIZE_MAX;
}

/// "GET /path HTTP/1.1", the path without its query.
bool read_request_line(Head& head, std::string_view line) {
  const std::size_t first = line.find(' ');
  const std::size_t second = first == std::string_view::npos ? first : line.find(' ', first + 1);
  if (second == std::string_view::npos || !token(line.substr(0, first)))
    return false;
  const std::string_view target = line.substr(first + 1, second - first - 1);
  const std::string_view version = line.substr(second + 1);
  head.path = target.substr(0, target.find('?'));
  const auto printable = [](unsigned char c) { return c > 0x20 && c < 0x7F; };
  return (version == "HTTP/1.1" || version == "HTTP/1.0") && target.starts_with('/') &&
         std::ranges::all_of(target, printable);
}

Head read_head(std::string_view text) {
  Head head;
  head.sound = !text.empty();
  bool first = true;
  while (!text.empty() && head.sound) {
    const std::size_t end = text.find("\r\n");
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 2);
    if (first) {
      head.sound = read_request_line(head, line);
      first = false;
      continue;
    }
    const std::size_t colon = line.find(':');
    head.sound = colon != std::string_view::npos && token(line.substr(0, colon)) &&
                 line.find_first_of(std::string_view("\0\r\n", 3)) == std::string_view::npos;
    if (head.sound)
      note_header(head, small(line.substr(0, colon)), trimmed(line.substr(colon + 1)));
  }
  return head;
}

/// Counts itself among the requests that are being waited for.
class Waiting {
public:
  explicit Waiting(std::atomic<int>& count) : count_(count) { ++count_; }
  ~Waiting() { --count_; }
  Waiting(const Waiting&) = delete;
  Waiting& operator=(const Waiting&) = delete;

private:
  std::atomic<int>& count_;
};

/// The bytes of one connection, as long as patience lasts.
class Reader {
public:
  Reader(int socket, const Bounds& bounds, std::atomic<int>& waiting, const std::atomic<bool>& ending)
      : socket_(socket), bounds_(bounds), waiting_(waiting), ending_(ending), start_(Clock::now()) {}

  enum Came { more, late, gone };

  /// Appends what has come to `bytes`, at most `most` bytes.
  Came read(std::string& bytes, std::size_t most) {
    while (!ending_) {
      const auto patience = waiting_ >= bounds_.busy ? bounds_.whole_when_busy : bounds_.whole;
      if (Clock::now() - start_ > patience)
        return late;
      pollfd wanted{socket_, POLLIN, 0};
      if (poll(&wanted, 1, slice_ms) <= 0)
        continue;
      std::array<char, 16'384> block{};
      const ssize_t count = recv(socket_, block.data(), std::min(block.size(), most), 0);
      if (count <= 0)
        return gone;
      bytes.append(block.data(), static_cast<std::size_t>(count));
      return more;
    }
    return gone;
  }

private:
  int socket_;
  const Bounds& bounds_;
  std::atomic<int>& waiting_;
  const std::atomic<bool>& ending_;
  Clock::time_point start_;
};

Intake stopped(Reader::Came came) {
  return came == Reader::gone ? refused(-1, "") : refused(408, "The request took too long to arrive; send it again.");
}

std::optional<Intake> fault_of(const Head& head, std::string_view head_text, const Bounds& bounds, const Large& large) {
  if (!head.sound)
    return refused(400, "This is not a request that can be understood.");
  if (head.headers > bounds.headers)
    return refused(431, "The request has too many headers.");
  if (head.encoded)
    return refused(411, "The request has to say how long its body is.");
  if (head.ranges)
    return refused(416, "Answers are given whole only; ask without a range.");
  const bool may_be_large = large && large(head.path, head_text);
  if (head.length.value_or(0) > (may_be_large ? bounds.large_body_bytes : bounds.body_bytes))
    return refused(413, "The body is too large: at most 1 MiB, or 64 MiB for a drawing to take over.");
  return std::nullopt;
}

} // namespace

Intake take_in(int socket, const Bounds& bounds, const Large& large, std::atomic<int>& waiting,
               const std::atomic<bool>& ending) {
  const Waiting counted(waiting);
  Reader reader(socket, bounds, waiting, ending);
  Intake intake;
  std::string& bytes = intake.bytes;
  std::size_t head_end = std::string::npos;
  while ((head_end = bytes.find(end_of_head)) == std::string::npos) {
    if (bytes.size() >= bounds.head_bytes)
      return refused(431, "The headers of the request are too long.");
    if (const auto came = reader.read(bytes, bounds.head_bytes + 1); came != Reader::more)
      return bytes.empty() ? refused(-1, "") : stopped(came);
  }
  if (head_end > bounds.head_bytes)
    return refused(431, "The headers of the request are too long.");
  const Head head = read_head(std::string_view(bytes).substr(0, head_end));
  if (auto fault = fault_of(head, std::string_view(bytes).substr(0, head_end), bounds, large))
    return *fault;
  const std::size_t whole = head_end + end_of_head.size() + head.length.value_or(0);
  if (head.asks_to_go_on && bytes.size() < whole) {
    constexpr std::string_view go_on = "HTTP/1.1 100 Continue\r\n\r\n";
    static_cast<void>(send(socket, go_on.data(), go_on.size(), MSG_NOSIGNAL));
  }
  while (bytes.size() < whole)
    if (const auto came = reader.read(bytes, whole - bytes.size()); came != Reader::more)
      return stopped(came);
  bytes.resize(whole); // one request a connection
  return intake;
}

void let_go(int socket) {
  constexpr auto patience = std::chrono::milliseconds(300);
  constexpr std::size_t most = 4 * 1'048'576;
  shutdown(socket, SHUT_WR);
  std::array<char, 16'384> block{};
  std::size_t taken = 0;
  const auto start = Clock::now();
  while (taken < most && Clock::now() - start < patience) {
    pollfd wanted{socket, POLLIN, 0};
    if (poll(&wanted, 1, 50) <= 0)
      continue;
    const ssize_t count = recv(socket, block.data(), block.size(), 0);
    if (count <= 0)
      return;
    taken += static_cast<std::size_t>(count);
  }
}

} // namespace fanwright::studio
