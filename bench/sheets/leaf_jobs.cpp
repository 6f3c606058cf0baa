#include "measured.h"
#include "sheets/job.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace fanwright::bench {
namespace {

using namespace sheets;

constexpr std::int64_t work_a_kind = 8'000'000;

/// A whole leaf, mirror-symmetric about its spine: radius from the middle of the spine by harmonics, mm.
leaf::Ring leaf_like(double size, double slender, double lobes, double depth) {
  leaf::Ring ring;
  constexpr int points = 160;
  for (int i = 0; i < points; ++i) {
    const double angle = 2 * std::numbers::pi * i / points;
    const double radius = size * (1 + depth * std::cos(lobes * (angle - std::numbers::pi / 2)));
    ring.push_back({slender * radius * std::cos(angle), radius * std::sin(angle)});
  }
  return ring;
}

leaf::Ring disc(double diameter) { return leaf_like(diameter / 2, 1, 0, 0); }

Stock stock(const std::string& name, double margin_mm) {
  return {{name, *paper::sheet_size(name), margin_mm, 2}, false, 0, {}};
}

void measure(const std::string& name, const Job& job, std::int64_t work, std::uint64_t seed) {
  const double begun = processor_seconds();
  const auto result = plan(job, {work, seed, {}, {}});
  const double taken = processor_seconds() - begun;
  if (const auto* refusal = std::get_if<Refusal>(&result)) {
    fmt::print("{:<34} {}\n", name, refusal->sentence);
    return;
  }
  const JobPlan& plan = std::get<JobPlan>(result);
  fmt::print("{:<34} {:>3} sheets (never fewer than {}), {:5.1f} % used, {:5.2f} s", name, plan.sheets_in_all,
             plan.fewest_sheets, 100 * plan.density, taken);
  for (const Capacity& capacity : plan.capacities)
    fmt::print("  [{}: {}, never more than {}]", job.kinds[capacity.kind].name, capacity.held, capacity.most);
  fmt::print("\n");
}

void discs(std::uint64_t seed) {
  for (const auto& [sheet, margin] : {std::pair{"A4", 6.0}, {"12x12in", 6.35}, {"A3", 5.0}})
    measure(fmt::format("discs of 100 mm on {}", sheet), {{{"disc", disc(100), {}, 46}}, {stock(sheet, margin)}},
            work_a_kind, seed);
}

} // namespace

void leaf_jobs(std::uint64_t seed) {
  discs(seed);
  const Kind apple{"apple", leaf_like(34, 1.1, 2, -0.08), {}, 46}, moth{"moth", leaf_like(36, 1.2, 5, 0.16), {}, 46};
  const Kind pear{"pear", leaf_like(40, 0.8, 3, 0.12), {}, 46};
  for (const Kind& kind : {apple, moth, pear}) {
    measure("46 leaves, first answer: " + kind.name, {{kind}, {stock("A4", 6)}}, 0, seed);
    measure("46 leaves: " + kind.name, {{kind}, {stock("A4", 6)}}, work_a_kind, seed);
  }
  Job kit{{}, {stock("A4", 6)}};
  for (const double size : {26.0, 34.0, 42.0})
    kit.kinds.push_back({fmt::format("{:.0f} mm", 2 * size), leaf_like(size, 1.05, 5, 0.1), {}, 46});
  measure("a kit of three sizes, 46 each", kit, 3 * work_a_kind, seed);
  Job shapes{{}, {stock("A3", 5)}};
  for (int i = 0; i < 8; ++i)
    shapes.kinds.push_back({fmt::format("shape {}", i),
                            leaf_like(24 + 3 * i, 0.7 + 0.08 * i, 2 + i % 4, 0.05 + 0.02 * i),
                            {},
                            i < 5 ? 6 : 5});
  measure("45 leaves of 8 shapes", shapes, 3 * work_a_kind, seed);
}

} // namespace fanwright::bench
