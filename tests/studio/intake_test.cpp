#include "studio/intake.h"

#include <gtest/gtest.h>

#include <sys/socket.h>
#include <thread>
#include <unistd.h>

namespace fanwright::studio {
namespace {

/// What take_in() makes of bytes that are sent in one go, the sender then waiting or closing.
Intake taken(const std::string& bytes, bool closes = true, const Large& large = {}) {
  int ends[2];
  EXPECT_EQ(socketpair(AF_UNIX, SOCK_STREAM, 0, ends), 0);
  Bounds bounds;
  bounds.whole = std::chrono::milliseconds(300);
  bounds.body_bytes = 1000;
  bounds.large_body_bytes = 5000;
  std::atomic<int> waiting = 0;
  const std::atomic<bool> ending = false;
  std::thread sender([&] {
    static_cast<void>(send(ends[0], bytes.data(), bytes.size(), MSG_NOSIGNAL));
    if (closes)
      shutdown(ends[0], SHUT_WR);
  });
  Intake intake = take_in(ends[1], bounds, large, waiting, ending);
  sender.join();
  close(ends[0]);
  close(ends[1]);
  EXPECT_EQ(waiting, 0);
  return intake;
}

const std::string start = "POST /a?b=c HTTP/1.1\r\nHost: here\r\n";

TEST(intake, takes_a_whole_request_and_no_more) {
  const std::string request = start + "Content-Length: 5\r\n\r\nhello";
  EXPECT_EQ(taken(request).status, 0);
  EXPECT_EQ(taken(request + "GET /hidden HTTP/1.1\r\n\r\n").bytes, request);
  EXPECT_EQ(taken("GET / HTTP/1.1\r\n\r\n").bytes, "GET / HTTP/1.1\r\n\r\n");
}

TEST(intake, refuses_what_is_no_request) {
  for (const char* text :
       {"\r\n\r\n", "GET\r\n\r\n", "GET / HTTP/2\r\n\r\n", "GET  HTTP/1.1\r\n\r\n", "GET x HTTP/1.1\r\n\r\n",
        "GET / HTTP/1.1\r\nno colon\r\n\r\n", "GET / HTTP/1.1\r\n: empty\r\n\r\n", "GET / HTTP/1.1\r\nA : b\r\n\r\n",
        "GET / HTTP/1.1\r\nA: b\nB: c\r\n\r\n", "G(T / HTTP/1.1\r\n\r\n", "GET /\x01 HTTP/1.1\r\n\r\n"})
    EXPECT_EQ(taken(text).status, 400) << text;
}

TEST(intake, bounds_sizes) {
  EXPECT_EQ(taken(start + "Content-Length: 1001\r\n\r\n").status, 413);
  EXPECT_EQ(taken(start + "Content-Length: 99999999999999999999999\r\n\r\n").status, 413);
  EXPECT_EQ(taken(start + "X: " + std::string(40'000, 'a') + "\r\n\r\n").status, 431);
  std::string many = start;
  for (int k = 0; k < 70; ++k)
    many += "X: y\r\n";
  EXPECT_EQ(taken(many + "\r\n").status, 431);
}

TEST(intake, lets_bodies_be_large_where_it_is_told_to) {
  const std::string large = start + "Content-Length: 4000\r\n\r\n" + std::string(4000, 'x');
  EXPECT_EQ(taken(large).status, 413);
  EXPECT_EQ(taken(large, true, [](std::string_view path, std::string_view) { return path == "/a"; }).status, 0);
  EXPECT_EQ(taken(large, true, [](std::string_view path, std::string_view) { return path == "/b"; }).status, 413);
}

TEST(intake, refuses_lengths_that_could_hide_a_request) {
  EXPECT_EQ(taken(start + "Content-Length: 1\r\nContent-Length: 2\r\n\r\nab").status, 400);
  EXPECT_EQ(taken(start + "Content-Length: -1\r\n\r\n").status, 400);
  EXPECT_EQ(taken(start + "Content-Length: 5 5\r\n\r\nhello").status, 400);
  EXPECT_EQ(taken(start + "Transfer-Encoding: chunked\r\n\r\n0\r\n\r\n").status, 411);
  EXPECT_EQ(taken(start + "Range: bytes=0-\r\n\r\n").status, 416);
}

TEST(intake, waits_for_slow_senders_only_so_long) {
  EXPECT_EQ(taken(start + "Content-Length: 5\r\n\r\nhe", false).status, 408);
  EXPECT_EQ(taken("GET / HT", false).status, 408);
  EXPECT_EQ(taken("", false).status, -1);
  EXPECT_EQ(taken("GET / HT", true).status, -1);
}

} // namespace
} // namespace fanwright::studio
