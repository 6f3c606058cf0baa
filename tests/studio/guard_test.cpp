#include "studio/guard.h"

#include <gtest/gtest.h>

#include <set>

namespace fanwright::studio {
namespace {

const Door door{40123, "0123456789abcdef0123456789abcdef"};

Request of_our_page(const std::string& method = "GET", const std::string& path = "/api/bench") {
  Request request{method, path, {}, {}, {}};
  request.headers = {{"host", "127.0.0.1:40123"},
                     {"cookie", "other=1; fanwright-40123=" + door.secret + "; more=2"},
                     {"sec-fetch-site", "same-origin"},
                     {"content-type", "application/json"}};
  return request;
}

int status_of(const Request& request) {
  const auto reply = refused(request, door);
  return reply ? reply->status : 200;
}

void set(Request& request, const std::string& name, const std::string& value) {
  request.headers.erase(name);
  request.headers.emplace(name, value);
}

TEST(guard, lets_our_own_page_in) {
  EXPECT_EQ(status_of(of_our_page()), 200);
  EXPECT_EQ(status_of(of_our_page("POST")), 200);
  Request local = of_our_page();
  set(local, "host", "localhost:40123");
  set(local, "origin", "http://localhost:40123");
  EXPECT_EQ(status_of(local), 200);
}

TEST(guard, refuses_other_names_for_this_machine) {
  for (const char* host : {"", "127.0.0.1", "127.0.0.1:40124", "127.0.0.1.evil.example:40123", "evil.example",
                           "127.0.0.1:40123.evil.example", "127.0.0.1:401230", "0.0.0.0:40123", "[::1]:40123"}) {
    Request request = of_our_page();
    set(request, "host", host);
    EXPECT_EQ(status_of(request), 421) << host;
    EXPECT_FALSE(let_in(request, door)) << host;
  }
  Request twice = of_our_page();
  twice.headers.emplace("host", "127.0.0.1:40123");
  EXPECT_EQ(status_of(twice), 421);
}

TEST(guard, refuses_requests_of_other_pages) {
  for (const char* origin : {"null", "http://evil.example", "https://127.0.0.1:40123", "http://127.0.0.1:40124", ""}) {
    Request request = of_our_page("POST");
    set(request, "origin", origin);
    EXPECT_EQ(status_of(request), 403) << origin;
  }
  for (const char* site : {"cross-site", "same-site", "none", "", "same-origin, cross-site"}) {
    Request request = of_our_page("POST");
    set(request, "sec-fetch-site", site);
    EXPECT_EQ(status_of(request), 403) << site;
  }
}

TEST(guard, takes_a_typed_address_for_the_start_alone) {
  Request start = of_our_page("GET", "/");
  set(start, "sec-fetch-site", "none");
  EXPECT_EQ(status_of(start), 200);
  Request other = of_our_page("GET", "/api/bench");
  set(other, "sec-fetch-site", "none");
  EXPECT_EQ(status_of(other), 403);
}

TEST(guard, wants_the_whole_key_under_its_own_name) {
  const std::string name = "fanwright-40123=";
  for (const std::string& cookie :
       {std::string(), name, name + "0123", name + door.secret + "0", "x" + name + door.secret, door.secret,
        "fanwright-40124=" + door.secret, name + "1123456789abcdef0123456789abcdef"}) {
    Request request = of_our_page();
    set(request, "cookie", cookie);
    EXPECT_EQ(status_of(request), 403) << cookie;
  }
}

TEST(guard, wants_json_bodies) {
  for (const char* type : {"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data"}) {
    Request request = of_our_page("POST");
    set(request, "content-type", type);
    EXPECT_EQ(status_of(request), 415) << type;
  }
  Request drawing = of_our_page("POST", "/api/import");
  set(drawing, "content-type", "image/svg+xml");
  EXPECT_EQ(status_of(drawing), 200);
}

TEST(guard, gives_the_cookie_for_the_key_and_nothing_else) {
  Request start{"GET", "/", {{"key", door.secret}}, {{"host", "127.0.0.1:40123"}}, {}};
  const auto entry = let_in(start, door);
  ASSERT_TRUE(entry);
  EXPECT_EQ(entry->status, 303);
  EXPECT_EQ(entry->headers.find("Location")->second, "/");
  EXPECT_EQ(entry->headers.find("Set-Cookie")->second,
            "fanwright-40123=" + door.secret + "; HttpOnly; SameSite=Strict; Path=/");
  start.query = {{"key", "wrong"}};
  EXPECT_FALSE(let_in(start, door));
  start.query = {{"key", door.secret}};
  start.path = "/api/bench";
  EXPECT_FALSE(let_in(start, door));
}

TEST(guard, makes_a_new_secret_each_time) {
  std::set<std::string> secrets;
  for (int k = 0; k < 100; ++k)
    secrets.insert(new_secret());
  EXPECT_EQ(secrets.size(), 100U);
  for (const std::string& secret : secrets)
    EXPECT_EQ(secret.find_first_not_of("0123456789abcdef"), std::string::npos);
  EXPECT_EQ(secrets.begin()->size(), 32U);
}

} // namespace
} // namespace fanwright::studio
