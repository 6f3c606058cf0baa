#include "traced/overlay.h"

#include "leaf/contour.h"

#include <algorithm>
#include <cstdio>

namespace fanwright::traced {
namespace {

using leaf::Box;

/// Page coordinates have z down: y = top - z.
class Page {
public:
  explicit Page(const Box& box) : box_(box) {}

  std::string at(Point p) const {
    char text[64];
    std::snprintf(text, sizeof text, "%.2f %.2f", p.x - box_.left, box_.top - p.z);
    return text;
  }

  std::string path(const Areas& areas) const {
    std::string text;
    const auto add = [&](const Ring& ring) {
      for (std::size_t k = 0; k < ring.size(); ++k)
        text += (k == 0 ? "M" : "L") + at(ring[k]);
      text += "Z";
    };
    for (const Area& area : areas) {
      add(area.outline);
      for (const Ring& hole : area.holes)
        add(hole);
    }
    return text;
  }

  std::string path(const leaf::Contour& contour) const {
    std::string text = "M" + at(contour.start);
    for (const leaf::Segment& segment : contour.segments) {
      if (const auto* cubic = std::get_if<leaf::Cubic>(&segment))
        text += "C" + at(cubic->control1) + " " + at(cubic->control2) + " " + at(cubic->to);
      else
        text += "L" + at(leaf::end_of(segment));
    }
    return text;
  }

private:
  Box box_;
};

std::string escaped(const std::string& text) {
  std::string result;
  for (const char c : text)
    result += c == '<' ? "&lt;" : c == '&' ? "&amp;" : std::string(1, c);
  return result;
}

std::string drawn_path(const std::string& data, const char* look) {
  return data.empty() ? "" : "<path d=\"" + data + "\" " + look + "/>\n";
}

Areas mirrored_too(const Areas& areas) {
  Frame back;
  back.mirrored = true;
  Areas both = placed(areas, back);
  both.insert(both.end(), areas.begin(), areas.end());
  return both;
}

/// A dot where each curve begins.
std::string dots(const Page& page, const leaf::Contour& contour) {
  std::string text;
  const auto add = [&](Point p) {
    const std::string place = page.at(p);
    const std::size_t blank = place.find(' ');
    text += "<circle cx=\"" + place.substr(0, blank) + "\" cy=\"" + place.substr(blank + 1) + "\" r=\"0.6\"/>\n";
  };
  add(contour.start);
  for (const leaf::Segment& segment : contour.segments)
    add(leaf::end_of(segment));
  return text;
}

} // namespace

std::string overlay(const Figure& figure, const std::string& title) {
  constexpr double edge_mm = 8, least_ring_mm = 2.5;
  Box box = leaf::bounds(figure.outline);
  box.left = -box.right;
  for (const Area& area : figure.found) {
    const Box one = leaf::bounds(area.outline);
    box = {std::min(box.left, one.left), std::max(box.right, one.right), std::min(box.bottom, one.bottom),
           std::max(box.top, one.top)};
  }
  box = {box.left - edge_mm, box.right + edge_mm, box.bottom - edge_mm, box.top + edge_mm};
  const Page page(box);
  char head[256];
  std::snprintf(
      head, sizeof head,
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%.2fmm\" height=\"%.2fmm\" viewBox=\"0 0 %.2f %.2f\">\n",
      box.width(), box.height(), box.width(), box.height());
  std::string text = head;
  text += "<title>" + escaped(title) + "</title>\n<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n";
  text += drawn_path(page.path(figure.found), "fill=\"#d9d4c7\" fill-rule=\"evenodd\"");
  text += drawn_path(page.path(mirrored_too(figure.filled)), "fill=\"#2f7f79\" fill-opacity=\"0.55\"");
  text += drawn_path(page.path(mirrored_too(figure.dropped)), "fill=\"#b4452f\" fill-opacity=\"0.75\"");
  std::vector<leaf::Contour> lines = figure.cut_outs;
  lines.push_back(figure.outline);
  std::string right, left;
  for (const leaf::Contour& line : lines) {
    right += page.path(line);
    left += page.path(leaf::mirrored(line));
  }
  text += drawn_path(left, "fill=\"none\" stroke=\"#4a5568\" stroke-width=\"0.25\"");
  text += drawn_path(right, "fill=\"none\" stroke=\"#1a202c\" stroke-width=\"0.35\"");
  text += drawn_path("M" + page.at({0, box.bottom}) + "L" + page.at({0, box.top}),
                     "fill=\"none\" stroke=\"#4a5568\" stroke-width=\"0.2\" stroke-dasharray=\"4 1 1 1\"");
  text += "<g fill=\"#1a202c\">\n";
  for (const leaf::Contour& line : lines)
    text += dots(page, line);
  text += "</g>\n<g fill=\"none\" stroke=\"#b4452f\" stroke-width=\"0.4\">\n";
  for (const Mark& mark : figure.marks) {
    char ring[96];
    std::snprintf(ring, sizeof ring, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%.2f\"><title>", mark.place.x - box.left,
                  box.top - mark.place.z, std::max(least_ring_mm, mark.size_mm));
    text += ring + escaped(mark.sentence) + "</title></circle>\n";
  }
  return text + "</g>\n</svg>\n";
}

} // namespace fanwright::traced
