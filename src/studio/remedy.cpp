#include "studio/remedy.h"

#include "studio/json.h"

#include <algorithm>
#include <array>
#include <functional>
#include <map>
#include <set>

namespace fanwright::studio {
namespace {

using Changes = std::vector<told::Change>;
using Pointer = Json::json_pointer;

constexpr int most_leaves = 400, fewest_leaves = 2;
constexpr std::array<double, 8> usual_grammages{80, 100, 120, 160, 200, 240, 300, 350}; ///< g/m2, as sold

/// The design at hand and the ways to write a change of it.
class Subject {
public:
  Subject(const std::string& text, const design::Design& design, const design::Size& size, const fit::Finding& finding)
      : json_(Json::parse(text, nullptr, false)), design_(design), size_(size), finding_(finding) {}

  const design::Design& design() const { return design_; }
  const design::Size& size() const { return size_; }
  const fit::Finding& finding() const { return finding_; }
  bool readable() const { return json_.is_object(); }

  /// Lengths as the file writes them.
  double length(double mm) const { return std::round(mm / design_.units_to_mm * 1e4) / 1e4; }

  /// The value at a pointer below the size, or below the file's top: where the way there ends, the rest is made.
  told::Change at(const std::string& base, const std::string& path, const Json& value) const {
    std::vector<std::string> keys;
    Pointer whole(base + path);
    Json built = value;
    while (!whole.empty() && !json_.contains(whole.parent_pointer())) {
      built = Json{{whole.back(), built}};
      whole = whole.parent_pointer();
    }
    // A word such as "auto" stands where an object is needed: it becomes what the object says.
    if (!whole.empty() && json_.contains(whole.parent_pointer()) && json_.at(whole.parent_pointer()).is_string() &&
        json_.at(whole.parent_pointer()) == "auto") {
      built = Json{{"count", "auto"}, {whole.back(), built}};
      whole = whole.parent_pointer();
    }
    return {whole.to_string(), built.dump()};
  }
  told::Change of_size(const std::string& path, const Json& value) const { return at(size_.where, path, value); }
  told::Change of_all(const std::string& path, const Json& value) const { return at("", path, value); }

private:
  Json json_;
  const design::Design& design_;
  const design::Size& size_;
  const fit::Finding& finding_;
};

using Tries = std::vector<Changes>;
using Propose = std::function<void(const Subject&, Tries&)>;

int even(double count) { return 2 * static_cast<int>(std::lround(count / 2)); }

void more_leaves(const Subject& subject, Tries& tries) {
  std::set<int> counts;
  // A lock ratio goes with one over the leaves.
  if (const auto& finding = subject.finding(); finding.id == "opens.rows" && finding.value > 0.7)
    counts.insert(
        std::clamp(even(std::ceil(subject.size().leaves * finding.value / 0.69 + 0.5)), fewest_leaves, most_leaves));
  for (const double factor : {1.06, 1.12, 1.2, 1.3, 1.45, 1.6, 2.0, 2.6})
    counts.insert(std::clamp(even(std::ceil(subject.size().leaves * factor)), fewest_leaves, most_leaves));
  for (const int count : counts)
    if (count > subject.size().leaves)
      tries.push_back({subject.of_size("/leaves", count)});
}

void fewer_leaves(const Subject& subject, Tries& tries) {
  for (const double factor : {0.94, 0.88, 0.8, 0.7, 0.6})
    if (const int count = even(subject.size().leaves * factor); count >= 8 && count < subject.size().leaves)
      tries.push_back({subject.of_size("/leaves", count)});
}

/// Rows by their number; rows that place themselves by their look.
void rows_changed(const Subject& subject, Tries& tries, int step) {
  if (const auto* rows = std::get_if<design::EvenRows>(&subject.size().rows))
    for (const int more : {step, 2 * step, 3 * step})
      if (const int count = rows->count + more; count >= 3 && count <= 60)
        tries.push_back({subject.of_size("/rows/count", count)});
  if (const auto* rows = std::get_if<design::AutoRows>(&subject.size().rows)) {
    const auto wanted = step > 0 ? design::Look::dense : design::Look::open;
    if (rows->look != wanted && rows->look == design::Look::usual)
      tries.push_back({subject.of_size("/rows/look", step > 0 ? "dense" : "open")});
  }
}

void fewer_rows(const Subject& subject, Tries& tries) { rows_changed(subject, tries, -2); }
void more_rows(const Subject& subject, Tries& tries) { rows_changed(subject, tries, 2); }

void thinner_bead(const Subject& subject, Tries& tries) {
  // The pressed width goes with the square of the bead; "glue.row" tells it as a share of the row.
  if (const double share = subject.finding().value; subject.finding().id == "glue.row" && share > 1)
    tries.push_back({subject.of_all(
        "/making/bead", subject.length(0.05 * std::floor(subject.design().making.bead_mm / std::sqrt(share) / 0.05)))});
  for (const double factor : {0.9, 0.8, 0.7, 0.6})
    tries.push_back({subject.of_all(
        "/making/bead", subject.length(0.05 * std::floor(subject.design().making.bead_mm * factor / 0.05)))});
}

void wider_rows(const Subject& subject, Tries& tries) {
  if (const auto* rows = std::get_if<design::EvenRows>(&subject.size().rows))
    for (const double more : {0.5, 1.0, 1.5})
      tries.push_back({subject.of_size("/rows/width", subject.length(rows->width_mm + more))});
}

void wider_gap(const Subject& subject, Tries& tries, const char* path, double design::EvenRows::*gap) {
  const auto* rows = std::get_if<design::EvenRows>(&subject.size().rows);
  if (rows == nullptr)
    return;
  const double lacking = subject.finding().limit.value_or(0) - subject.finding().value; // mm of room
  if (lacking > 0 && subject.finding().unit == "mm")
    tries.push_back({subject.of_size(path, subject.length(rows->*gap + 0.1 * std::ceil(10 * lacking + 0.5)))});
  for (const double more : {0.5, 1.0, 1.5, 2.5})
    tries.push_back({subject.of_size(path, subject.length(rows->*gap + more))});
}

void wider_spine_gap(const Subject& subject, Tries& tries) {
  wider_gap(subject, tries, "/rows/spine_gap", &design::EvenRows::spine_gap_mm);
}

void wider_edge_gap(const Subject& subject, Tries& tries) {
  wider_gap(subject, tries, "/rows/edge_gap", &design::EvenRows::edge_gap_mm);
}

void heavier_paper(const Subject& subject, Tries& tries) {
  for (const double grammage : usual_grammages)
    if (grammage > subject.size().paper.grammage_gsm + 1 && grammage <= 240)
      tries.push_back({subject.of_size("/paper/grammage", grammage)});
}

void lighter_paper(const Subject& subject, Tries& tries) {
  for (auto grammage = usual_grammages.rbegin(); grammage != usual_grammages.rend(); ++grammage)
    if (*grammage < subject.size().paper.grammage_gsm - 1)
      tries.push_back({subject.of_size("/paper/grammage", *grammage)});
}

void grain_along(const Subject& subject, Tries& tries) {
  tries.push_back({subject.of_size("/paper/grain", "along spine")});
}

void dyed_paper(const Subject& subject, Tries& tries) { tries.push_back({subject.of_size("/paper/core", "dyed")}); }

void larger_sheet(const Subject& subject, Tries& tries) {
  const auto area = [](const paper::SheetSize& size) { return size.width_mm * size.height_mm; };
  for (const char* name : {"A4", "A3", "A2", "A1"})
    if (const auto size = paper::sheet_size(name); size && area(*size) > 1.05 * area(subject.size().sheet.size))
      tries.push_back({subject.of_size("/sheet/size", name)});
}

/// `value` says how much of the sheet the leaf takes, in percent.
void smaller_size(const Subject& subject, Tries& tries) {
  if (subject.size().height_mm && subject.finding().value > 100 && !subject.size().where.empty())
    tries.push_back({subject.of_size(
        "/height", std::floor(subject.length(*subject.size().height_mm * 98 / subject.finding().value)))});
}

void first_between(const Subject& subject, Tries& tries) {
  if (!std::holds_alternative<std::vector<design::ListedRow>>(subject.size().rows))
    tries.push_back({subject.of_size("/rows/first", "between")});
}

/// What is tried for each finding, in this order.
const std::map<std::string, std::vector<Propose>>& proposals() {
  static const std::map<std::string, std::vector<Propose>> all = {
      {"opens.form", {more_leaves, fewer_rows}},
      {"opens.rows", {more_leaves, fewer_rows}},
      {"opens.paper", {more_leaves, fewer_rows}},
      {"closes.hub", {fewer_leaves, lighter_paper}},
      {"closes.seam", {first_between, more_rows}},
      {"closes.pull", {more_leaves, fewer_rows, lighter_paper, wider_rows}},
      {"glue.row", {thinner_bead, wider_rows}},
      {"glue.fold", {wider_spine_gap, thinner_bead}},
      {"glue.edge", {wider_edge_gap, thinner_bead}},
      {"glue.cells", {thinner_bead, more_leaves, fewer_rows}},
      {"flaps.droop", {more_rows, heavier_paper}},
      {"flaps.clash", {more_leaves}},
      {"fold.score", {lighter_paper}},
      {"fold.grain", {grain_along}},
      {"paper.core", {dyed_paper}},
      {"sheet.fits", {larger_sheet, smaller_size}},
  };
  return all;
}

fit::Finding::Verdict verdict_of(const std::vector<fit::Finding>& findings, const std::string& id) {
  auto worst = fit::Finding::good;
  for (const fit::Finding& finding : findings)
    if (finding.id == id)
      worst = std::max(worst, finding.verdict);
  return worst;
}

} // namespace

std::vector<Changes> remedies(const std::string& text, const design::Design& design, const design::Size& size,
                              const fit::Finding& finding) {
  Tries tries;
  const Subject subject(text, design, size, finding);
  const auto found = proposals().find(finding.id);
  if (found != proposals().end() && subject.readable())
    for (const Propose& propose : found->second)
      propose(subject, tries);
  return tries;
}

bool helps(const fit::Finding& finding, const std::vector<fit::Finding>& before,
           const std::vector<fit::Finding>& after) {
  if (after.empty() || verdict_of(after, finding.id) >= fit::Finding::warning)
    return false;
  return std::ranges::all_of(after, [&](const fit::Finding& found) {
    return found.verdict < fit::Finding::warning || found.verdict <= verdict_of(before, found.id);
  });
}

} // namespace fanwright::studio
