#include "opened/opening.h"

#include "opened/equilibrium.h"
#include "opened/solver.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fanwright::opened {

double row_pull(const Panel& panel, double moment_nmm) {
  double pull = 0;
  for (const design::Side side : {design::Side::inside, design::Side::between}) {
    double lever = 0; // integral of x dx over the rows of this wall, mm2
    for (const leaf::GlueRow& row : panel.rows) {
      if (row.side == side) {
        lever += std::abs(row.to.x * row.to.x - row.from.x * row.from.x) / 2;
      }
    }
    if (lever > 0) {
      pull = std::max(pull, moment_nmm / lever);
    }
  }
  return pull;
}

std::variant<std::vector<Stage>, Failure> opening_sequence(const Panel& panel, int count, const Options& options) {
  std::vector<Stage> stages;
  Solver solver;
  for (int k = 1; k <= count; ++k) {
    Panel stage = panel;
    stage.opening_deg = panel.opening_deg * k / count;
    Options solve = options;
    solve.mesh = false;
    if (options.progress) {
      solve.progress = [&](double share) { options.progress((k - 1 + share) / count); };
    }
    auto opened = solver.open(stage, solve);
    if (auto* failure = std::get_if<Failure>(&opened)) {
      return std::move(*failure);
    }
    const Form& form = std::get<Form>(opened);
    stages.push_back({stage.opening_deg, form.height_mm, form.diameter_mm / 2 - form.hub_radius_mm,
                      form.holding_moment_nmm, row_pull(stage, form.holding_moment_nmm), form.peak_strain});
  }
  return stages;
}

leaf::Point most_stretched(const Form& form) {
  const Equilibrium& sheet = *form.equilibrium;
  const int index = sheet.mechanics.most_stretched(sheet.mechanics.places(sheet.unknowns));
  const Piece& piece = sheet.pieces.pieces[static_cast<std::size_t>(index)];
  return sheet.grid.flat_of(0.5 * (sheet.grid.across().line(piece.i) + sheet.grid.across().line(piece.i + 1)),
                            0.5 * (sheet.grid.up().line(piece.j) + sheet.grid.up().line(piece.j + 1)));
}

} // namespace fanwright::opened
