#include "making/plan.h"

#include "making/times.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace fanwright::making {

namespace {

Seconds seconds(double minutes) { return std::llround(minutes * 60); }

/// Some leaves that are cut, folded and glued inside one after the other.
struct Pile {
  int first_leaf = 0; ///< counted through all pieces of the group
  int leaves = 0;
  std::size_t last_job = 0;
};

/// A packet and the job after which it can be worked on.
struct Ready {
  Packet packet;
  std::size_t after = 0;
};

/// Pieces that go through all stages together.
struct Group {
  int first_piece = 0, pieces = 0;
  std::vector<Pile> piles;
  std::vector<std::vector<Ready>> packets; ///< of each piece, in the order of their leaves
};

/// Writes the jobs down, stage by stage and in each stage group by group.
class Planner {
public:
  Planner(const design::Size& size, const design::Making& making, const FanWork& fans, const Laps& laps, int groups)
      : leaves_(size.leaves), making_(making), fans_(fans), laps_(laps), rounds_(rounds(size.leaves)) {
    for (int i = 0; i < groups; ++i) {
      const int first = making.pieces * i / groups, end = making.pieces * (i + 1) / groups;
      groups_.push_back({first, end - first, {}, {}});
    }
  }

  std::vector<Job> written() {
    for (Group& group : groups_)
      prepare(group);
    for (std::size_t round = 0; round < rounds_.size(); ++round)
      for (Group& group : groups_)
        glue(group, round);
    for (Group& group : groups_)
      close(group);
    if (fans_.strips > 0)
      for (Group& group : groups_)
        put_fans_on(group);
    for (Group& group : groups_)
      finish(group);
    if (making_.sealer)
      for (Group& group : groups_)
        coat_again(group);
    return std::move(jobs_);
  }

private:
  std::size_t add(Task task, double minutes, std::vector<std::size_t> needs) {
    task.needs = std::move(needs);
    jobs_.push_back({std::move(task), seconds(minutes)});
    return jobs_.size() - 1;
  }

  static Task task_for(Stage stage, Worker worker, const Group& group) {
    Task task;
    task.stage = stage;
    task.worker = worker;
    task.first_piece = group.first_piece;
    task.pieces = group.pieces;
    return task;
  }

  void work_on(Pile& pile, Stage stage, Worker worker, double minutes_a_leaf, const Group& group,
               std::vector<std::size_t> needs) {
    Task task = task_for(stage, worker, group);
    task.leaves = pile.leaves;
    pile.last_job = add(std::move(task), minutes_a_leaf * pile.leaves, std::move(needs));
  }

  void fold(Pile& pile, const Group& group) {
    const double joining_min = laps_.area_mm2 > 0 ? gluing_min : 0; // a lap is glued as quickly as the rows of a leaf
    work_on(pile, Stage::folding, Worker::hand, folding_min + joining_min, group, {pile.last_job});
  }

  void glue_inside(Pile& pile, const Group& group) {
    work_on(pile, Stage::inside_rows, Worker::hand, gluing_min, group, {pile.last_job});
  }

  void cut_by_hand(Group& group) {
    for (Pile& pile : group.piles)
      work_on(pile, Stage::cutting, Worker::hand, cutting_by_hand_min, group, {});
    for (Pile& pile : group.piles)
      fold(pile, group);
    for (Pile& pile : group.piles)
      glue_inside(pile, group);
  }

  /// While the machine cuts one pile, the one before is folded and glued.
  void cut_by_machine(Group& group) {
    for (std::size_t i = 0; i <= group.piles.size(); ++i) {
      if (i < group.piles.size()) {
        Pile& pile = group.piles[i];
        work_on(pile, Stage::cutting, Worker::hand, machine_setup_min, group, machine_free_after_);
        work_on(pile, Stage::machine, Worker::machine, machine_min, group, {pile.last_job});
        machine_free_after_ = {pile.last_job};
      }
      if (i > 0) {
        fold(group.piles[i - 1], group);
        glue_inside(group.piles[i - 1], group);
      }
    }
  }

  /// One press load of `packets` packets or piles.
  std::size_t press(const Group& group, Stage stage, int round, double minutes, std::vector<std::size_t> needs) {
    Task task = task_for(stage, Worker::press, group);
    task.round = round;
    task.packets = static_cast<int>(needs.size());
    return add(std::move(task), minutes, std::move(needs));
  }

  void prepare(Group& group) {
    const int all = group.pieces * leaves_;
    for (int leaf = 0; leaf < all; leaf += leaves_in_pile)
      group.piles.push_back({leaf, std::min(leaves_in_pile, all - leaf), 0});
    making_.cutting == design::Cutting::by_hand ? cut_by_hand(group) : cut_by_machine(group);
    group.packets.resize(static_cast<std::size_t>(group.pieces));
    const auto places = static_cast<std::size_t>(making_.packets_per_press);
    for (std::size_t start = 0; start < group.piles.size(); start += places) {
      const std::size_t end = std::min(group.piles.size(), start + places);
      std::vector<std::size_t> needs;
      for (std::size_t i = start; i < end; ++i)
        needs.push_back(group.piles[i].last_job);
      const std::size_t pressed = press(group, Stage::pressing, 0, making_.drying_min, std::move(needs));
      const int last_leaf = group.piles[end - 1].first_leaf + group.piles[end - 1].leaves;
      for (int leaf = group.piles[start].first_leaf; leaf < last_leaf; ++leaf)
        group.packets[static_cast<std::size_t>(leaf / leaves_)].push_back({{leaf % leaves_, 1}, pressed});
    }
  }

  /// Glues one joint of a piece and puts the new packet in the place of the two.
  Ready glue_joint(const Group& group, int piece, int round, const Joint& joint, const std::vector<Ready>& packets) {
    const auto ready = [&](const Packet& packet) {
      return std::ranges::lower_bound(packets, packet.first, {}, [](const Ready& r) { return r.packet.first; })->after;
    };
    std::vector<std::size_t> needs = {ready(joint.left)};
    if (ready(joint.right) != needs.front())
      needs.push_back(ready(joint.right));
    Task task = task_for(Stage::gluing, Worker::hand, group);
    task.first_piece = group.first_piece + piece;
    task.pieces = 1;
    task.round = round;
    task.packets = 1;
    return {{joint.left.first, joint.left.leaves + joint.right.leaves},
            add(std::move(task), gluing_min, std::move(needs))};
  }

  void glue(Group& group, std::size_t index) {
    const Round& round = rounds_[index];
    const int number = static_cast<int>(index) + 1;
    std::vector<std::pair<std::size_t, Ready>> glued; // piece and new packet
    for (std::size_t piece = 0; piece < group.packets.size(); ++piece)
      for (const Joint& joint : round.joints)
        glued.emplace_back(piece, glue_joint(group, static_cast<int>(piece), number, joint, group.packets[piece]));
    press_all(group, index, glued);
    std::size_t next = 0;
    for (std::size_t piece = 0; piece < group.packets.size(); ++piece) {
      std::vector<Ready> after;
      for (const Packet& packet : round.packets) {
        const bool is_new = next < glued.size() && glued[next].first == piece && glued[next].second.packet == packet;
        after.push_back(is_new ? glued[next++].second : waiting(group.packets[piece], packet));
      }
      group.packets[piece] = std::move(after);
    }
  }

  static Ready waiting(const std::vector<Ready>& packets, const Packet& packet) {
    return *std::ranges::lower_bound(packets, packet.first, {}, [](const Ready& r) { return r.packet.first; });
  }

  void press_all(const Group& group, std::size_t round, std::vector<std::pair<std::size_t, Ready>>& glued) {
    const bool last = round + 1 == rounds_.size();
    const auto places = static_cast<std::size_t>(making_.packets_per_press);
    for (std::size_t start = 0; start < glued.size(); start += places) {
      const std::size_t end = std::min(glued.size(), start + places);
      std::vector<std::size_t> needs;
      for (std::size_t i = start; i < end; ++i)
        needs.push_back(glued[i].second.after);
      const std::size_t pressed =
          press(group, last ? Stage::block_drying : Stage::pressing, last ? 0 : static_cast<int>(round) + 1,
                last ? making_.last_drying_min : making_.drying_min, std::move(needs));
      for (std::size_t i = start; i < end; ++i)
        glued[i].second.after = pressed;
    }
  }

  /// A job on one whole piece; the piece is ready for the next once it is done.
  void work_on_piece(Group& group, std::size_t piece, Stage stage, Worker worker, double minutes) {
    Task task = task_for(stage, worker, group);
    task.first_piece = group.first_piece + static_cast<int>(piece);
    task.pieces = 1;
    Ready& block = group.packets[piece].front();
    block.after = add(std::move(task), minutes, {block.after});
  }

  void close(Group& group) {
    for (std::size_t piece = 0; piece < group.packets.size(); ++piece) {
      work_on_piece(group, piece, Stage::opening_test, Worker::hand, opening_test_min);
      work_on_piece(group, piece, Stage::seam, Worker::hand, seam_min);
      work_on_piece(group, piece, Stage::seam_drying, Worker::nobody, making_.last_drying_min);
    }
  }

  void put_fans_on(Group& group) {
    const double cutting_min = making_.cutting == design::Cutting::by_hand ? cutting_by_hand_min : machine_setup_min;
    const double minutes = cutting_min * fans_.parts + pleating_min * fans_.creases + fan_gluing_min * fans_.strips;
    for (std::size_t piece = 0; piece < group.packets.size(); ++piece)
      work_on_piece(group, piece, Stage::fans, Worker::hand, minutes);
  }

  void finish(Group& group) {
    for (std::size_t piece = 0; piece < group.packets.size(); ++piece) {
      work_on_piece(group, piece, Stage::finishing, Worker::hand, finishing_min);
      if (making_.sealer)
        work_on_piece(group, piece, Stage::airing, Worker::nobody, airing_min);
    }
  }

  void coat_again(Group& group) {
    for (std::size_t piece = 0; piece < group.packets.size(); ++piece) {
      work_on_piece(group, piece, Stage::second_coat, Worker::hand, second_coat_min);
      work_on_piece(group, piece, Stage::airing, Worker::nobody, airing_min);
    }
  }

  int leaves_;
  const design::Making& making_;
  const FanWork& fans_;
  const Laps& laps_;
  std::vector<Round> rounds_;
  std::vector<Group> groups_;
  std::vector<Job> jobs_;
  std::vector<std::size_t> machine_free_after_; ///< the machine's last job, if any
};

} // namespace

std::vector<Job> plan(const design::Size& size, const design::Making& making, const FanWork& fans, const Laps& laps,
                      int groups) {
  assert(size.leaves >= 2 && making.pieces >= 1 && groups >= 1 && groups <= making.pieces);
  assert(making.packets_per_press >= 1);
  return Planner(size, making, fans, laps, groups).written();
}

} // namespace fanwright::making
