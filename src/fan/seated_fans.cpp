#include "fan/seated_fans.h"

#include <fmt/format.h>

#include <algorithm>

namespace fanwright::fan {
namespace {

std::string key_of(const SeatChange& change) { return change.where.substr(change.where.rfind('/') + 1); }

bool is_length(const std::string& key) {
  return key == "below_neck" || key == "depth" || key == "length" || key == "outline";
}

/// What to write in the file for a length of the size; empty for what is no length.
std::string written(const SeatChange& change) {
  const std::string key = key_of(change);
  if (key == "outline") {
    return fmt::format(" ({:.6g} in its path)", change.value);
  }
  return is_length(key) ? fmt::format(" (\"{}\": {:.6g})", key, change.value) : "";
}

/// The change as it is made in the file.
SeatChange in_file(SeatChange change, const SizedFan& fan) {
  change.value /= is_length(key_of(change)) ? fan.unit_mm : 1;
  for (SeatChange& other : change.also) {
    other = in_file(std::move(other), fan);
  }
  change.sentence += written(change);
  for (const SeatChange& other : change.also) {
    change.sentence += written(other);
  }
  change.where = fan.fan->where + change.where;
  return change;
}

Unseated in_file(Unseated refused, const SizedFan& fan) {
  for (SeatChange& change : refused.remedies) {
    change = in_file(std::move(change), fan);
  }
  refused.reason = fan.called + ": " + refused.reason;
  refused.why = {fan.fan->where + refused.why.where, sentence_of(refused.reason, refused.remedies)};
  return refused;
}

} // namespace

std::variant<Seated, Unseated> seated(const SizedFan& fan, const Body& body, bool stands) {
  auto result = seat(fan.wanted, body, *fan.seat, stands);
  if (auto* refused = std::get_if<Unseated>(&result)) {
    return in_file(std::move(*refused), fan);
  }
  return result;
}

std::variant<std::vector<SeatedFan>, Unseated> seated_fans(const std::vector<SizedFan>& fans, const opened::Form& form,
                                                           int leaves, const paper::Paper& paper, bool stands) {
  std::vector<SeatedFan> seats;
  if (std::ranges::none_of(fans, [](const SizedFan& fan) { return fan.seat.has_value(); })) {
    return seats;
  }
  const Body body = body_of(form, leaves, paper);
  for (std::size_t i = 0; i < fans.size(); ++i) {
    if (!fans[i].seat) {
      continue;
    }
    auto result = seated(fans[i], body, stands);
    if (auto* refused = std::get_if<Unseated>(&result)) {
      return std::move(*refused);
    }
    seats.push_back({i, std::get<Seated>(std::move(result))});
  }
  return seats;
}

Figure figure_with(const std::vector<SizedFan>& fans, const std::vector<SeatedFan>& seats, const Body& body,
                   bool stands) {
  std::vector<PaperedFan> all;
  for (const SeatedFan& seat : seats) {
    const auto of_seat = papered(seat.seated.fans, fans[seat.fan].paper);
    all.insert(all.end(), of_seat.begin(), of_seat.end());
  }
  return figure_of(body, all, stands);
}

Figure figure_with(const std::vector<SizedFan>& fans, const std::vector<SeatedFan>& seats, const opened::Form& form,
                   int leaves, const paper::Paper& paper, bool stands) {
  return figure_with(fans, seats, body_of(form, leaves, paper), stands);
}

} // namespace fanwright::fan
