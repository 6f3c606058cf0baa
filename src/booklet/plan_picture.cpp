// The schedule as a picture: a row for each pair of hands and each press, bars over time, and a legend.
#include "booklet/edition.h"
#include "drawing/words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace fanwright::booklet {

namespace {

using making::Bar;
using making::Stage;
using making::Worker;

constexpr double names_mm = 26, row_mm = 6.6, bar_mm = 5, axis_mm = 8;
constexpr std::size_t most_lanes = 28; ///< in one picture, so that it fits a page with its heading
constexpr Type bar_type{2.3, 3.2, true};
constexpr Type axis_type{2.5, 3.4, false};

/// The stages' messages in the order of Stage; the seam is another work where the circle stays open.
Message message_of(Stage stage, bool closes) {
  using enum Message;
  constexpr std::array messages = {stage_cutting, stage_machine,     stage_folding,      stage_inside_rows,
                                   stage_gluing,  stage_pressing,    stage_block_drying, stage_opening_test,
                                   stage_seam,    stage_seam_drying, stage_fans,         stage_finishing,
                                   stage_airing,  stage_second_coat};
  static_assert(messages.size() == static_cast<std::size_t>(Stage::second_coat) + 1);
  return stage == Stage::seam && !closes ? stage_fixing : messages[static_cast<std::size_t>(stage)];
}

using Lane = std::pair<Worker, int>;

std::vector<Lane> lanes_of(const making::Schedule& schedule) {
  std::set<Lane> lanes;
  for (const Bar& bar : schedule.bars)
    lanes.insert({bar.worker, bar.number});
  return {lanes.begin(), lanes.end()};
}

std::string name_of(const Edition& edition, const Lane& lane) {
  using enum Message;
  const Values number = {{"number", lane.second + 1}};
  switch (lane.first) {
  case Worker::hand:
    return edition.say(worker_hand, number);
  case Worker::press:
    return edition.say(worker_press, number);
  case Worker::machine:
    return edition.say(worker_machine);
  case Worker::nobody:
    break;
  }
  return edition.say(worker_nobody);
}

/// Numbers of the stages that occur, 1, 2, ... in the order of the work.
std::vector<Stage> stages_in(const Edition& edition, making::Schedule SizeFacts::*schedule) {
  std::set<Stage> stages;
  for (const SizeFacts& facts : edition.contents.sizes)
    for (const Bar& bar : (facts.*schedule).bars)
      stages.insert(bar.stage);
  return {stages.begin(), stages.end()};
}

/// Minutes between two marks of the axis: at most 12 of them.
double tick_min(double finish_min) {
  for (const double hours : {0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 96.0, 240.0})
    if (finish_min <= 12 * 60 * hours)
      return 60 * hours;
  return finish_min / 12;
}

class Picture {
public:
  Picture(const Edition& edition, const making::Schedule& schedule, std::vector<Stage> stages, std::vector<Lane> lanes)
      : edition_(edition), schedule_(schedule), stages_(std::move(stages)), lanes_(std::move(lanes)),
        scale_((edition.look.column_mm() - names_mm) / std::max(1.0, schedule.finish_min)) {}

  Block drawn() {
    block_.before_mm = 2;
    block_.height_mm = row_mm * static_cast<double>(lanes_.size()) + axis_mm;
    axis();
    for (std::size_t i = 0; i < lanes_.size(); ++i)
      lane(lanes_[i], row_mm * static_cast<double>(i));
    return std::move(block_);
  }

private:
  void lane(const Lane& lane, double y_mm) {
    const Look& look = edition_.look;
    put_words(block_, name_of(edition_, lane), 0, y_mm + (row_mm - small_type.line_mm) / 2, names_mm - 2, small_type,
              look.ink);
    for (const Bar& bar : schedule_.bars)
      if (Lane{bar.worker, bar.number} == lane)
        put_bar(bar, y_mm + (row_mm - bar_mm) / 2);
  }

  void put_bar(const Bar& bar, double y_mm) {
    constexpr double hairline_mm = 0.25; // also the shortest work must be seen
    const Look& look = edition_.look;
    const double left = names_mm + scale_ * bar.start_min;
    const double width = std::max(hairline_mm, scale_ * (bar.end_min - bar.start_min));
    const bool by_hand = bar.worker == Worker::hand;
    block_.items.emplace_back(ground(left, y_mm, width, bar_mm, by_hand ? look.accent : look.tint));
    drawing::Path edge = drawing::polyline(
        drawing::Step::print,
        {{left, y_mm}, {left + width, y_mm}, {left + width, y_mm + bar_mm}, {left, y_mm + bar_mm}}, true);
    edge.pen = {0.15, {}, false, by_hand ? drawing::Colour{1, 1, 1} : look.accent};
    block_.items.emplace_back(std::move(edge));
    const auto stage = std::find(stages_.begin(), stages_.end(), bar.stage);
    const std::string number = std::to_string(stage - stages_.begin() + 1);
    if (width > drawing::words_width_mm(number, bar_type.size_mm, true) + 0.5)
      put_words(block_, number, left, y_mm + (bar_mm - bar_type.line_mm) / 2, width, bar_type,
                by_hand ? drawing::Colour{1, 1, 1} : look.ink, drawing::Align::centre);
  }

  void axis() {
    constexpr double mark_width_mm = 12;
    const Look& look = edition_.look;
    const double bottom = row_mm * static_cast<double>(lanes_.size());
    block_.items.emplace_back(rule(names_mm, bottom, look.column_mm() - names_mm, 0.25, look.thin_ink));
    const double tick = tick_min(schedule_.finish_min);
    for (double minute = 0; minute <= schedule_.finish_min; minute += tick) {
      const double x = names_mm + scale_ * minute;
      drawing::Path mark = drawing::polyline(drawing::Step::print, {{x, 0}, {x, bottom + 1}}, false);
      mark.pen = {0.2, {}, false, look.faint};
      block_.items.emplace_back(std::move(mark));
      const bool whole = tick >= 60;
      if (x + mark_width_mm / 2 < look.column_mm())
        put_words(block_, edition_.language.number(minute / 60, whole ? 0 : 1), x - mark_width_mm / 2, bottom + 1.2,
                  mark_width_mm, axis_type, look.thin_ink, drawing::Align::centre);
    }
    put_words(block_, edition_.say(Message::hours_axis), 0, bottom + 4.4, look.column_mm(), axis_type, look.thin_ink,
              drawing::Align::right);
  }

  const Edition& edition_;
  const making::Schedule& schedule_;
  std::vector<Stage> stages_;
  std::vector<Lane> lanes_;
  double scale_; ///< mm a minute
  Block block_;
};

Block legend(const Edition& edition, const std::vector<Stage>& stages) {
  constexpr std::size_t columns = 4;
  constexpr double number_mm = 6;
  const bool closes = edition.contents.sizes.back().size->opening_deg >= 360;
  const double width = edition.look.column_mm() / columns;
  Block block;
  block.before_mm = 2.5;
  block.keeps_with_next = true;
  double y = 0;
  for (std::size_t first = 0; first < stages.size(); first += columns) {
    double height = 0;
    for (std::size_t i = first; i < std::min(stages.size(), first + columns); ++i) {
      const double x = width * static_cast<double>(i - first);
      put_words(block, std::to_string(i + 1), x, y, number_mm, {small_type.size_mm, small_type.line_mm, true},
                edition.look.accent);
      height = std::max(height, put_words(block, edition.say(message_of(stages[i], closes)), x + number_mm, y,
                                          width - number_mm - 2, small_type, edition.look.ink));
    }
    y += height;
  }
  block.height_mm = y;
  return block;
}

} // namespace

Blocks plan_blocks(const Edition& edition, making::Schedule SizeFacts::*schedule) {
  const std::vector<Stage> stages = stages_in(edition, schedule);
  Blocks blocks = {legend(edition, stages)};
  for (const SizeFacts& facts : edition.contents.sizes) {
    const making::Schedule& plan = facts.*schedule;
    const Values values = {{"size", facts.size->name},
                           {"pieces", plan.pieces},
                           {"hands_on", edition.language.duration(plan.hands_on_min)},
                           {"waiting", edition.language.duration(plan.waiting_min)},
                           {"finish", edition.language.duration(plan.finish_min)}};
    const bool batch = schedule == &SizeFacts::batch;
    Blocks summary = paragraph(
        edition.look, edition.say(batch ? Message::batch_summary : Message::time_summary, values), strong_type);
    summary.front().before_mm = 5.5;
    for (Block& line : summary)
      line.keeps_with_next = true;
    append(blocks, std::move(summary));
    const std::vector<Lane> lanes = lanes_of(plan);
    for (std::size_t first = 0; first < lanes.size(); first += most_lanes) {
      const std::size_t last = std::min(lanes.size(), first + most_lanes);
      const auto at = [&](std::size_t i) { return lanes.begin() + static_cast<std::ptrdiff_t>(i); };
      blocks.push_back(Picture(edition, plan, stages, {at(first), at(last)}).drawn());
    }
  }
  return blocks;
}

} // namespace fanwright::booklet
