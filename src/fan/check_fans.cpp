#include "fan/check_fans.h"

#include "fan/pleats.h"
#include "fan/tolerances.h"
#include "fit/check_limits.h"

#include <fmt/format.h>

#include <iterator>
#include <utility>

namespace fanwright::fan {
namespace {

using fit::Finding;

/// Heavier card springs back and cracks where a panel must bow (common practice, no source).
constexpr double too_heavy_gsm = 200;
/// Length of the strip over that of the rim within which discs are made (common practice, no source).
constexpr double flat_fullness = 1.2, full_fullness = 1.5;

constexpr const char* practice = "common practice";

std::string called(const SizedFan& fan) { return "The fan \"" + fan.fan->name + "\" "; }

Finding form_of(const SizedFan& fan) {
  const Spread& spread = fan.made.spread;
  const double percent = 100 * spread.stretch();
  return {"fan.form",
          Finding::good,
          percent,
          "%",
          100 * tolerance::most_stretch,
          "elastic limit of paper, 0.4 to 0.7 %",
          called(fan) + fmt::format("spreads to {:.0f} degrees; the creases of its {} panels are stretched by {:.2f} % "
                                    "and bow by {:.1f} mm.",
                                    spread.spread_deg(), spread.pleats().panels, percent, spread.bow_mm()),
          "",
          fan.fan->where + "/pleats"};
}

Finding relief(const SizedFan& fan) {
  const Spread& spread = fan.made.spread;
  const Pleats& pleats = spread.pleats();
  // Of a fan that does not go round, as of the disc it is a part of.
  const double fullness =
      fullness_of_disc(pleats.panels, pleats.depth_mm, spread.outer_radius_mm()) * 360 / spread.spread_deg();
  const double rim_mm = spread.relief_at(pleats.length_mm);
  Finding finding{"fan.relief",
                  Finding::good,
                  fullness,
                  "",
                  std::nullopt,
                  practice,
                  called(fan) + fmt::format("keeps pleats {:.1f} mm high at its rim; its strip is {:.2f} times as long "
                                            "as the rim.",
                                            rim_mm, fullness),
                  "",
                  fan.fan->where + "/pleats"};
  if (fullness < flat_fullness) {
    finding.verdict = Finding::note;
    finding.remedy = "1.2 to 1.5 is usual; take more pleats for a crisper rim.";
  } else if (fullness > full_fullness) {
    finding.verdict = Finding::note;
    finding.remedy = "1.2 to 1.5 is usual; fewer or shallower pleats look flatter and spread more easily.";
  }
  return finding;
}

Finding weight(const SizedFan& fan) {
  Finding finding{"fan.paper",
                  Finding::good,
                  fan.paper.grammage_gsm,
                  "g/m2",
                  too_heavy_gsm,
                  practice,
                  called(fan) + fmt::format("is pleated from paper of {:.0f} g/m2.", fan.paper.grammage_gsm),
                  "",
                  fan.fan->where + "/paper"};
  if (fan.paper.grammage_gsm > too_heavy_gsm) {
    finding.verdict = Finding::warning;
    finding.remedy =
        "Card this heavy springs back and cracks in pleats; give the fan a paper of its own, 80 to 160 g/m2.";
  }
  return finding;
}

} // namespace

bool fails_check(const design::Refusal& refusal) { return refusal.where.ends_with("/pleats"); }

std::variant<std::vector<Finding>, design::Refusal> check(const design::Design& design, const design::Size& size,
                                                          const opened::Form* form) {
  auto fans = fans_of(design, size);
  std::vector<Finding> findings;
  if (auto* refusal = std::get_if<design::Refusal>(&fans)) {
    if (!fails_check(*refusal)) {
      return std::move(*refusal);
    }
    const std::size_t remedy = refusal->sentence.rfind("; ");
    const std::string found = refusal->sentence.substr(0, remedy);
    const std::string rest = remedy == std::string::npos ? "" : refusal->sentence.substr(remedy + 2);
    findings.push_back({"fan.form", Finding::fails, 0, "", std::nullopt, "", found + ".", rest, refusal->where});
    return findings;
  }
  for (const SizedFan& fan : std::get<std::vector<SizedFan>>(fans)) {
    findings.push_back(form_of(fan));
    findings.push_back(relief(fan));
    findings.push_back(weight(fan));
  }
  if (form != nullptr && form->lock_ratio <= fit::limit::opens_lock && form->peak_strain <= fit::limit::torn_strain) {
    auto seats = check_seats(design, size, std::get<std::vector<SizedFan>>(fans), *form);
    findings.insert(findings.end(), std::make_move_iterator(seats.begin()), std::make_move_iterator(seats.end()));
  }
  return findings;
}

} // namespace fanwright::fan
