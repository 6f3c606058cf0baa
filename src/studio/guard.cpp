#include "studio/guard.h"

#include "studio/told.h"

#include <array>
#include <cassert>
#include <string_view>
#include <sys/random.h>

namespace fanwright::studio {
namespace {

constexpr const char* how_to_come_in =
    "This page belongs to a running studio and needs its key; open the address that fanwright studio printed.";

bool same_secret(std::string_view given, std::string_view secret) {
  if (given.size() != secret.size())
    return false;
  unsigned char differs = 0; // takes as long wherever they differ
  for (std::size_t k = 0; k < secret.size(); ++k)
    differs = static_cast<unsigned char>(differs | (given[k] ^ secret[k]));
  return differs == 0;
}

bool holds_key(const Request& request, const Door& door) {
  const std::string wanted = door.cookie_name() + "=";
  const auto [begin, end] = request.headers.equal_range("cookie");
  for (auto header = begin; header != end; ++header) {
    std::string_view rest = header->second;
    while (!rest.empty()) {
      const std::size_t stop = rest.find(';');
      std::string_view pair = rest.substr(0, stop);
      rest.remove_prefix(stop == std::string_view::npos ? rest.size() : stop + 1);
      while (pair.starts_with(' '))
        pair.remove_prefix(1);
      if (pair.starts_with(wanted) && same_secret(pair.substr(wanted.size()), door.secret))
        return true;
    }
  }
  return false;
}

bool ours(std::string_view host, const Door& door) {
  const std::string port = ":" + std::to_string(door.port);
  return host == "127.0.0.1" + port || host == "localhost" + port;
}

/// Every header of this name must pass, and `least` of them must be there.
bool all_headers(const Request& request, const char* name, std::size_t least, auto&& passes) {
  const auto [begin, end] = request.headers.equal_range(name);
  std::size_t count = 0;
  for (auto header = begin; header != end; ++header, ++count)
    if (!passes(header->second))
      return false;
  return count >= least;
}

bool from_our_page(const Request& request, const Door& door) {
  constexpr std::string_view scheme = "http://";
  const auto our_origin = [&](std::string_view origin) {
    return origin.starts_with(scheme) && ours(origin.substr(scheme.size()), door);
  };
  const bool start = request.method == "GET" && request.path == "/";
  const auto our_site = [&](std::string_view site) { return site == "same-origin" || (site == "none" && start); };
  return all_headers(request, "origin", 0, our_origin) && all_headers(request, "sec-fetch-site", 0, our_site);
}

bool json_body(const Request& request) {
  const std::string type = request.header("content-type");
  return type.substr(0, type.find(';')) == "application/json";
}

} // namespace

std::string new_secret() {
  std::array<unsigned char, 16> random{};
  std::size_t have = 0;
  while (have < random.size())
    if (const ssize_t count = getrandom(random.data() + have, random.size() - have, 0); count > 0)
      have += static_cast<std::size_t>(count);
  std::string secret;
  for (const unsigned char byte : random) {
    secret += "0123456789abcdef"[byte >> 4];
    secret += "0123456789abcdef"[byte & 15];
  }
  return secret;
}

std::optional<Reply> refused(const Request& request, const Door& door) {
  const auto our_host = [&](std::string_view host) { return ours(host, door); };
  if (!all_headers(request, "host", 1, our_host) || request.headers.count("host") != 1)
    return told::refusal(421, "This studio answers at 127.0.0.1 and localhost only.");
  if (!from_our_page(request, door))
    return told::refusal(403, "The request comes from another page; only the studio's own page may ask.");
  if (!holds_key(request, door))
    return told::refusal(403, how_to_come_in);
  const bool changes = request.method == "POST" || request.method == "PUT" || request.method == "DELETE";
  if (changes && request.path != "/api/import" && !json_body(request))
    return told::refusal(415, "Send the body as application/json.");
  return std::nullopt;
}

std::optional<Reply> let_in(const Request& request, const Door& door) {
  const auto our_host = [&](std::string_view host) { return ours(host, door); };
  if (request.method != "GET" || request.path != "/" || !all_headers(request, "host", 1, our_host))
    return std::nullopt;
  if (!same_secret(request.asked("key"), door.secret))
    return std::nullopt;
  Reply reply;
  reply.status = 303;
  reply.headers.emplace("Location", "/");
  reply.headers.emplace("Set-Cookie", door.cookie_name() + "=" + door.secret + "; HttpOnly; SameSite=Strict; Path=/");
  reply.type = "text/plain";
  return reply;
}

void harden(Reply& reply, const std::string& path) {
  reply.headers.emplace("Content-Security-Policy",
                        "default-src 'self'; img-src 'self' data: blob:; style-src 'self' 'unsafe-inline'; "
                        "object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  reply.headers.emplace("X-Content-Type-Options", "nosniff");
  reply.headers.emplace("Referrer-Policy", "no-referrer");
  reply.headers.emplace("Cross-Origin-Resource-Policy", "same-origin");
  reply.headers.emplace("Cross-Origin-Opener-Policy", "same-origin");
  const bool lasting = path.starts_with("/assets/") && reply.status == 200; // their names carry a digest
  reply.headers.emplace("Cache-Control", lasting ? "private, max-age=31536000, immutable" : "no-store");
}

} // namespace fanwright::studio
