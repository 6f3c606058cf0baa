#include "traced/svg_drawing.h"

#include "leaf/contour.h"
#include "traced/svg_shapes.h"
#include "traced/svg_values.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <set>
#include <unordered_map>

namespace fanwright::traced {
namespace {

using ClipList = std::vector<std::shared_ptr<const Clip>>;

constexpr int most_depth = 64;
constexpr std::size_t most_elements = 50'000;
constexpr std::size_t most_commands = 100'000;
constexpr std::size_t longest_style = 10'000;       ///< of one element, or of its list of classes
constexpr std::ptrdiff_t most_nodes = 1'000'000;    ///< elements and attributes, drawn or not
constexpr std::size_t most_characters = 16'000'000; ///< of what is drawn, reuse counted; 100,000 curves take 5 million

/// Where and how an element is drawn.
struct Place {
  Matrix matrix;
  Style style;
  ClipList clips;
  Viewport viewport;
  int depth = 0;
};

std::string_view reference(pugi::xml_node element) {
  for (const pugi::xml_attribute attribute : element.attributes()) {
    const std::string_view name = attribute.name();
    if (name == "href" || (name.size() > 5 && name.substr(name.size() - 5) == ":href"))
      return attribute.value();
  }
  return {};
}

/// "url(#id)" -> "id"; empty when it is none.
std::string identifier_in_url(std::string_view text) {
  const std::size_t hash = text.find('#');
  const std::size_t close = text.find_first_of(")\"'", std::min(hash, text.size()));
  if (text.substr(0, 4) != "url(" || hash == std::string_view::npos || close == std::string_view::npos)
    return {};
  return std::string(text.substr(hash + 1, close - hash - 1));
}

PaintedShape rectangle_shape(const Matrix& matrix, double x, double y, double width, double height) {
  leaf::Subpath subpath{{x, y}, {}, true};
  subpath.segments = {leaf::Line{{x + width, y}}, leaf::Line{{x + width, y + height}}, leaf::Line{{x, y + height}},
                      leaf::Line{{x, y}}};
  PaintedShape shape;
  shape.subpaths = {transformed(subpath, matrix)};
  return shape;
}

class Reader {
public:
  std::variant<SvgDrawing, std::string> read(std::string_view bytes) {
    // Each takes twice to ten times the room of its characters.
    if (std::count_if(bytes.begin(), bytes.end(), [](char c) { return c == '<' || c == '='; }) > most_nodes)
      return std::string("The SVG file holds more than a million elements and attributes; keep the silhouette alone.");
    pugi::xml_document document;
    const auto result = document.load_buffer(bytes.data(), bytes.size());
    if (!result)
      return "The SVG file is broken at byte " + std::to_string(result.offset + 1) + " of " +
             std::to_string(bytes.size()) + ": " + result.description() + ". Export it anew.";
    const pugi::xml_node root = document.document_element();
    if (local_name(root) != "svg")
      return "The file is XML but no SVG drawing: its outermost element is <" + std::string(local_name(root)) +
             ">. Export the drawing as SVG.";
    index(document);
    if (fault_.empty())
      draw_root(root);
    if (!fault_.empty())
      return fault_;
    for (const std::string& name : left_out_)
      drawing_.left_out.push_back(name);
    return std::move(drawing_);
  }

private:
  /// Finds identifiers and style sheets, without recursion: depth is the file's to choose.
  void index(pugi::xml_node document) {
    for (pugi::xml_node node = document.first_child(); node;) {
      if (const char* id = node.attribute("id").value(); *id != '\0')
        by_identifier_.emplace(id, node);
      for (const char* name : {"style", "class"})
        if (std::string_view(node.attribute(name).value()).size() > longest_style)
          refuse("The SVG file holds a style of more than 10000 characters; simplify it, or export the drawing anew.");
      if (local_name(node) == "style") {
        std::string text;
        for (const pugi::xml_node part : node.children())
          text += part.value();
        if (!sheet_.add(text))
          left_out_.insert("Style rules for more than one element together are not read.");
      }
      if (node.first_child()) {
        node = node.first_child();
        continue;
      }
      while (node && !node.next_sibling())
        node = node.parent();
      node = node ? node.next_sibling() : node;
    }
  }

  void draw_root(pugi::xml_node root) {
    const auto box = view_box(root.attribute("viewBox").value());
    const std::string_view width = root.attribute("width").value(), height = root.attribute("height").value();
    // CSS 2.2, section 10.3.2: without a size of its own a page is 300 by 150.
    const double whole_width = box ? box->width : 300, whole_height = box ? box->height : 150;
    drawing_.width = length(width, whole_width).value_or(whole_width);
    drawing_.height = length(height, whole_height).value_or(whole_height);
    if (box && length(width, 1) && !length(height, 1))
      drawing_.height = drawing_.width * box->height / box->width;
    if (box && !length(width, 1) && length(height, 1))
      drawing_.width = drawing_.height * box->width / box->height;
    drawing_.physical = is_physical(width) || is_physical(height);
    if (!(drawing_.width > 0) || !(drawing_.height > 0)) {
      fault_ = "The SVG page has no size; give its width and height.";
      return;
    }
    Place place;
    place.viewport = box ? Viewport{box->width, box->height} : Viewport{drawing_.width, drawing_.height};
    if (box)
      place.matrix = fit_into(*box, drawing_.width, drawing_.height, root.attribute("preserveAspectRatio").value());
    const Declared declared = sheet_.of(root);
    place.style = styled(declared, Style{});
    if (declared[Property::display] != "none")
      draw_children(root, place);
  }

  void draw_children(pugi::xml_node element, const Place& place) {
    for (const pugi::xml_node child : element.children()) {
      if (!fault_.empty())
        return;
      if (child.type() == pugi::node_element)
        draw(child, place);
    }
  }

  bool refuse(const std::string& sentence) {
    if (fault_.empty())
      fault_ = sentence;
    return false;
  }

  bool within_bounds(pugi::xml_node element, int depth) {
    for (const pugi::xml_attribute attribute : element.attributes())
      characters_ += std::strlen(attribute.name()) + std::strlen(attribute.value());
    if (characters_ > most_characters)
      return refuse("The SVG file takes more than 16 million characters to draw; keep the silhouette alone.");
    if (depth > most_depth)
      return refuse("The SVG file nests its groups or reuses its parts more than 64 deep; ungroup it.");
    if (++elements_ > most_elements)
      return refuse("The SVG file draws more than 50000 elements; keep the silhouette alone.");
    return true;
  }

  /// The element's own place; empty when nothing of it is shown.
  std::optional<Place> placed(const Declared& declared, const Place& outer) {
    if (declared[Property::display] == "none")
      return std::nullopt;
    std::string_view opacity_text = declared[Property::opacity];
    if (const auto opacity = take_number(opacity_text); opacity && *opacity <= 0)
      return std::nullopt;
    Place place = outer;
    ++place.depth;
    if (const auto own = transform(declared[Property::transform]))
      place.matrix = outer.matrix * *own;
    else
      refuse("The SVG file holds the transform '" + std::string(declared[Property::transform].substr(0, 60)) +
             "', which cannot be understood; write it as SVG does.");
    place.style = styled(declared, outer.style);
    if (const std::string_view mask = declared[Property::mask]; !mask.empty() && mask != "none")
      left_out_.insert("Masks are not read; use a clipping path.");
    return place;
  }

  void draw(pugi::xml_node element, const Place& outer) {
    const std::string_view name = local_name(element);
    if (name == "text" || name == "image") {
      left_out_.insert(name == "text" ? "Lettering is not read; turn it into outlines first."
                                      : "Pictures inside the SVG file are not read; give the picture file itself.");
      return;
    }
    const bool group = name == "g" || name == "a" || name == "switch" || name == "svg" || name == "use";
    if ((!group && !is_shape(name)) || !within_bounds(element, outer.depth))
      return;
    const Declared declared = sheet_.of(element);
    auto place = placed(declared, outer);
    if (!place)
      return;
    if (is_shape(name))
      draw_shape(element, declared, *std::move(place));
    else if (clip(declared, *place, std::nullopt))
      draw_group(element, declared, *place);
  }

  void draw_group(pugi::xml_node element, const Declared& declared, Place& place) {
    const std::string_view name = local_name(element);
    if (name == "use") {
      draw_reuse(element, place);
    } else if (name == "svg") {
      draw_viewport(element, declared, place, element);
    } else if (name == "switch") {
      const auto first = std::find_if(element.begin(), element.end(), [](const pugi::xml_node& child) {
        return child.type() == pugi::node_element && !child.attribute("requiredExtensions");
      });
      if (first != element.end())
        draw(*first, place);
    } else {
      draw_children(element, place);
    }
  }

  /// SVG 2, section 5.5: as a group moved to x, y that holds a copy.
  void draw_reuse(pugi::xml_node element, Place& place) {
    const std::string_view target = reference(element);
    if (target.empty() || target.front() != '#') {
      left_out_.insert("The drawing refers to another file, which is not read.");
      return;
    }
    const auto found = by_identifier_.find(std::string(target.substr(1)));
    if (found == by_identifier_.end())
      return;
    const double x = length(element.attribute("x").value(), place.viewport.width).value_or(0);
    const double y = length(element.attribute("y").value(), place.viewport.height).value_or(0);
    place.matrix = place.matrix * Matrix{1, 0, 0, 1, x, y};
    const std::string_view name = local_name(found->second);
    if (name != "symbol" && name != "svg") {
      draw(found->second, place);
      return;
    }
    if (!within_bounds(found->second, place.depth))
      return;
    const Declared declared = sheet_.of(found->second);
    if (auto inner = placed(declared, place))
      draw_viewport(found->second, declared, *inner, element);
  }

  /// An inner <svg>, or a <symbol> that takes its size from the <use> that shows it.
  void draw_viewport(pugi::xml_node element, const Declared& declared, Place& place, pugi::xml_node sized_by) {
    const bool inner = sized_by == element || local_name(element) == "svg";
    const double x = inner ? length(element.attribute("x").value(), place.viewport.width).value_or(0) : 0;
    const double y = inner ? length(element.attribute("y").value(), place.viewport.height).value_or(0) : 0;
    const auto side = [&](const char* attribute, double whole) {
      const auto by_user = length(sized_by.attribute(attribute).value(), whole);
      return by_user ? *by_user : length(element.attribute(attribute).value(), whole).value_or(whole);
    };
    const double width = side("width", place.viewport.width), height = side("height", place.viewport.height);
    if (!(width > 0) || !(height > 0))
      return;
    place.matrix = place.matrix * Matrix{1, 0, 0, 1, x, y};
    if (const std::string_view overflow = declared[Property::overflow]; overflow != "visible" && overflow != "auto") {
      auto window = std::make_shared<Clip>();
      window->shapes.push_back(rectangle_shape(place.matrix, 0, 0, width, height));
      place.clips.push_back(std::move(window));
    }
    place.viewport = {width, height};
    if (const auto box = view_box(element.attribute("viewBox").value())) {
      place.matrix = place.matrix * fit_into(*box, width, height, element.attribute("preserveAspectRatio").value());
      place.viewport = {box->width, box->height};
    }
    draw_children(element, place);
  }

  std::optional<PaintedShape> shape_in(pugi::xml_node element, const Place& place, leaf::Box* own_bounds) {
    auto read = shape_of(element, place.viewport);
    if (const auto* sentence = std::get_if<std::string>(&read)) {
      const std::string id = element.attribute("id").value();
      refuse((id.empty() ? "" : "The shape '" + id.substr(0, 40) + "': ") + *sentence);
      return std::nullopt;
    }
    PaintedShape shape;
    leaf::Box box{1e300, -1e300, 1e300, -1e300};
    for (const leaf::Subpath& subpath : std::get<std::vector<leaf::Subpath>>(read)) {
      commands_ += subpath.segments.size();
      shape.subpaths.push_back(transformed(subpath, place.matrix));
      const leaf::Subpath& moved = shape.subpaths.back();
      const leaf::Box page = leaf::bounds(leaf::Contour{moved.start, moved.segments});
      constexpr double furthest = 1e6; // pixels
      if (!(page.left > -furthest && page.right < furthest && page.bottom > -furthest && page.top < furthest)) {
        refuse("The SVG file draws too far away from its page; its units or transforms are wrong.");
        return std::nullopt;
      }
      const leaf::Box one = leaf::bounds(leaf::Contour{subpath.start, subpath.segments});
      box = {std::min(box.left, one.left), std::max(box.right, one.right), std::min(box.bottom, one.bottom),
             std::max(box.top, one.top)};
    }
    if (own_bounds != nullptr)
      *own_bounds = box;
    if (commands_ > most_commands) {
      refuse("The SVG file draws with more than 100000 curves and lines; keep the silhouette alone, drawn with fewer "
             "points.");
      return std::nullopt;
    }
    return shape;
  }

  void draw_shape(pugi::xml_node element, const Declared& declared, Place place) {
    leaf::Box box;
    auto shape = shape_in(element, place, &box);
    if (!shape || shape->subpaths.empty() || !clip(declared, place, box))
      return;
    shape->rule = place.style.fill_rule;
    shape->clips = place.clips;
    const Style& style = place.style;
    if (style.visible && style.fill_opacity > 0)
      shape->fill = style.fill;
    if (style.visible && style.stroke_opacity > 0 && style.stroke_width > 0)
      shape->stroke = style.stroke;
    if (shape->fill || shape->stroke)
      drawing_.shapes.push_back(*std::move(shape));
  }

  /// Adds an element's clipping path to its place; false when nothing is left to be seen. `box`: the element's own
  /// bounds where they are known; a group's are not.
  bool clip(const Declared& declared, Place& place, const std::optional<leaf::Box>& box) {
    const std::string id = identifier_in_url(declared[Property::clip_path]);
    if (id.empty())
      return true;
    const auto found = by_identifier_.find(id);
    if (found == by_identifier_.end() || local_name(found->second) != "clipPath")
      return true;
    const pugi::xml_node definition = found->second;
    if (!within_bounds(definition, place.depth))
      return false;
    Place inside;
    inside.depth = place.depth + 1;
    inside.matrix = place.matrix * transform(definition.attribute("transform").value()).value_or(Matrix{});
    inside.viewport = place.viewport;
    if (std::string_view(definition.attribute("clipPathUnits").value()) == "objectBoundingBox") {
      if (!box) {
        left_out_.insert("A clipping path measured by the size of a group is not read.");
        return true;
      }
      inside.matrix = inside.matrix * Matrix{box->width(), 0, 0, box->height(), box->left, box->bottom};
      inside.viewport = {1, 1};
    }
    auto area = std::make_shared<Clip>();
    Place outer = inside;
    if (!clip(sheet_.of(definition), outer, box))
      return false;
    area->within = outer.clips;
    for (const pugi::xml_node child : definition.children())
      add_to_clip(child, inside, *area);
    place.clips.push_back(std::move(area));
    return true;
  }

  void add_to_clip(pugi::xml_node element, const Place& outer, Clip& area) {
    const std::string_view name = local_name(element);
    if ((name != "use" && !is_shape(name)) || !within_bounds(element, outer.depth))
      return;
    const Declared declared = sheet_.of(element);
    auto place = placed(declared, outer);
    if (!place || !place->style.visible)
      return;
    if (name == "use") {
      const std::string_view target = reference(element);
      const auto found = target.empty() ? by_identifier_.end() : by_identifier_.find(std::string(target.substr(1)));
      if (found == by_identifier_.end())
        return;
      place->matrix = place->matrix * Matrix{1,
                                             0,
                                             0,
                                             1,
                                             length(element.attribute("x").value(), 0).value_or(0),
                                             length(element.attribute("y").value(), 0).value_or(0)};
      add_to_clip(found->second, *place, area);
      return;
    }
    leaf::Box box;
    auto shape = shape_in(element, *place, &box);
    if (!shape || !clip(declared, *place, box))
      return;
    shape->rule = place->style.clip_rule;
    shape->clips = place->clips;
    area.shapes.push_back(*std::move(shape));
  }

  StyleSheet sheet_;
  std::unordered_map<std::string, pugi::xml_node> by_identifier_;
  SvgDrawing drawing_;
  std::set<std::string> left_out_;
  std::size_t elements_ = 0, commands_ = 0, characters_ = 0;
  std::string fault_;
};

} // namespace

std::variant<SvgDrawing, std::string> read_svg(std::string_view bytes) { return Reader().read(bytes); }

} // namespace fanwright::traced
