// Which paint a shape of an SVG document carries: presentation attributes, style attributes and simple style sheets.
// Based on: SVG 2, chapters 6 and 13; CSS 2.2, chapters 5 and 6.
#pragma once

#include "traced/plane.h"

#include <pugixml.hpp>

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace fanwright::traced {

/// A colour, or another paint (a gradient, a named colour) by its text.
struct Paint {
  std::optional<std::array<int, 3>> rgb;
  std::string text;
};

/// Whether the eye takes them for one.
bool alike(const Paint& a, const Paint& b);
Paint white();

/// What is inherited from group to shape.
struct Style {
  std::optional<Paint> fill = Paint{std::array{0, 0, 0}, ""};
  std::optional<Paint> stroke;
  std::string colour = "black"; ///< what currentColor stands for
  double fill_opacity = 1, stroke_opacity = 1, stroke_width = 1;
  FillRule fill_rule = FillRule::nonzero, clip_rule = FillRule::nonzero;
  bool visible = true;
};

/// What an element says, sheets regarded; the value of the highest precedence.
class StyleSheet {
public:
  /// Adds the rules of a <style> element. Only types, classes, identifiers and combinations of them on one element are
  /// read, and 1,000 rules at most; false when others were left out.
  bool add(std::string_view text);

  /// Empty when nothing gives the property.
  std::string value(pugi::xml_node element, std::string_view property) const;

private:
  struct Rule {
    std::string type, identifier;
    std::vector<std::string> classes;
    int weight = 0;
    std::vector<std::pair<std::string, std::string>> declarations;
  };
  static bool read_selector(std::string_view text, Rule& rule);
  static bool matches(const Rule& rule, pugi::xml_node element);

  std::vector<Rule> rules_;
  std::unordered_map<std::string, std::vector<std::size_t>> by_property_; ///< rules that declare it, the strongest last
};

/// The element's own style within its parent's.
Style styled(const StyleSheet& sheet, pugi::xml_node element, const Style& parent);

/// "svg:path" -> "path".
std::string_view local_name(pugi::xml_node element);

} // namespace fanwright::traced
