// What is refused before a job is planned, and what is counted and checked after.
#pragma once

#include "sheets/job.h"

namespace fanwright::sheets {

/// Of a sheet or a metre: sums of prices stay exact enough to be compared.
inline constexpr double highest_price = 1e9;

/// Why the job cannot be planned whatever the search does; empty when it can be tried.
std::optional<Refusal> refused(const Job& job);

/// The sheets at hand do not take all; `left` is what remains of each kind.
Refusal too_few_sheets(const Job& job, const std::vector<int>& left);

/// No layout needs fewer, by area; 0 with rolls.
int fewest_sheets(const Job& job);

/// Fills in counts, densities, costs, offcuts and the bound.
void add_figures(JobPlan& plan, const Job& job);

/// Of all stocks, mm: it holds everywhere.
double widest_gap(const Job& job);

} // namespace fanwright::sheets
