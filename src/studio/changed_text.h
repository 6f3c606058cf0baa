// Changes of a design file's text as JSON.
#pragma once

#include "design/design.h"
#include "studio/told.h"

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::studio {

/// The text with some of its sizes only, and with other papers: grammages in g/m2 by size, everything else about those
/// papers as usual for the grammage, but for grain and core. The text is known to be a sound design.
std::variant<std::string, design::Refusal> for_kit(const std::string& text,
                                                   const std::optional<std::vector<std::string>>& sizes,
                                                   const std::map<std::string, double>& grammages);

/// The text with the changes made; objects on the way are made where they are missing. Nothing when a pointer leads
/// through what is no object or list.
std::optional<std::string> with_changes(const std::string& text, const std::vector<told::Change>& changes);

/// `text` for a header: letters beyond ASCII become '-'.
std::string ascii(std::string text);

} // namespace fanwright::studio
