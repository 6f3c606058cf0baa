// Overlapping pieces drawn apart by guided local search.
//
// Based on: Voudouris, Tsang (1999), guided local search; Egeblad, Nielsen, Odgaard, "Fast neighborhood search for two-
// and three-dimensional nesting problems", EJOR 183 (2007); Umetani et al., "Solving the irregular strip packing
// problem via guided local search for overlap minimization", ITOR 16 (2009), for depth as the measure of overlap;
// Gardeyn, Vanden Berghe, Wauters, arXiv 2509.13329 (2025), for sampled moves and the growth of weights.
#pragma once

#include "sheets/chance.h"
#include "sheets/neighbours.h"

#include <cmath>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

namespace fanwright::sheets {

/// How long to try. Work is counted in places looked at, so that a budget gives the same result on every machine.
struct Patience {
  int idle_rounds = 100; ///< rounds without a better arrangement before a try ends
  int tries = 3;         ///< tries without a clearly better arrangement before giving up
  int trades = 0;        ///< with other pieces, tried for a piece that still overlaps once it has been moved
};

/// The figure laid with its middle where that of another item lies.
Item middle_on(const Figures& figures, std::size_t figure, const Item& there);

/// Whether two items are of different kinds, fit each other's room and one is less than `most_times` as large by area.
bool may_change_places(const Figures& figures, const std::vector<Extent>& rooms, const Item& one, const Item& other,
                       double most_times);

/// How outlines with many corners are brought apart; those with few are always brought apart steadily.
enum class Manner {
  steady, ///< fills a strip more closely
  quick,  ///< brings leaves apart on a sheet in half the time
};

class Separation {
public:
  /// `stop` is asked now and then and may be empty.
  Separation(const Figures& figures, std::uint64_t seed, std::function<bool()> stop = {},
             Manner manner = Manner::steady);

  /// Starts over with these items; each is brought into its room. `rooms` lie apart: pieces in different rooms do not
  /// meet.
  void start(std::vector<Extent> rooms, std::vector<Item> items);

  /// As many rooms of other sizes; items are brought into them, weights stay.
  void change_rooms(std::vector<Extent> rooms);

  /// Puts an item elsewhere, as it is told.
  void put(std::size_t index, const Item& item);

  /// Moves items until none overlap. Then true; else the best arrangement found is left.
  bool separate(const Patience& patience);

  /// All weights equal again.
  void forget_weights();

  const std::vector<Item>& items() const { return items_; }
  Chance& chance() { return chance_; }
  std::int64_t work() const { return work_; }

  /// Sum of depths over all pairs, micrometres.
  double overlap() const;

  /// Puts the item where it overlaps least by the present weights; `anywhere` forgets where it lies now.
  void settle(std::size_t index, bool anywhere);

private:
  /// Places looked at for one item in one stance, and how many of the best are searched further.
  struct Sampling {
    int anywhere, nearby, a_room;
    std::size_t refined;
  };
  struct Settings {
    Sampling sampling;
    double fading;         ///< of a weight in a round in which its pair is apart
    double shallow;        ///< depths up to which overlaps count as roots, of a piece's size
    double most_larger;    ///< of two pieces that trade places, by area
    bool deep_ways_approx; ///< ways out of deep overlaps are told by what their squares know
  };
  /// Of a weight in a round, by depth.
  struct Raise {
    double least, most;
  };
  struct Spotted {
    double x = 0, z = 0, loss = 0;
    std::size_t figure = 0, room = 0;
  };

  /// What stands in one room round the item being moved, in one of its stances. The places are cut into columns and
  /// rows; a bit for each obstacle tells whether it reaches into one.
  struct Surroundings {
    double left = 0, bottom = 0, right = 0, top = 0; ///< of the places; right < left where the item does not fit
    double per_x = 0, per_z = 0;
    bool fits() const { return left <= right && bottom <= top; }
    std::vector<KeepOut::Round> obstacles;
    std::vector<std::size_t> items; ///< that the obstacles are
    std::size_t words = 0;          ///< of bits for a column or a row
    std::vector<std::uint64_t> columns, rows;
  };

  static Settings settings_for(const Figures& figures, Manner manner);
  bool round(int trades);
  double give_way(const std::vector<Neighbours>& pairs, bool exactly);
  bool relax();
  Surroundings& around(std::size_t figure, std::size_t room) {
    return around_[(figure - first_figure_) * rooms_.size() + room];
  }
  void surround(std::size_t kind);
  void gather(std::size_t index, std::size_t figure, std::optional<std::size_t> only_room = {});
  void add_obstacle(std::size_t index, std::size_t other_index, std::size_t figure);
  template <class Visit> static void visit_near(const Surroundings& around, double x, double z, const Visit& visit);
  double loss_at(const Spotted& place, double x, double z, double cutoff);
  void sample(std::size_t index, std::size_t figure, bool anywhere, std::vector<Spotted>& best);
  void look(Spotted place, std::vector<Spotted>& best);
  void slip_out(Spotted& place);
  void find_sides(const Spotted& place);
  void measure(std::size_t index);
  void measure_near(std::size_t index);
  void raise_weights();
  bool overlaps(std::size_t index) const;
  double loss_of(std::size_t one, std::size_t other) const;
  double loss_of_both(std::size_t one, std::size_t other) const;
  std::optional<std::size_t> partner_of(std::size_t index);
  void settle_about(std::size_t index, const Item& there);
  bool trade(std::size_t index);
  void bring_in(Item& item) const;
  double& depth(std::size_t a, std::size_t b) { return depths_[a * items_.size() + b]; }
  double& weight(std::size_t a, std::size_t b) { return weights_[a * items_.size() + b]; }

  const Figures& figures_;
  Settings settings_;
  Raise raise_{1.15, 1.6};
  std::size_t starts_ = 0;
  std::vector<Extent> rooms_;
  Chance chance_;
  std::function<bool()> stop_;
  std::vector<Item> items_;
  std::vector<double> depths_, weights_; ///< by pair, both ways
  std::int64_t work_ = 0;
  double shallow_ = 0; ///< micrometres

  std::vector<Surroundings> around_; ///< by figure of the item's kind, then by room
  std::size_t first_figure_ = 0;     ///< of that kind
  std::vector<Side> sides_;          ///< round the place being left: of obstacles, then of the room
  std::vector<double> scales_; ///< by item: fourth root of the paper's area, so that large overlaps count as large
};

} // namespace fanwright::sheets
