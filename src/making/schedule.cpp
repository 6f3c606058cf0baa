// Gives hands and presses to the jobs of a plan, job by job in the plan's order, each to the worker who is free first.
// That rule (the recursion of Kiefer and Wolfowitz for queues with several servers, from memory) is monotone: with one
// more worker, no job starts later. A list that lets later jobs overtake would not be.
#include "making/making.h"
#include "making/plan.h"

#include <algorithm>
#include <cassert>
#include <tuple>

namespace fanwright::making {

namespace {

/// More groups than this gain nothing: with two, the hands glue one while the other is in the press.
constexpr int most_groups = 4;

constexpr double seconds_per_minute = 60;

struct Placed {
  Seconds start = 0, end = 0;
  int number = 0;
};

/// Workers of one kind, by the time at which each is free.
class Workers {
public:
  explicit Workers(int count) : free_(static_cast<std::size_t>(count), 0) {}

  Placed give(Seconds ready, Seconds takes) {
    const auto first_free = std::ranges::min_element(free_);
    const Seconds start = std::max(ready, *first_free);
    *first_free = start + takes;
    return {start, start + takes, static_cast<int>(first_free - free_.begin())};
  }

private:
  std::vector<Seconds> free_;
};

std::vector<Placed> placed(const std::vector<Job>& jobs, const design::Making& making) {
  Workers hands(making.hands), presses(making.presses), machines(1);
  std::vector<Placed> places;
  places.reserve(jobs.size());
  for (const Job& job : jobs) {
    Seconds ready = 0;
    for (const std::size_t need : job.task.needs)
      ready = std::max(ready, places[need].end);
    switch (job.task.worker) {
    case Worker::hand:
      places.push_back(hands.give(ready, job.takes));
      break;
    case Worker::press:
      places.push_back(presses.give(ready, job.takes));
      break;
    case Worker::machine:
      places.push_back(machines.give(ready, job.takes));
      break;
    case Worker::nobody:
      places.push_back({ready, ready + job.takes, 0});
      break;
    }
  }
  return places;
}

Seconds finish(const std::vector<Placed>& places) { return std::ranges::max_element(places, {}, &Placed::end)->end; }

struct Span {
  Seconds start, end;
};

/// Total length of all spans together, overlaps counted once.
Seconds covered(std::vector<Span> spans) {
  std::ranges::sort(spans, {}, &Span::start);
  Seconds length = 0, reached = 0;
  for (const Span& span : spans) {
    length += std::max<Seconds>(0, span.end - std::max(span.start, reached));
    reached = std::max(reached, span.end);
  }
  return length;
}

std::vector<Bar> bars(const std::vector<Task>& tasks) {
  std::vector<Bar> all;
  all.reserve(tasks.size());
  for (const Task& task : tasks)
    all.push_back({task.stage, task.worker, task.number, task.round, task.start_min, task.end_min});
  const auto order = [](const Bar& bar) {
    const bool in_air = bar.worker == Worker::nobody; // these overlap: first by stage, then by time
    return std::tuple(bar.worker, bar.number, in_air ? bar.stage : Stage{}, bar.start_min, bar.end_min);
  };
  std::ranges::stable_sort(all, {}, order);
  std::vector<Bar> joined;
  for (const Bar& bar : all) {
    Bar* last = joined.empty() ? nullptr : &joined.back();
    if (last != nullptr &&
        std::tie(last->stage, last->worker, last->number, last->round) ==
            std::tie(bar.stage, bar.worker, bar.number, bar.round) &&
        bar.start_min <= last->end_min)
      last->end_min = std::max(last->end_min, bar.end_min);
    else
      joined.push_back(bar);
  }
  return joined;
}

Schedule written(std::vector<Job> jobs, const std::vector<Placed>& places, const design::Making& making) {
  Schedule schedule;
  schedule.pieces = making.pieces;
  schedule.hands = making.hands;
  schedule.presses = making.presses;
  std::vector<Span> work;
  Seconds hands_on = 0;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    Task task = std::move(jobs[i].task);
    task.number = places[i].number;
    task.start_min = static_cast<double>(places[i].start) / seconds_per_minute;
    task.end_min = static_cast<double>(places[i].end) / seconds_per_minute;
    if (task.worker == Worker::hand) {
      work.push_back({places[i].start, places[i].end});
      hands_on += jobs[i].takes;
    }
    schedule.tasks.push_back(std::move(task));
  }
  const Seconds end = finish(places);
  schedule.bars = bars(schedule.tasks);
  schedule.hands_on_min = static_cast<double>(hands_on) / seconds_per_minute;
  schedule.finish_min = static_cast<double>(end) / seconds_per_minute;
  schedule.waiting_min = static_cast<double>(end - covered(std::move(work))) / seconds_per_minute;
  return schedule;
}

} // namespace

Schedule schedule(const design::Size& size, const design::Making& making, const FanWork& fans, const Laps& laps) {
  assert(making.hands >= 1 && making.presses >= 1);
  // Each number of groups is monotone in hands and presses, and so is the best of them.
  std::vector<Job> best_jobs;
  std::vector<Placed> best;
  for (int groups = 1; groups <= std::min(making.pieces, most_groups); ++groups) {
    std::vector<Job> jobs = plan(size, making, fans, laps, groups);
    std::vector<Placed> places = placed(jobs, making);
    if (best.empty() || finish(places) < finish(best)) {
      best_jobs = std::move(jobs);
      best = std::move(places);
    }
  }
  return written(std::move(best_jobs), best, making);
}

} // namespace fanwright::making
