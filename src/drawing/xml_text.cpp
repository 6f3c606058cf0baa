#include "drawing/xml_text.h"

namespace fanwright::drawing {

std::string xml_text(std::string_view words) {
  std::string text;
  for (const char letter : words) {
    if (letter == '&')
      text += "&amp;";
    else if (letter == '<')
      text += "&lt;";
    else if (letter == '>')
      text += "&gt;";
    else if (static_cast<unsigned char>(letter) >= 0x20)
      text += letter;
  }
  return text;
}

} // namespace fanwright::drawing
