// Who may come in: only the page this studio has served itself, in the browser that holds its secret.
// Based on: RFC 9110 (Host, methods), W3C Fetch Metadata Request Headers (Sec-Fetch-Site), RFC 6265bis (SameSite).
#pragma once

#include "studio/http.h"

#include <optional>
#include <string>

namespace fanwright::studio {

/// What the one at the door goes by.
struct Door {
  int port = 0;
  std::string secret; ///< 32 random letters and digits

  std::string cookie_name() const { return "fanwright-" + std::to_string(port); }
};

/// A secret that nobody can guess: 128 random bits of the system as hexadecimal digits.
std::string new_secret();

/// The refusal, or nothing where the request may be looked at: 421 for a foreign Host (another name that leads here),
/// 403 for a foreign page and without the secret, 415 for a body that is not JSON.
std::optional<Reply> refused(const Request& request, const Door& door);

/// The answer to "/?key=SECRET": to "/", with the secret in a cookie. Nothing when it is another request or another
/// key.
std::optional<Reply> let_in(const Request& request, const Door& door);

/// Headers that every answer carries.
void harden(Reply& reply, const std::string& path);

} // namespace fanwright::studio
