// Which paint a shape of an SVG document carries: presentation attributes, style attributes and simple style sheets.
// Based on: SVG 2, chapters 6 and 13; CSS 2.2, chapters 5 and 6.
#pragma once

#include "traced/plane.h"

#include <pugixml.hpp>

#include <array>
#include <memory>
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

/// What decides whether, where and in which paint something is drawn.
enum class Property {
  clip_path,
  clip_rule,
  color,
  display,
  fill,
  fill_opacity,
  fill_rule,
  mask,
  opacity,
  overflow,
  stroke,
  stroke_opacity,
  stroke_width,
  transform,
  visibility,
  count
};

/// What is said of one element: of each property the value of the highest precedence, without blanks round it. The
/// values live as long as the document and the sheet.
class Declared {
public:
  /// Empty when nothing gives the property.
  std::string_view operator[](Property property) const { return values_[static_cast<std::size_t>(property)]; }

  void set(Property property, std::string_view value) { values_[static_cast<std::size_t>(property)] = value; }

private:
  std::array<std::string_view, static_cast<std::size_t>(Property::count)> values_;
};

/// The rules of all <style> elements.
class StyleSheet {
public:
  /// Adds the rules of a <style> element. Only types, classes, identifiers and combinations of them on one element are
  /// read, and 1,000 rules at most; false when others were left out.
  bool add(std::string_view raw);

  /// By its presentation attributes, the rules that match it and its style attribute, the later ones first.
  Declared of(pugi::xml_node element) const;

private:
  using Values = std::vector<std::pair<Property, std::string>>;
  struct Rule {
    std::string type, identifier;
    std::vector<int> classes; ///< ascending
    int weight = 0;
    std::shared_ptr<const Values> values;
  };
  bool read_selector(std::string_view text, Rule& rule);
  int number_of_class(std::string_view name);
  std::vector<int> classes_of(pugi::xml_node element) const;

  std::vector<Rule> rules_;                    ///< the strongest last
  std::unordered_map<std::string, int> names_; ///< classes that the rules name
};

/// An element's own style within its parent's.
Style styled(const Declared& declared, const Style& parent);

/// "svg:path" -> "path".
std::string_view local_name(pugi::xml_node element);

} // namespace fanwright::traced
