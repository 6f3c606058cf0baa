// fan.seat, fan.clear, fan.stands: how fans sit, and what they do to the figure.
#include "fan/check_fans.h"
#include "fan/seated_fans.h"
#include "fan/tolerances.h"
#include "fit/check_limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <utility>

namespace fanwright::fan {
namespace {

using fit::Finding;
namespace limit = fit::limit;

/// What is wrong stands before the remedies, which begin with a small letter.
Finding unseated_finding(const Unseated& refused) {
  std::string remedy = refused.why.sentence.substr(refused.reason.size() + 2);
  remedy[0] = static_cast<char>(remedy[0] - 'a' + 'A');
  return {"fan.seat",        Finding::fails,   0, "deg", std::nullopt, "docs/fans.md, seat", refused.reason + ".",
          std::move(remedy), refused.why.where};
}

Finding seat_finding(const SizedFan& fan, const Seated& seated) {
  std::string sentence =
      fmt::format("The fan \"{}\" is spread to {:.0f} degrees in its seat", fan.fan->name, seated.taken_deg);
  sentence += seated.limited_by ? fmt::format("; it could be spread to {:.0f} before it meets {}.", seated.most_deg,
                                              named(*seated.limited_by))
                                : "; nothing is in its way.";
  return {"fan.seat",
          Finding::good,
          seated.most_deg,
          "deg",
          seated.taken_deg,
          "docs/fans.md, seat",
          std::move(sentence),
          "",
          fan.fan->where + "/seat"};
}

/// The narrowest air; what the last side is glued to does not count.
Finding clear_finding(const SizedFan& fan, const Seated& seated) {
  Finding finding{"fan.clear",
                  Finding::good,
                  std::numeric_limits<double>::infinity(),
                  "mm",
                  tolerance::seen_clear_mm,
                  limit::common_practice,
                  "",
                  "",
                  fan.fan->where + "/seat/below_neck"};
  Part nearest = Part::body;
  const auto hold = [&](Part part, const std::optional<double>& clear_mm) {
    if (clear_mm && *clear_mm < finding.value) {
      finding.value = *clear_mm;
      nearest = part;
    }
  };
  const bool on_head = fan.seat->last_on_head;
  hold(Part::neck, on_head ? std::nullopt : seated.neck_clear_mm);
  hold(Part::head, on_head ? std::nullopt : seated.head_clear_mm);
  hold(Part::table, seated.table_clear_mm);
  finding.sentence =
      fmt::format("The fan \"{}\" clears {} by {:.1f} mm.", fan.fan->name, named(nearest), finding.value);
  if (finding.value < tolerance::seen_clear_mm) {
    finding.verdict = Finding::warning;
    finding.remedy = nearest == Part::table ? "Seat it a little higher, or make it a little smaller."
                                            : "Seat it a little lower, or spread it a little less.";
  }
  return finding;
}

bool has_neighbours(const Finding& clear) { return clear.value < std::numeric_limits<double>::infinity(); }

Finding stands_finding(const Balance& balance) {
  Finding finding{"fan.stands",
                  Finding::good,
                  balance.tip_deg,
                  "deg",
                  limit::table_tip_deg,
                  "common practice: 15 degrees on a table, 10 on a shelf",
                  "",
                  "",
                  "/fans"};
  finding.verdict = balance.tip_deg < limit::shelf_tip_deg   ? Finding::fails
                    : balance.tip_deg < limit::table_tip_deg ? Finding::warning
                                                             : Finding::good;
  finding.limit = finding.verdict == Finding::fails ? limit::shelf_tip_deg : limit::table_tip_deg;
  finding.sentence =
      balance.reach_mm <= 0
          ? fmt::format("With its fans it does not stand: its mass lies {:.1f} mm beside its feet.", -balance.reach_mm)
          : fmt::format("With its fans it may be tilted by {:.1f} degrees before it falls: its feet reach "
                        "{:.1f} mm beyond its mass, which lies {:.0f} mm high.",
                        balance.tip_deg, balance.reach_mm, balance.centre[2]);
  if (finding.verdict != Finding::good) {
    finding.remedy =
        "Make the fans a pair or of lighter paper, seat them lower, fix a weight under the foot, or let it "
        "hang (making, \"display\": \"hangs\").";
  }
  return finding;
}

} // namespace

std::vector<Finding> check_seats(const design::Design& design, const design::Size& size,
                                 const std::vector<SizedFan>& fans, const opened::Form& form) {
  std::vector<Finding> findings;
  if (std::ranges::none_of(fans, [](const SizedFan& fan) { return fan.seat.has_value(); })) {
    return findings;
  }
  const bool stands = design.making.display == design::Display::stands;
  const Body body = body_of(form, size.leaves, size.paper);
  std::vector<SeatedFan> seats;
  for (std::size_t i = 0; i < fans.size(); ++i) {
    if (!fans[i].seat) {
      continue;
    }
    auto result = seated(fans[i], body, stands);
    if (const auto* refused = std::get_if<Unseated>(&result)) {
      findings.push_back(unseated_finding(*refused));
      continue;
    }
    seats.push_back({i, std::get<Seated>(std::move(result))});
    findings.push_back(seat_finding(fans[i], seats.back().seated));
    if (Finding clear = clear_finding(fans[i], seats.back().seated); has_neighbours(clear)) {
      findings.push_back(std::move(clear));
    }
  }
  if (!seats.empty() && stands) {
    findings.push_back(stands_finding(*figure_with(fans, seats, body, stands).balance));
  }
  return findings;
}

} // namespace fanwright::fan
