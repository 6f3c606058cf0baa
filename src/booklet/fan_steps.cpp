#include "booklet/fan_steps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

namespace fanwright::booklet {

namespace {

using fan::Hold;
using fan::Seated;
using fan::SizedFan;

/// Leaves that are glued, by number, and which of their halves.
using Halves = std::map<int, std::array<bool, 2>>;

class FanSteps {
public:
  explicit FanSteps(const Edition& edition) : edition_(edition) {}

  StepWords pleating() const {
    using enum Message;
    std::vector<std::string> words;
    for (const SizedFan& fan : shown())
      words.push_back(fan_line(fan));
    words.insert(words.end(), {say(step_pleat_front), say(step_pleat_join), say(step_pleat_fold)});
    if (std::ranges::any_of(shown(), [](const SizedFan& fan) { return fan.fan->pair; }))
      words.push_back(say(step_pleat_pair));
    return {say(step_pleat), std::move(words), Scene::fan_pleating};
  }

  StepWords spreading() const {
    using enum Message;
    std::vector<std::string> words = {say(step_spread_gather)};
    std::string by_hand;
    double cover_mm = 0;
    for (const SizedFan& fan : shown()) {
      if (fan::is_disc(fan.made.spread))
        cover_mm = std::max(cover_mm, fan::cover_radius_mm(fan.made.spread));
      else if (!seated_in(first_size(), fan))
        by_hand += (by_hand.empty() ? "" : ", ") + fan.fan->name + " " + degrees(fan.made.spread.spread_deg());
    }
    if (!by_hand.empty())
      words.insert(words.end(), {say(step_spread_first), say(step_spread_last, {{"fans", by_hand}})});
    if (cover_mm > 0)
      words.push_back(say(step_spread_round, {{"radius", mm(cover_mm)}}));
    for (const SizedFan& fan : shown())
      if (seated_in(first_size(), fan))
        add_seat(fan, words);
    return {say(step_spread), std::move(words), Scene::fan_spreading};
  }

private:
  std::string say(Message message, const Values& values = {}) const { return edition_.say(message, values); }
  std::string mm(double value, int places = 0) const { return edition_.language.measure(value, places, "mm"); }
  std::string degrees(double value) const { return edition_.language.number(value) + "°"; }

  const SizeFacts& first_size() const { return edition_.contents.sizes.front(); }
  const std::vector<SizedFan>& shown() const { return *first_size().fans; }

  static const SizedFan& in_size(const SizeFacts& facts, const SizedFan& fan) {
    return *std::ranges::find(*facts.fans, fan.fan, &SizedFan::fan);
  }

  /// Its seat in one size; null where it has none.
  static const Seated* seated_in(const SizeFacts& facts, const SizedFan& fan) {
    if (facts.seats == nullptr)
      return nullptr;
    for (const auto& [index, seated] : *facts.seats)
      if ((*facts.fans)[index].fan == fan.fan)
        return &seated;
    return nullptr;
  }

  std::string for_seats(const SizedFan& fan, const std::function<std::string(const Seated&)>& words) const {
    return for_each_size(edition_, [&](const SizeFacts& facts) { return words(*seated_in(facts, fan)); });
  }

  std::string fan_line(const SizedFan& fan) const {
    const std::string depth =
        for_each_size(edition_, [&](const SizeFacts& facts) { return mm(in_size(facts, fan).made.strip.depth_mm, 1); });
    return say(Message::step_pleat_fan, {{"name", fan.fan->name},
                                         {"pleats", fan.made.strip.panels / 2},
                                         {"depth", depth},
                                         {"angle", edition_.language.number(fan.made.spread.spread_deg())}});
  }

  /// The eighth of the way round in which it lies.
  std::string where(double azimuth_deg) const {
    using enum Message;
    constexpr std::array places = {where_front, where_front_right, where_right, where_back_right,
                                   where_back,  where_back_left,   where_left,  where_front_left};
    const auto eighth = std::lround(azimuth_deg / 45);
    return say(places.at(static_cast<std::size_t>(eighth) % places.size()));
  }

  /// Where the front of a fan that stands upright looks: a quarter of the way round before where it sits.
  std::string facing(double azimuth_deg) const {
    using enum Message;
    constexpr std::array ways = {faces_left, faces_front, faces_right, faces_back};
    return say(ways.at(static_cast<std::size_t>(std::lround(azimuth_deg / 90)) % ways.size()));
  }

  std::string listed(const Halves& halves) const {
    std::string words;
    for (const auto& [leaf, both] : halves)
      words += (words.empty() ? "" : ", ") +
               (both[0] && both[1] ? say(Message::leaf_both_halves, {{"leaf", leaf}})
                                   : say(Message::leaf_half, {{"leaf", leaf}, {"half", both[0] ? 1 : 2}}));
    return words;
  }

  /// "leaf 9, both halves; over 16 mm"; of a pair right and left.
  std::string edges(const Seated& seated, bool last_side) const {
    std::array<Halves, 2> of_fan;
    double longest_mm = 0;
    const std::size_t of_one = seated.glued.size() / seated.fans.size();
    for (std::size_t i = 0; i < seated.glued.size(); ++i) {
      const fan::GluedEdge& edge = seated.glued[i];
      if (edge.last_side == last_side) {
        of_fan.at(i / of_one)[edge.leaf].at(static_cast<std::size_t>(edge.half - 1)) = true;
        longest_mm = std::max(longest_mm, edge.length_mm);
      }
    }
    const std::string words =
        seated.fans.size() == 1
            ? listed(of_fan[0])
            : say(Message::edges_of_pair, {{"right", listed(of_fan[0])}, {"left", listed(of_fan[1])}});
    return longest_mm > 0 ? say(Message::edges_over, {{"edges", words}, {"length", mm(longest_mm)}}) : words;
  }

  std::string place(const SizedFan& fan) const {
    const std::string below = for_each_size(edition_, [&](const SizeFacts& facts) {
      const SizedFan& here = in_size(facts, fan);
      return say(seated_in(facts, fan)->neck_clear_mm ? Message::below_neck : Message::below_top,
                 {{"height", mm(here.seat->below_neck_mm)}});
    });
    return say(
        fan.fan->pair ? Message::step_seat_pair : Message::step_seat_place,
        {{"name", fan.fan->name}, {"below", below}, {"where", where(seated_in(first_size(), fan)->azimuth_deg)}});
  }

  std::string lean(const SizedFan& fan) const {
    return say(Message::step_seat_lean, {{"rise", degrees(fan.seat->rise_deg)}, {"turn", degrees(fan.seat->turn_deg)}});
  }

  void add_seat(const SizedFan& fan, std::vector<std::string>& words) const {
    using enum Message;
    const std::string first = for_seats(fan, [&](const Seated& seated) { return edges(seated, false); });
    const std::string angle = for_seats(fan, [&](const Seated& seated) { return degrees(seated.taken_deg); });
    words.push_back(place(fan));
    if (fan.seat->hold == Hold::along_edge) {
      words.push_back(
          say(step_seat_edge, {{"edges", first}, {"facing", facing(seated_in(first_size(), fan)->azimuth_deg)}}));
      words.push_back(say(
          fan.seat->last_on_head ? step_seat_head : step_seat_free,
          {{"angle", angle}, {"edges", for_seats(fan, [&](const Seated& seated) { return edges(seated, true); })}}));
      return;
    }
    const std::string depth =
        for_each_size(edition_, [&](const SizeFacts& facts) { return mm(in_size(facts, fan).seat->depth_mm); });
    if (fan.seat->hold == Hold::in_cell)
      words.push_back(say(step_seat_cell, {{"edges", first}, {"depth", depth}}));
    else
      words.push_back(say(fan::is_disc(fan.made.spread) ? step_seat_cover : step_seat_point, {{"edges", first}}));
    words.back() += " " + lean(fan);
    if (!fan::is_disc(fan.made.spread))
      words.push_back(say(step_seat_free, {{"angle", angle}}));
  }

  const Edition& edition_;
};

} // namespace

void add_fan_steps(const Edition& edition, std::vector<StepWords>& steps) {
  if (edition.design().fans.empty())
    return;
  const FanSteps fans(edition);
  steps.push_back(fans.pleating());
  steps.push_back(fans.spreading());
}

} // namespace fanwright::booklet
