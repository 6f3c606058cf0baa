#include "booklet/sketch_tools.h"

#include "drawing/decimal.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace fanwright::booklet {
namespace {

/// The tool's outline from one side of it (along, across), tip to end: mirrored in its axis.
Shape outline(const Held& held, const std::vector<drawing::Point>& side) {
  Shape shape;
  for (const auto& point : side)
    shape.push_back(held.at(point.x, point.y));
  for (auto point = side.rbegin(); point != side.rend(); ++point)
    shape.push_back(held.at(point->x, -point->y));
  return shape;
}

void across(Easel& easel, const Held& held, double along, double half, const Stroke& stroke = thin_line) {
  easel.line({held.at(along, -half), held.at(along, half)}, stroke);
}

/// A rounded end from (along, half) to the axis.
void round_off(std::vector<drawing::Point>& side, double along, double half, double depth) {
  for (int k = 1; k <= 8; ++k) {
    const double angle = k * std::numbers::pi / 16;
    side.push_back({along + depth * std::sin(angle), half * std::cos(angle)});
  }
}

} // namespace

drawing::Point Held::at(double along, double aside) const {
  const double a = angle_deg * std::numbers::pi / 180, u = along * length, v = aside * length;
  return {tip.x + u * std::cos(a) - v * std::sin(a), tip.y + u * std::sin(a) + v * std::cos(a)};
}

void draw_knife(Easel& easel, const Held& held) {
  easel.paper({held.at(0), held.at(0.2, -0.035), held.at(0.24, -0.035), held.at(0.24, 0.025), held.at(0.14, 0.025)});
  easel.line({held.at(0.03, 0.003), held.at(0.2, -0.012)}, thin_line);
  easel.paper(outline(held, {{0.22, 0.03}, {0.34, 0.036}}), mid_grey);
  std::vector<drawing::Point> side{{0.34, 0.045}, {0.9, 0.045}};
  round_off(side, 0.96, 0.045, 0.04);
  easel.paper(outline(held, side));
  for (const double along : {0.38, 0.41, 0.44, 0.47})
    across(easel, held, along, 0.045);
}

void draw_bone_folder(Easel& easel, const Held& held) {
  std::vector<drawing::Point> side{{0, 0.004}, {0.02, 0.022}, {0.06, 0.042}, {0.14, 0.062}, {0.3, 0.075}, {0.9, 0.075}};
  round_off(side, 0.93, 0.075, 0.07);
  easel.paper(outline(held, side));
  easel.line({held.at(0.1, 0.015), held.at(0.9, 0.035)}, grey_line);
}

void draw_glue_bottle(Easel& easel, const Held& held) {
  easel.paper(outline(held, {{0, 0.012}, {0.2, 0.045}}));
  easel.paper(outline(held, {{0.2, 0.075}, {0.28, 0.085}}), pale);
  std::vector<drawing::Point> side{{0.28, 0.085}, {0.32, 0.13}, {0.38, 0.15}, {0.94, 0.15}};
  round_off(side, 0.94, 0.15, 0.05);
  easel.paper(outline(held, side));
  easel.paper(outline(held, {{0.48, 0.15}, {0.82, 0.15}}), pale, thin_line);
}

void draw_blunt_blade(Easel& easel, const Held& held) {
  std::vector<drawing::Point> side{{0.0, 0.0}};
  for (int k = 1; k <= 8; ++k)
    side.push_back({0.06 - 0.06 * std::cos(k * std::numbers::pi / 16), 0.042 * std::sin(k * std::numbers::pi / 16)});
  side.push_back({0.45, 0.042});
  side.push_back({0.52, 0.018});
  easel.paper(outline(held, side));
  std::vector<drawing::Point> handle{{0.52, 0.03}, {0.58, 0.048}, {0.92, 0.055}};
  round_off(handle, 0.95, 0.055, 0.05);
  easel.paper(outline(held, handle), pale);
}

void draw_brush(Easel& easel, const Held& held) {
  easel.paper(outline(held, {{0.0, 0.0}, {0.04, 0.025}, {0.1, 0.043}, {0.2, 0.04}}));
  for (const double aside : {-0.02, 0.0, 0.02})
    easel.line({held.at(0.04, aside * 0.4), held.at(0.19, aside)}, thin_line);
  easel.paper(outline(held, {{0.2, 0.042}, {0.34, 0.034}}), pale);
  std::vector<drawing::Point> side{{0.34, 0.03}, {0.5, 0.04}, {0.95, 0.014}};
  round_off(side, 0.97, 0.014, 0.02);
  easel.paper(outline(held, side));
}

void draw_dauber(Easel& easel, const Held& held) {
  std::vector<drawing::Point> side{{0.16, 0.05}, {0.9, 0.05}};
  round_off(side, 0.94, 0.05, 0.04);
  easel.paper(outline(held, side));
  easel.paper(outline(held, {{0.0, 0.1}, {0.03, 0.13}, {0.17, 0.13}, {0.2, 0.1}}), accent_tint);
  for (const auto& [along, aside] :
       {std::pair{0.05, -0.07}, {0.12, -0.03}, {0.06, 0.03}, {0.13, 0.08}, {0.09, 0.0}, {0.15, -0.09}})
    easel.line(arc(held.at(along, aside), 0.012 * held.length, 0.012 * held.length, 0, 360), thin_line);
}

void draw_clip(Easel& easel, const Held& held) {
  easel.paper(
      outline(held, {{-0.4, 0.08}, {-0.36, 0.1}, {-0.06, 0.12}, {0.0, 0.09}, {0.06, 0.12}, {0.56, 0.14}, {0.6, 0.12}}));
  for (const double along : {-0.03, 0.0, 0.03})
    easel.line({held.at(along, -0.15), held.at(along, 0.15)}, {main_mm, mid_grey, {}});
  easel.line({held.at(0.12, 0.0), held.at(0.56, 0.0)}, grey_line);
}

void draw_spray(Easel& easel, drawing::Point foot, double height) {
  const Held can{foot, 270, height};
  easel.fill({can.at(0.93, -0.09), can.at(1.16, -0.72), can.at(0.62, -0.72)}, pale);
  constexpr int drops = 40;
  for (int k = 0; k < drops; ++k) {
    // Spread by two irrational steps: even, without rows, and the same each time.
    const double far = 0.14 + 0.56 * std::fmod(0.5 + k * 0.5698402909980532, 1.0);
    const double aside = std::fmod(0.5 + k * 0.7548776662466927, 1.0) - 0.5;
    easel.fill(arc(can.at(0.91 - 0.03 * far + aside * far * 0.66, -far), height * 0.007, height * 0.007, 0, 360),
               mid_grey);
  }
  easel.paper(outline(can, {{0.0, 0.14}, {0.02, 0.15}, {0.72, 0.15}, {0.74, 0.14}}));
  easel.paper(outline(can, {{0.74, 0.14}, {0.8, 0.12}, {0.83, 0.08}}), pale);
  easel.paper(outline(can, {{0.83, 0.05}, {0.96, 0.05}, {0.97, 0.04}}));
  easel.paper({can.at(0.89, -0.05), can.at(0.89, -0.075), can.at(0.93, -0.075), can.at(0.93, -0.05)}, ink, thin_line);
  easel.paper(outline(can, {{0.2, 0.15}, {0.56, 0.15}}), pale, thin_line);
}

void draw_ruler(Easel& easel, drawing::Point edge, double length, double width) {
  const double left = edge.x - width, low = edge.y, high = edge.y - length;
  easel.paper({{left, low}, {edge.x, low}, {edge.x, high}, {left, high}}, pale);
  const double step = length / 30;
  for (int k = 1; k < 30; ++k) {
    const double y = low - k * step;
    easel.line({{edge.x, y}, {edge.x - width * (k % 5 == 0 ? 0.5 : 0.28), y}}, thin_line);
  }
}

void draw_weight(Easel& easel, const Viewer& v, drawing::Point middle, double above, double radius) {
  const drawing::Point low = v.at(middle.x, middle.y, above), high = v.at(middle.x, middle.y, above + 0.9 * radius);
  const double flat = std::sin(v.elevation_deg * std::numbers::pi / 180);
  const auto drum = [&](drawing::Point base, drawing::Point lid, double r, drawing::Colour colour) {
    Shape side = arc(base, r, r * flat, 0, 180);
    side.push_back({lid.x - r, lid.y});
    side.push_back({lid.x + r, lid.y});
    easel.paper(side, colour);
    easel.paper(arc(lid, r, r * flat, 0, 360), white);
  };
  drum(low, high, radius, pale);
  const drawing::Point knob = v.at(middle.x, middle.y, above + 1.25 * radius);
  drum(high, knob, radius * 0.3, pale);
  easel.figures("2–5 kg", {low.x, (low.y + high.y) / 2 + radius * flat * 0.75},
                std::clamp(radius * easel.scale() * 0.42, 1.6, 3.0), true);
}

void draw_clock(Easel& easel, drawing::Point middle, double radius, double minutes) {
  const auto hand = [&](double turn, double share) {
    const double a = turn * 2 * std::numbers::pi;
    return drawing::Point{middle.x + share * radius * std::sin(a), middle.y - share * radius * std::cos(a)};
  };
  const double turn = std::fmod(minutes, 60) / 60 == 0 ? 1 : std::fmod(minutes, 60) / 60;
  easel.fill(arc(middle, radius, radius, 0, 360), white);
  Shape wedge = arc(middle, radius, radius, -90, -90 + 360 * turn);
  wedge.push_back(middle);
  easel.fill(wedge, accent_tint);
  easel.line(arc(middle, radius, radius, 0, 360));
  for (int k = 0; k < 12; ++k)
    easel.line({hand(k / 12.0, 0.86), hand(k / 12.0, 0.97)}, thin_line);
  easel.line({middle, hand(0, 0.72)}, thin_line);
  easel.line({middle, hand(turn, 0.72)}, bold_line);
  easel.figures(drawing::decimal(minutes, 0) + " min", {middle.x, middle.y + radius + 2.4 / easel.scale()}, 2.9, true);
}

void draw_no_sun(Easel& easel, drawing::Point middle, double radius) {
  easel.paper(arc(middle, 0.42 * radius, 0.42 * radius, 0, 360));
  for (int k = 0; k < 12; ++k) {
    const double a = k * std::numbers::pi / 6, c = std::cos(a), s = std::sin(a);
    easel.line(
        {{middle.x + 0.55 * radius * c, middle.y + 0.55 * radius * s},
         {middle.x + (k % 2 == 0 ? 0.9 : 0.78) * radius * c, middle.y + (k % 2 == 0 ? 0.9 : 0.78) * radius * s}});
  }
  easel.line({{middle.x - radius, middle.y + radius}, {middle.x + radius, middle.y - radius}}, {0.7, accent, {}});
}

void draw_grain(Easel& easel, drawing::Point middle, double length, bool upright) {
  const auto at = [&](double along, double aside) {
    return upright ? drawing::Point{middle.x + aside * length, middle.y + along * length}
                   : drawing::Point{middle.x + along * length, middle.y + aside * length};
  };
  for (const double aside : {-0.16, -0.08, 0.08, 0.16})
    easel.line({at(-0.3, aside), at(0.3, aside)}, grey_line);
  easel.arrow({at(-0.5, 0), at(0.5, 0)}, true);
}

} // namespace fanwright::booklet
