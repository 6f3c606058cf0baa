#include "making/making.h"
#include "making/times.h"

#include <gtest/gtest.h>
// gtest stands first: rapidcheck/gtest.h needs it.
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <utility>
#include <vector>

namespace fanwright::making {
namespace {

/// Times are whole seconds given in minutes.
constexpr double rounding_min = 1e-6;

design::Size size_of(int leaves) {
  design::Size size;
  size.leaves = leaves;
  return size;
}

struct Batch {
  design::Size size;
  design::Making making;
};

Batch any_batch() {
  Batch batch{size_of(*rc::gen::inRange(2, 70)), {}};
  batch.making.cutting = *rc::gen::element(design::Cutting::by_hand, design::Cutting::by_machine);
  batch.making.sealer = *rc::gen::arbitrary<bool>();
  batch.making.hands = *rc::gen::inRange(1, 6);
  batch.making.presses = *rc::gen::inRange(1, 6);
  batch.making.packets_per_press = *rc::gen::inRange(1, 20);
  batch.making.pieces = *rc::gen::inRange(1, 9);
  batch.making.drying_min = *rc::gen::inRange(0, 60);
  batch.making.last_drying_min = *rc::gen::inRange(0, 240);
  return batch;
}

Schedule planned(const Batch& batch) { return schedule(batch.size, batch.making); }

RC_GTEST_PROP(making, nobody_does_two_things_at_once, ()) {
  const Batch batch = any_batch();
  std::map<std::pair<Worker, int>, std::vector<std::pair<double, double>>> busy;
  for (const Task& task : planned(batch).tasks) {
    RC_ASSERT(task.start_min >= 0);
    RC_ASSERT(task.end_min >= task.start_min);
    if (task.worker != Worker::nobody)
      busy[{task.worker, task.number}].emplace_back(task.start_min, task.end_min);
  }
  for (auto& [worker, spans] : busy) {
    RC_ASSERT(worker.second < (worker.first == Worker::hand    ? batch.making.hands
                               : worker.first == Worker::press ? batch.making.presses
                                                               : 1));
    std::ranges::sort(spans);
    for (std::size_t i = 1; i < spans.size(); ++i)
      RC_ASSERT(spans[i].first >= spans[i - 1].second - rounding_min);
  }
}

RC_GTEST_PROP(making, a_task_starts_after_all_it_needs, ()) {
  const Schedule schedule = planned(any_batch());
  for (std::size_t i = 0; i < schedule.tasks.size(); ++i)
    for (const std::size_t need : schedule.tasks[i].needs) {
      RC_ASSERT(need < i);
      RC_ASSERT(schedule.tasks[need].end_min <= schedule.tasks[i].start_min + rounding_min);
    }
}

RC_GTEST_PROP(making, one_more_hand_or_press_never_finishes_later, ()) {
  Batch batch = any_batch();
  const double before = planned(batch).finish_min;
  ++batch.making.hands;
  const double with_hand = planned(batch).finish_min;
  RC_ASSERT(with_hand <= before + rounding_min);
  ++batch.making.presses;
  RC_ASSERT(planned(batch).finish_min <= with_hand + rounding_min);
}

RC_GTEST_PROP(making, faster_drying_never_finishes_later, ()) {
  Batch batch = any_batch();
  const double before = planned(batch).finish_min;
  batch.making.drying_min /= 2;
  RC_ASSERT(planned(batch).finish_min <= before + rounding_min);
}

RC_GTEST_PROP(making, every_leaf_and_joint_of_the_batch_is_worked_on_once, ()) {
  const Batch batch = any_batch();
  const Schedule schedule = planned(batch);
  const int leaves = batch.size.leaves * batch.making.pieces;
  std::map<Stage, int> worked;
  for (const Task& task : schedule.tasks)
    worked[task.stage] += task.stage == Stage::gluing ? task.packets : std::max(task.leaves, 1);
  for (const Stage stage : {Stage::cutting, Stage::folding, Stage::inside_rows})
    RC_ASSERT(worked[stage] == leaves);
  RC_ASSERT(worked[Stage::machine] == (batch.making.cutting == design::Cutting::by_machine ? leaves : 0));
  RC_ASSERT(worked[Stage::gluing] == (batch.size.leaves - 1) * batch.making.pieces);
  for (const Stage stage : {Stage::opening_test, Stage::seam, Stage::seam_drying, Stage::finishing})
    RC_ASSERT(worked[stage] == batch.making.pieces);
  RC_ASSERT(worked[Stage::second_coat] == (batch.making.sealer ? batch.making.pieces : 0));
}

RC_GTEST_PROP(making, no_press_holds_more_than_its_places, ()) {
  const Batch batch = any_batch();
  for (const Task& task : planned(batch).tasks) {
    if (task.worker == Worker::press) {
      RC_ASSERT(task.packets >= 1);
      RC_ASSERT(task.packets <= batch.making.packets_per_press);
    }
  }
}

RC_GTEST_PROP(making, a_packet_dries_before_it_is_glued_again, ()) {
  const Batch batch = any_batch();
  const Schedule schedule = planned(batch);
  for (const Task& task : schedule.tasks) {
    if (task.stage != Stage::gluing && task.stage != Stage::opening_test)
      continue;
    RC_ASSERT(!task.needs.empty());
    for (const std::size_t need : task.needs)
      RC_ASSERT(schedule.tasks[need].worker == Worker::press);
    RC_ASSERT(task.stage != Stage::gluing || schedule.tasks[task.needs.front()].round < task.round);
  }
}

RC_GTEST_PROP(making, bars_cover_the_tasks_of_hands_and_presses, ()) {
  const Schedule schedule = planned(any_batch());
  std::map<Worker, double> in_tasks, in_bars;
  for (const Task& task : schedule.tasks)
    in_tasks[task.worker] += task.end_min - task.start_min;
  for (const Bar& bar : schedule.bars)
    in_bars[bar.worker] += bar.end_min - bar.start_min;
  for (const Worker worker : {Worker::hand, Worker::press, Worker::machine})
    RC_ASSERT(std::abs(in_tasks[worker] - in_bars[worker]) < rounding_min);
  RC_ASSERT(in_bars[Worker::nobody] <= in_tasks[Worker::nobody] + rounding_min);
  RC_ASSERT(std::abs(in_tasks[Worker::hand] - schedule.hands_on_min) < rounding_min);
}

TEST(making, one_person_works_or_waits) {
  Batch batch{size_of(46), {}};
  batch.making.packets_per_press = 23;
  const Schedule schedule = planned(batch);
  EXPECT_NEAR(schedule.hands_on_min + schedule.waiting_min, schedule.finish_min, rounding_min);
  // One load each: after the inside rows and the first 5 of 6 rounds the press, after the 6th the block, then the seam.
  EXPECT_NEAR(schedule.waiting_min, 6 * 15 + 2 * 60, rounding_min);
}

TEST(making, the_hours_of_one_piece_by_hand) {
  Batch batch{size_of(2), {}};
  batch.making.drying_min = 10;
  batch.making.last_drying_min = 30;
  const Schedule schedule = planned(batch);
  // Two leaves: cutting 5.5, folding 0.5, inside rows 1, press 10, one joint 0.5, block 30, test 2, seam 5, drying 30,
  // finishing 15 (times: common practice, no source).
  EXPECT_NEAR(schedule.hands_on_min, 29.5, rounding_min);
  EXPECT_NEAR(schedule.finish_min, 99.5, rounding_min);
  EXPECT_NEAR(schedule.waiting_min, 70, rounding_min);
}

TEST(making, twenty_leaves_take_as_long_as_makers_say) {
  Batch batch{size_of(20), {}};
  const double by_hand = planned(batch).hands_on_min;
  EXPECT_GE(by_hand, 90); // 90 to 150 minutes by hand: common practice, no source
  EXPECT_LE(by_hand, 150);
  batch.making.cutting = design::Cutting::by_machine;
  const double by_machine = planned(batch).hands_on_min;
  EXPECT_GE(by_machine, 45); // 45 to 60 minutes with a machine: common practice, no source
  EXPECT_LE(by_machine, 60);
}

TEST(making, folds_while_the_machine_cuts) {
  Batch batch{size_of(46), {}};
  batch.making.cutting = design::Cutting::by_machine;
  const Schedule schedule = planned(batch);
  const auto last_cut = std::ranges::find(schedule.bars, Worker::machine, &Bar::worker);
  ASSERT_NE(last_cut, schedule.bars.end());
  const auto first_fold = std::ranges::find(schedule.bars, Stage::folding, &Bar::stage);
  double cut_until = 0;
  for (const Bar& bar : schedule.bars)
    if (bar.worker == Worker::machine)
      cut_until = std::max(cut_until, bar.end_min);
  EXPECT_LT(first_fold->start_min, cut_until);
}

TEST(making, a_second_group_is_glued_while_the_first_is_pressed) {
  Batch batch{size_of(20), {}};
  batch.making.pieces = 2;
  batch.making.presses = 2;
  const Schedule two = planned(batch);
  batch.making.pieces = 1;
  const Schedule one = planned(batch);
  EXPECT_LT(two.finish_min, 2 * one.finish_min - one.waiting_min / 2);
}

TEST(making, fans_take_hands_between_the_seam_and_the_finish) {
  Batch batch{size_of(20), {}};
  batch.making.pieces = 3;
  const FanWork fans{2, 4, 56, 800, 12};
  const Schedule without = planned(batch), with = schedule(batch.size, batch.making, fans);
  // Each piece: four parts cut by hand, 56 creases, two strips glued on.
  const double each = 4 * cutting_by_hand_min + 56 * pleating_min + 2 * fan_gluing_min;
  EXPECT_NEAR(with.hands_on_min - without.hands_on_min, 3 * each, 3.0 / 60);
  for (const Task& task : with.tasks) {
    if (task.stage == Stage::finishing) {
      EXPECT_EQ(with.tasks[task.needs.front()].stage, Stage::fans);
    }
  }
  EXPECT_EQ(std::ranges::find(without.tasks, Stage::fans, &Task::stage), without.tasks.end());
}

TEST(making, halves_are_joined_before_they_are_folded) {
  Batch batch{size_of(20), {}};
  batch.making.pieces = 3;
  const Schedule whole = planned(batch), joined = schedule(batch.size, batch.making, {}, {700, 900});
  EXPECT_NEAR(joined.hands_on_min - whole.hands_on_min, 3 * 20 * gluing_min, 3.0 * 20 / 60);
  ASSERT_EQ(joined.tasks.size(), whole.tasks.size());
  for (std::size_t i = 0; i < whole.tasks.size(); ++i)
    if (whole.tasks[i].stage == Stage::folding && whole.tasks[i].leaves == joined.tasks[i].leaves) {
      const Task &with = joined.tasks[i], &without = whole.tasks[i];
      EXPECT_GT(with.end_min - with.start_min, without.end_min - without.start_min);
    }
}

TEST(making, the_largest_batch_is_planned) {
  Batch batch{size_of(400), {}};
  batch.making.pieces = 100;
  batch.making.packets_per_press = 1;
  const Schedule schedule = planned(batch);
  EXPECT_GE(schedule.finish_min, schedule.hands_on_min);
}

} // namespace
} // namespace fanwright::making
