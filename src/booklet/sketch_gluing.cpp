// What is done to many leaves: gluing them to each other and pressing them.
#include "booklet/sketch_scenes.h"
#include "booklet/sketch_tools.h"
#include "making/making.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

namespace fanwright::booklet {
namespace {

constexpr Viewer table_viewer{-18, 40};

/// A leaf's own inside rows hold its halves, so it lies as thin as two sheets; drawn thicker to be seen.
double folded_thickness(const DrawnLeaf& leaf) { return 0.022 * leaf.measure(); }

void draw_folded_lying(Easel& easel, const DrawnLeaf& leaf, double above) {
  draw_half(easel, leaf, lying_pose(table_viewer, above));
  draw_half(easel, leaf, lying_pose(table_viewer, above + folded_thickness(leaf)), pale);
}

/// Two low bars at right angles: one along the spines, one along the lowest points of the feet.
void draw_straight_edges(Easel& easel, const DrawnLeaf& leaf) {
  const double m = leaf.measure(), thick = 0.05 * m, high = 0.05 * m;
  draw_block(easel, table_viewer, {-thick, 0, leaf.bottom - thick, leaf.top + 0.05 * m, 0, high});
}

void draw_foot_stop(Easel& easel, const DrawnLeaf& leaf) {
  const double m = leaf.measure(), thick = 0.05 * m, high = 0.05 * m;
  draw_block(easel, table_viewer, {-thick, 0.8 * leaf.width, leaf.bottom - thick, leaf.bottom, 0, high});
}

} // namespace

std::vector<Panel> between_rows(const DrawnLeaf& leaf) {
  const auto gluing = [&](Easel& easel) {
    const double m = leaf.measure();
    const Pose outer = flat_pose();
    draw_half(easel, leaf, flat_pose(false, {0.012 * m, -0.012 * m}));
    draw_half(easel, leaf, outer, pale);
    draw_glue(easel, leaf.between, outer);
    easel.line({{0, -leaf.spine_foot}, {0, -leaf.spine_top}}, bold_line);
    const auto& strip = leaf.between[leaf.between.size() / 2];
    const drawing::Point tip = outer({(strip[0].x + strip[2].x) / 2, (strip[0].z + strip[2].z) / 2});
    const Held bottle{tip, 320, 0.5 * m};
    draw_glue_bottle(easel, bottle);
    const auto& low = leaf.between.front();
    easel.tag(Part::between_row, outer({(low[0].x + low[2].x) / 2, (low[0].z + low[2].z) / 2}), 0, 8);
    const double z = leaf.bottom + 0.3 * leaf.height();
    easel.tag(Part::outer_face, outer({reach_at(leaf, z) * 0.9, z}), 6, 3);
  };
  const auto laying = [&](Easel& easel) {
    const double m = leaf.measure(), lifted = 0.36 * m;
    draw_straight_edges(easel, leaf);
    draw_folded_lying(easel, leaf, 0);
    draw_glue(easel, leaf.between, lying_pose(table_viewer, folded_thickness(leaf)));
    draw_foot_stop(easel, leaf);
    const Pose low = lying_pose(table_viewer, folded_thickness(leaf)), high = lying_pose(table_viewer, lifted);
    for (const double z : {leaf.spine_foot, leaf.spine_top})
      easel.line({low({0, z}), high({0, z})}, hidden_line);
    draw_folded_lying(easel, leaf, lifted);
    const double z = leaf.middle(), x = reach_at(leaf, z) * 0.5;
    const Pose upper = lying_pose(table_viewer, lifted + 0.2 * m);
    easel.arrow({upper({x, z}), lying_pose(table_viewer, lifted - 0.04 * m)({x, z})});
    easel.tag(Part::straight_edge, table_viewer.at(0.6 * leaf.width, leaf.bottom - 0.05 * m, 0.03 * m), 5, 4);
  };
  return {{gluing}, {laying}};
}

namespace {

constexpr int most_packets = 52; // in a column; closer lines could not be told apart
constexpr int shown_of_many = most_packets - 3;

struct Column {
  std::vector<making::Packet> packets;
  int drawn() const {
    return static_cast<int>(packets.size()) > most_packets ? shown_of_many : static_cast<int>(packets.size());
  }
};

/// A packet seen on its feet: each leaf a narrow bend, its spine on the left.
void draw_packet(Easel& easel, drawing::Point middle, double width, double height, int leaves) {
  const double pitch = height / leaves;
  if (pitch < 0.75) {
    easel.paper({{middle.x, middle.y - height / 2},
                 {middle.x + width, middle.y - height / 2},
                 {middle.x + width, middle.y + height / 2},
                 {middle.x, middle.y + height / 2}},
                pale, thin_line);
    return;
  }
  for (int k = 0; k < leaves; ++k) {
    const double y = middle.y - height / 2 + pitch * (k + 0.5), half = 0.36 * pitch;
    Shape bend = arc({middle.x + half, y}, half, half, 270, 90);
    bend.insert(bend.begin(), {middle.x + width, y - half});
    bend.push_back({middle.x + width, y + half});
    easel.line(bend, thin_line);
  }
}

/// "21 × 2": how many packets of how many leaves.
std::vector<std::string> counts_of(const Column& column) {
  std::map<int, int> counts;
  for (const auto& packet : column.packets)
    ++counts[packet.leaves];
  std::vector<std::string> words;
  for (auto count = counts.rbegin(); count != counts.rend(); ++count)
    words.push_back(std::to_string(count->second) + " × " + std::to_string(count->first));
  return words;
}

struct Chart {
  std::vector<Column> columns;
  int leaves = 0;
  double pitch = 0, high = 0, width = 0; ///< between columns; of the columns; of a packet; mm

  /// Middle of a packet. Packets stand beside the leaves they hold; where they are too many, one below the other.
  drawing::Point at(std::size_t column, std::size_t packet) const {
    const Column& c = columns[column];
    const double x = pitch * static_cast<double>(column);
    if (c.drawn() < static_cast<int>(c.packets.size()))
      return {x, high * (static_cast<double>(packet) + 0.5) / most_packets};
    return {x, high * (c.packets[packet].first + c.packets[packet].leaves / 2.0) / leaves};
  }
  double packet_height(std::size_t column, std::size_t packet) const {
    const Column& c = columns[column];
    if (c.drawn() < static_cast<int>(c.packets.size()))
      return 0.7 * high / most_packets;
    const double all = high * c.packets[packet].leaves / leaves;
    return std::min(all * 0.82, all - std::min(0.8, 0.3 * all));
  }
};

void draw_joins(Easel& easel, const Chart& chart, std::size_t column) {
  const Column &from = chart.columns[column], &to = chart.columns[column + 1];
  if (from.drawn() < static_cast<int>(from.packets.size())) {
    const double y = chart.high / 2, left = chart.pitch * static_cast<double>(column) + chart.width;
    easel.arrow({{left + 0.8, y}, {left + chart.pitch - chart.width - 0.8, y}});
    return;
  }
  std::size_t next = 0;
  for (std::size_t k = 0; k < static_cast<std::size_t>(from.drawn()); ++k) {
    while (next + 1 < to.packets.size() && to.packets[next + 1].first <= from.packets[k].first)
      ++next;
    if (next >= static_cast<std::size_t>(to.drawn()))
      return;
    const auto a = chart.at(column, k), b = chart.at(column + 1, next);
    const double left = a.x + chart.width + 0.6, right = b.x - 0.6;
    easel.line({{left, a.y}, {left + 0.4 * (right - left), a.y}, {left + 0.6 * (right - left), b.y}, {right, b.y}},
               {thin_mm, accent, {}});
  }
}

void draw_chart(Easel& easel, const Chart& chart) {
  for (std::size_t c = 0; c < chart.columns.size(); ++c) {
    const Column& column = chart.columns[c];
    if (c + 1 < chart.columns.size())
      draw_joins(easel, chart, c);
    for (std::size_t k = 0; k < static_cast<std::size_t>(column.drawn()); ++k) {
      draw_packet(easel, chart.at(c, k), chart.width, chart.packet_height(c, k), column.packets[k].leaves);
      easel.packet();
    }
    const double x = chart.pitch * static_cast<double>(c) + chart.width / 2;
    if (column.drawn() < static_cast<int>(column.packets.size()))
      for (const double row : {0.9, 1.8, 2.7})
        easel.fill(arc({x, chart.high * (shown_of_many + row - 0.3) / most_packets}, 0.28, 0.28, 0, 360), ink);
    double y = chart.high + 3;
    for (const auto& words : counts_of(column)) {
      easel.figures(words, {x, y}, 2.7, y == chart.high + 3);
      y += 3.4;
    }
  }
}

} // namespace

std::vector<Panel> packets(const Subject& subject, double width_mm, double height_mm) {
  Chart chart;
  chart.leaves = subject.size->leaves;
  Column singles;
  for (int leaf = 0; leaf < chart.leaves; ++leaf)
    singles.packets.push_back({leaf, 1});
  chart.columns.push_back(singles);
  for (const auto& round : making::rounds(chart.leaves))
    chart.columns.push_back({round.packets});
  // Drawn at the size of the box, so that side_by_side() hardly changes it.
  const double columns = static_cast<double>(chart.columns.size());
  chart.high = height_mm - 11;
  chart.pitch = std::min((width_mm - 4) / columns, 30.0);
  chart.width = 0.55 * chart.pitch;
  return {{[chart](Easel& easel) { draw_chart(easel, chart); }}};
}

namespace {

constexpr Viewer press_viewer{16, 15};

/// What lies in the press, from the table up. All leaves thicker than they are, to be seen.
struct Pressed {
  double low = 0, step = 0, pitch = 0, right = 0; ///< lowest leaf; leaf to leaf; packet to packet; of the last packet
  int packets = 3, leaves = 12;
  double high() const { return low + step * leaves; }
};

/// Packets lie side by side, spines to the left, their feet to the viewer.
void draw_pressed(Easel& easel, const DrawnLeaf& leaf, const Pressed& pressed) {
  for (int packet = 0; packet < pressed.packets; ++packet)
    for (int k = 0; k < pressed.leaves; ++k) {
      const double left = pressed.pitch * packet, above = pressed.low + pressed.step * k;
      const auto pose = [&](leaf::Point p) { return press_viewer.at(left + p.x, p.z - leaf.bottom, above); };
      draw_half(easel, leaf, pose, k + 1 == pressed.leaves ? pale : white, thin_line);
    }
}

void draw_press(Easel& easel, const DrawnLeaf& leaf, int leaves) {
  const double w = leaf.width, h = leaf.height(), thick = 0.05 * (w + h), over = 0.1 * w;
  Pressed pressed{2 * thick, 0.024 * (w + h), 1.15 * w, 0, 3, leaves};
  pressed.right = 2 * pressed.pitch + w;
  const Block lower{-over, pressed.right + over, -over, h + over, 0, thick};
  Block upper = lower;
  upper.low = pressed.high() + thick * 0.6, upper.high = upper.low + thick;
  const auto sheet = [&](double above) {
    const double more = over * 0.6;
    easel.paper({press_viewer.at(lower.left - more, lower.front - more, above),
                 press_viewer.at(lower.right + more, lower.front - more, above),
                 press_viewer.at(lower.right + more, lower.back + more, above),
                 press_viewer.at(lower.left - more, lower.back + more, above)},
                accent_tint, thin_line);
  };
  draw_block(easel, press_viewer, lower);
  sheet(1.4 * thick);
  draw_pressed(easel, leaf, pressed);
  sheet(pressed.high() + 0.2 * thick);
  draw_block(easel, press_viewer, upper);
  const double radius = 0.32 * std::min(pressed.right, h + w);
  const drawing::Point middle{pressed.right / 2, h / 2};
  draw_weight(easel, press_viewer, middle, upper.high, radius);
  const double front = lower.front, right = pressed.right + over;
  easel.tag(Part::board, press_viewer.at(right, front, thick / 2), 8, 2);
  easel.tag(Part::parting_sheet, press_viewer.at(right + 0.6 * over, front, pressed.high() + 0.2 * thick), 8, -1);
  easel.tag(Part::packet, press_viewer.at(0.2 * w, 0, pressed.low + pressed.step * leaves / 2), -12, 0);
  easel.tag(Part::weight, press_viewer.at(middle.x + radius, middle.y, upper.high + 0.6 * radius), 7, -3);
  easel.arrow({press_viewer.at(middle.x, middle.y, upper.high + 2.2 * radius),
               press_viewer.at(middle.x, middle.y, upper.high + 1.5 * radius)});
}

} // namespace

std::vector<Panel> press(const Subject& subject, const DrawnLeaf& leaf) {
  const double minutes = subject.design->making.drying_min;
  const int leaves = std::min(subject.size->leaves, 12);
  return {{[&leaf, leaves](Easel& easel) { draw_press(easel, leaf, leaves); }}, {[&leaf, minutes](Easel& easel) {
            draw_clock(easel, {0, 0}, 0.26 * leaf.measure(), minutes);
          }}};
}

} // namespace fanwright::booklet
