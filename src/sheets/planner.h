// One job on stocks in a given order: each is filled before the next is begun.
#pragma once

#include "sheets/job.h"
#include "sheets/known.h"

#include <memory>

namespace fanwright::sheets {

struct Planned {
  JobPlan plan;          ///< without its figures
  std::vector<int> left; ///< of each kind: what the stocks did not take
};

/// `order` names stocks of the job. `whole_sheets_first`: whole sheets of one kind come first, and what is left is
/// mixed; otherwise all is mixed from the start. Each sheet is checked exactly before it is taken into the plan. The
/// job must not be one that refused() refuses. `known` serves all orders of a job.
Planned planned(const Job& job, const std::vector<std::size_t>& order, bool whole_sheets_first, const Effort& effort,
                const std::shared_ptr<Known>& known);

} // namespace fanwright::sheets
