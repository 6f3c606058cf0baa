#include "sheets/cheapest.h"

#include "sheets/job_check.h"

#include <algorithm>
#include <numeric>

namespace fanwright::sheets {

namespace {

constexpr std::size_t most_orders = 4;

/// For a square metre; a roll's price is for a metre of it.
double price_by_area(const Stock& stock) {
  constexpr double mm_per_m = 1000;
  const double width = stock.roll ? mm_per_m : stock.sheet.size.width_mm;
  return stock.price / (width * stock.sheet.size.height_mm);
}

/// Sheets one by one, the emptiest first: by density, so that a large sheet that is nearly empty goes before a small
/// one that is half full.
std::vector<std::size_t> by_density(const JobPlan& plan) {
  std::vector<std::size_t> order(plan.sheets.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return plan.sheets[a].density < plan.sheets[b].density; });
  return order;
}

} // namespace

std::vector<std::vector<std::size_t>> orders_of(const Job& job) {
  std::vector<std::size_t> cheapest_first(job.stocks.size());
  std::iota(cheapest_first.begin(), cheapest_first.end(), 0);
  std::stable_sort(cheapest_first.begin(), cheapest_first.end(), [&](std::size_t a, std::size_t b) {
    return price_by_area(job.stocks[a]) < price_by_area(job.stocks[b]);
  });
  std::vector<std::vector<std::size_t>> orders{cheapest_first};
  const bool priced = std::any_of(job.stocks.begin(), job.stocks.end(), [](const Stock& s) { return s.price > 0; });
  for (std::size_t i = 1; priced && i < cheapest_first.size() && orders.size() < most_orders; ++i) {
    orders.push_back(cheapest_first);
    std::rotate(orders.back().begin(), orders.back().begin() + static_cast<std::ptrdiff_t>(i),
                orders.back().begin() + static_cast<std::ptrdiff_t>(i) + 1);
  }
  return orders;
}

bool better(const JobPlan& a, const JobPlan& b) {
  if (a.cost != b.cost)
    return a.cost < b.cost;
  return a.sheets_in_all != b.sheets_in_all ? a.sheets_in_all < b.sheets_in_all : a.density > b.density;
}

Rest emptiest(const JobPlan& plan, const Job& job, int count) {
  Rest rest;
  rest.kept = plan;
  std::vector<int> wanted(job.kinds.size(), 0), used(job.stocks.size(), 0);
  for (const std::size_t index : by_density(plan)) {
    JobSheet& sheet = rest.kept.sheets[index];
    const int taken = std::min(count, sheet.copies);
    count -= taken, sheet.copies -= taken;
    rest.cost += taken * job.stocks[sheet.stock].price;
    used[sheet.stock] += sheet.copies;
    for (const JobPiece& piece : sheet.pieces)
      wanted[piece.kind] += taken;
  }
  std::erase_if(rest.kept.sheets, [](const JobSheet& sheet) { return sheet.copies == 0; });
  for (std::size_t kind = 0; kind < wanted.size(); ++kind)
    if (wanted[kind] > 0) {
      rest.kinds.push_back(kind);
      rest.job.kinds.push_back(job.kinds[kind]);
      rest.job.kinds.back().count = wanted[kind];
    }
  for (std::size_t stock = 0; stock < used.size(); ++stock) {
    Stock left = job.stocks[stock];
    left.sheet.gap_mm = widest_gap(job);
    if (left.most)
      *left.most -= used[stock];
    if (left.most.value_or(1) < 1)
      continue;
    rest.stocks.push_back(stock);
    rest.job.stocks.push_back(std::move(left));
  }
  return rest;
}

JobPlan joined(const Rest& rest, const JobPlan& plan) {
  JobPlan all = rest.kept;
  for (JobSheet sheet : plan.sheets) {
    sheet.stock = rest.stocks[sheet.stock];
    for (JobPiece& piece : sheet.pieces)
      piece.kind = rest.kinds[piece.kind];
    all.sheets.push_back(std::move(sheet));
  }
  all.work += plan.work;
  return all;
}

} // namespace fanwright::sheets
