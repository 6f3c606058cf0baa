#include "opened/division.h"

#include <cmath>
#include <numeric>

namespace fanwright::opened {
namespace {

/// Lines that are kept may come nearer to each other than those that are chosen anew, and places may move further off
/// theirs, by these factors.
constexpr double nearer = 0.6, further = 1.5;

double mean_of(const std::vector<double>& wanted, const std::vector<int>& places) {
  double sum = 0;
  for (const int place : places) {
    sum += wanted[static_cast<std::size_t>(place)];
  }
  return sum / static_cast<double>(places.size());
}

/// Which of the wanted places to join.
std::vector<std::vector<int>> joined(const std::vector<double>& wanted, double nearest) {
  const auto at = [&](int place) { return wanted[static_cast<std::size_t>(place)]; };
  std::vector<int> order(wanted.size() - 2);
  std::iota(order.begin(), order.end(), 2);
  std::ranges::stable_sort(order, {}, at);
  std::vector<std::vector<int>> joined{{0}};
  double last = wanted[0];
  for (std::size_t i = 0, j = 0; i < order.size(); i = j) {
    std::vector<int> together;
    while (j < order.size() && at(order[j]) - at(order[i]) < nearest) {
      together.push_back(order[j++]);
    }
    const double mean = mean_of(wanted, together);
    if (mean - last >= nearest && wanted[1] - mean >= nearest) {
      last = mean;
      joined.push_back(std::move(together));
    }
  }
  joined.push_back({1});
  return joined;
}

std::vector<double> lines_of(const std::vector<std::vector<int>>& joined, const std::vector<double>& wanted) {
  std::vector<double> lines;
  lines.reserve(joined.size());
  for (const std::vector<int>& together : joined) {
    lines.push_back(mean_of(wanted, together));
  }
  return lines;
}

/// Can what was joined stay so?
bool suits(const std::vector<std::vector<int>>& before, const std::vector<double>& wanted, double nearest) {
  const bool has_all = std::ranges::all_of(before, [&](const std::vector<int>& together) {
    return std::ranges::max(together) < static_cast<int>(wanted.size());
  });
  if (!has_all) {
    return false;
  }
  const std::vector<double> lines = lines_of(before, wanted);
  for (std::size_t k = 0; k + 1 < lines.size(); ++k) {
    if (lines[k + 1] - lines[k] < nearer * nearest) {
      return false;
    }
  }
  return std::ranges::all_of(wanted, [&](double place) {
    return std::ranges::any_of(lines, [&](double line) { return std::abs(line - place) < further * nearest; });
  });
}

} // namespace

Stretches::Stretches(const std::vector<double>& wanted, double nearest, const Division* before) {
  const bool kept = before != nullptr && suits(before->joined, wanted, nearest);
  division_.joined = kept ? before->joined : joined(wanted, nearest);
  lines_ = lines_of(division_.joined, wanted);
  if (kept) {
    cells_before_ = before->cells;
  }
}

} // namespace fanwright::opened
