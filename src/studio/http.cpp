#include "studio/http.h"

#include "studio/intake.h"

#include <httplib.h>

#include <algorithm>
#include <cctype>
#include <cstring>
#include <poll.h>

namespace fanwright::studio {
namespace {

constexpr int write_patience_ms = 5'000; ///< for a reader that does not take its answer

std::string small(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

std::string first_of(const std::multimap<std::string, std::string>& values, const std::string& name) {
  const auto found = values.find(name);
  return found == values.end() ? std::string() : found->second;
}

/// A request that has come whole, and the connection its answer goes to.
class Exchange : public httplib::Stream {
public:
  Exchange(std::string bytes, int connection) : bytes_(std::move(bytes)), connection_(connection) {}

  bool is_readable() const override { return read_ < bytes_.size(); }

  /// False as soon as the reader has closed its side: an answer that goes on would be written to nobody.
  bool is_writable() const override {
    pollfd wanted{connection_, POLLOUT | POLLRDHUP, 0};
    return poll(&wanted, 1, 0) > 0 && (wanted.revents & (POLLRDHUP | POLLHUP | POLLERR)) == 0;
  }

  ssize_t read(char* to, std::size_t size) override {
    const std::size_t count = std::min(size, bytes_.size() - read_);
    std::memcpy(to, bytes_.data() + read_, count);
    read_ += count;
    return static_cast<ssize_t>(count);
  }

  ssize_t write(const char* from, std::size_t size) override {
    std::size_t done = 0;
    while (done < size) {
      pollfd wanted{connection_, POLLOUT, 0};
      if (poll(&wanted, 1, write_patience_ms) <= 0)
        return -1;
      const ssize_t count = send(connection_, from + done, size - done, MSG_NOSIGNAL | MSG_DONTWAIT);
      if (count < 0 && errno != EAGAIN && errno != EINTR)
        return -1;
      done += static_cast<std::size_t>(std::max<ssize_t>(count, 0));
    }
    return static_cast<ssize_t>(size);
  }

  void get_remote_ip_and_port(std::string& ip, int& port) const override { ip = "127.0.0.1", port = 0; }
  void get_local_ip_and_port(std::string& ip, int& port) const override { ip = "127.0.0.1", port = 0; }
  socket_t socket() const override { return connection_; }

private:
  std::string bytes_;
  std::size_t read_ = 0;
  int connection_;
};

/// httplib would squeeze every answer of a browser that takes squeezed ones, which costs more than it saves on one
/// machine. It is kept from seeing the header; the studio's own files are squeezed already.
constexpr std::string_view seen_header = "accept-encoding", kept_header = "taken-encodings";

void keep_encodings_from_httplib(std::string& head) {
  for (std::size_t at = head.find("\r\n"); at != std::string::npos; at = head.find("\r\n", at + 2))
    if (small(head.substr(at + 2, seen_header.size() + 1)) == std::string(seen_header) + ":")
      head.replace(at + 2, seen_header.size(), kept_header);
}

Request request_of(const httplib::Request& came) {
  Request request{came.method, came.path, {came.params.begin(), came.params.end()}, {}, came.body};
  for (const auto& [name, value] : came.headers)
    request.headers.emplace(small(name) == kept_header ? std::string(seen_header) : small(name), value);
  return request;
}

void fill(httplib::Response& response, Reply reply, const std::atomic<bool>& ending) {
  response.status = reply.status;
  for (const auto& [name, value] : reply.headers)
    response.headers.emplace(name, value);
  if (!reply.goes_on) {
    response.set_content(reply.body, reply.type);
    return;
  }
  const auto provide = [goes_on = std::move(reply.goes_on), &ending](std::size_t, httplib::DataSink& sink) {
    const auto write = [&](std::string_view text) {
      return !ending && sink.is_writable() && sink.write(text.data(), text.size());
    };
    if (ending || !sink.is_writable())
      return false;
    if (!goes_on(write))
      sink.done();
    return true;
  };
  response.set_chunked_content_provider(reply.type, provide);
}

std::string plain_answer(int status, const std::string& sentence) {
  const std::string body = "{\"sentence\":\"" + sentence + "\",\"where\":\"\"}"; // our own sentences hold no quotes
  return "HTTP/1.1 " + std::to_string(status) +
         " Refused\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) +
         "\r\nCache-Control: no-store\r\nX-Content-Type-Options: nosniff\r\n" + "Connection: close\r\n\r\n" + body;
}

} // namespace

std::string Request::header(const std::string& name) const { return first_of(headers, name); }
std::string Request::asked(const std::string& name) const { return first_of(query, name); }

class Server::Listener : public httplib::Server {
public:
  Listener(std::function<Reply(const Request&)> answer, Large large, Bounds bounds)
      : large_(std::move(large)), bounds_(bounds) {
    new_task_queue = [threads = bounds.threads] { return new httplib::ThreadPool(static_cast<std::size_t>(threads)); };
    set_address_family(AF_INET);
    // Unlike SO_REUSEPORT, which is httplib's choice, this lets no second server share the port.
    set_socket_options([](socket_t socket) {
      const int yes = 1;
      setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    // Everything is answered here, by one function; httplib reads the head and writes the answer.
    set_pre_routing_handler(
        [this, answer = std::move(answer)](const httplib::Request& came, httplib::Response& response) {
          fill(response, answer(with_body(came)), ending);
          return HandlerResponse::Handled;
        });
  }

  std::atomic<bool> ending = false;

  /// httplib's own queue holds five callers; a page that loads has more.
  void lengthen_queue() { ::listen(svr_sock_, 128); }

private:
  /// The body of the request that this thread has taken in; httplib has not come to it when it asks for the answer.
  static std::string& body_here() {
    thread_local std::string body;
    return body;
  }

  static Request with_body(const httplib::Request& came) {
    Request request = request_of(came);
    request.body = std::move(body_here());
    return request;
  }

  bool process_and_close_socket(socket_t socket) override {
    Intake intake = take_in(socket, bounds_, large_, waiting_, ending);
    if (intake.status == 0) {
      const std::size_t body = intake.bytes.find("\r\n\r\n") + 4;
      body_here() = intake.bytes.substr(body);
      intake.bytes.resize(body);
      keep_encodings_from_httplib(intake.bytes);
      Exchange exchange(std::move(intake.bytes), socket);
      bool closed = false;
      process_request(exchange, true, closed, nullptr);
    } else if (intake.status > 0) {
      const std::string text = plain_answer(intake.status, intake.sentence);
      Exchange(std::string(), socket).write(text.data(), text.size());
    }
    let_go(socket);
    ::close(socket);
    return true;
  }

  Large large_;
  Bounds bounds_;
  std::atomic<int> waiting_ = 0;
};

Server::Server(std::function<Reply(const Request&)> answer, Large large, Bounds bounds)
    : listener_(std::make_unique<Listener>(std::move(answer), std::move(large), bounds)) {}

Server::~Server() { stop(); }

std::optional<int> Server::bind(int port) {
  if (port == 0)
    port = listener_->bind_to_any_port("127.0.0.1");
  else if (!listener_->bind_to_port("127.0.0.1", port))
    return std::nullopt;
  if (port <= 0)
    return std::nullopt;
  listener_->lengthen_queue();
  return port;
}

void Server::run() {
  if (!listener_->ending)
    listener_->listen_after_bind();
}

void Server::stop() {
  listener_->ending = true;
  listener_->stop();
}

} // namespace fanwright::studio
