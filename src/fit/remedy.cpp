#include "fit/remedy.h"

#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "fit/narrowed.h"
#include "fit/tolerances.h"
#include "leaf/contour.h"
#include "leaf/sentence.h"
#include "leaf/silhouette.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fanwright::fit {
namespace {

constexpr int most_leaves = 400, fewest_leaves = 8; ///< of a design file; of an ornament (common practice, no source)
constexpr int fewest_rows = 3;
constexpr double narrowest_share = 0.4; ///< of a drawn width: narrower is another ornament
constexpr int most_steps_in_all = 700;  ///< of the solver, in one search

/// Factors by which a thing is changed, the smallest first. Where it is known what lacks, lock ratios of 0.47 and 0.35
/// are aimed at: nearer to the limit an opening is hard to find and rarely there.
std::vector<double> ladder(double lacking) {
  if (lacking > 1.02)
    return {1.9 * lacking, 2.6 * lacking};
  return {1.25, 1.7, 2.4, 4.0, 8.0, 16.0};
}

/// Does the size open, its rows without locking and its paper without tearing?
bool works(const Changed& changed, const Options& options) {
  const auto found = opened_leaf(changed.design, changed.size, options);
  const auto* opened = std::get_if<OpenedLeaf>(&found);
  if (opened == nullptr)
    return false;
  Findings findings;
  const Subject subject{changed.design, changed.size, opened->leaf};
  check_lock(subject, opened->form, findings);
  check_strain(subject, opened->form, findings);
  return worst(findings) != Finding::fails;
}

/// Everything that is tried for one size.
class Search {
public:
  Search(const Search&) = delete; // its cancel hook counts in it
  Search& operator=(const Search&) = delete;
  Search(const design::Design& design, const design::Size& size, const Failure& failure, const Options& options)
      : design_(design), size_(size), failure_(failure), options_(options) {
    options_.progress = nullptr;
    options_.most_steps = tolerance::remedy_steps;
    options_.cancelled = [this, asked = options.cancelled] { return --steps_left_ < 0 || (asked && asked()); };
    const auto outline = leaf::silhouette(design, size);
    if (const auto* found = std::get_if<leaf::Silhouette>(&outline)) {
      const leaf::Box box = leaf::bounds(found->outline);
      width_mm_ = 2 * box.right;
      height_mm_ = box.height();
    }
  }

  bool sound() const { return width_mm_ > 0; }

  void more_leaves() {
    std::vector<double> counts;
    for (const double factor : ladder(failure_.lacking))
      counts.push_back(std::min<double>(most_leaves, std::ceil(size_.leaves * factor)));
    least(counts, size_.leaves, 1, [&](double count) { return leaves(count, "at least "); });
  }

  void fewer_leaves() {
    std::vector<double> counts;
    for (const double share : {0.85, 0.65, 0.45, 0.3})
      if (const double count = std::floor(size_.leaves * share); count >= fewest_leaves)
        counts.push_back(count);
    least(counts, size_.leaves, -1, [&](double count) { return leaves(count, "at most "); });
  }

  void rows_apart() {
    if (const auto* even = std::get_if<design::EvenRows>(&size_.rows)) {
      std::vector<double> counts;
      // Two rows fewer at a time: foot and top keep their sides.
      for (const double factor : ladder(failure_.lacking)) {
        const int pairs = static_cast<int>(std::ceil((even->count - 1) * (1 - 1 / factor) / 2));
        if (const int count = even->count - 2 * pairs; count >= fewest_rows)
          counts.push_back(count);
      }
      least(counts, even->count, -2, [&](double count) { return rows(*even, count); });
    } else if (const auto* wish = std::get_if<design::AutoRows>(&size_.rows);
               wish != nullptr && wish->look != design::Look::open) {
      const Change change{Change::look, size_.where + "/rows/look", std::string("open"), "rows with an open look"};
      if (tried(change))
        found_.push_back(change);
    }
  }

  void narrower() {
    // Rows listed one by one lie where they are drawn; a narrower outline would leave them outside.
    if (std::holds_alternative<std::vector<design::ListedRow>>(size_.rows))
      return;
    std::vector<double> widths;
    for (const double factor : ladder(failure_.lacking))
      if (factor * narrowest_share <= 1)
        widths.push_back(std::floor(width_mm_ / factor));
    least(widths, std::ceil(width_mm_), -1, [&](double width) {
      return Change{Change::width, "/silhouette/path", narrowed(design_.silhouette_path, width / width_mm_),
                    "drawn no wider than " + leaf::in_mm(width)};
    });
  }

  void larger() {
    std::vector<double> heights;
    for (const double factor : {1.2, 1.5, 2.0})
      heights.push_back(std::ceil(height_mm_ * factor));
    least(heights, std::floor(height_mm_), 1, [&](double height) {
      return Change{Change::height, size_.where + "/height", height, "at least " + leaf::in_mm(height) + " high"};
    });
  }

  bool none() const { return found_.empty(); }
  std::vector<Change> found() && { return std::move(found_); }

private:
  Change leaves(double count, const char* bound) const {
    return {Change::leaves, size_.where + "/leaves", count,
            bound + std::to_string(static_cast<int>(count)) + " leaves"};
  }

  Change rows(const design::EvenRows& even, double count) const {
    const double apart = (height_mm_ - 2 * even.edge_gap_mm - even.width_mm) / (count - 1);
    return {Change::rows, size_.where + "/rows/count", count,
            "rows " + leaf::in_mm(apart) + " apart (" + std::to_string(static_cast<int>(count)) + ")"};
  }

  bool stopped() const { return tries_ >= tolerance::most_remedy_tries || options_.cancelled(); }

  bool tried(const Change& change) {
    if (stopped())
      return false;
    ++tries_;
    return works(with(design_, size_, change), options_);
  }

  /// The first value that works, brought back towards the last that does not: `present` to begin with. `step`: values
  /// lie so far apart.
  template <typename Make> void least(const std::vector<double>& values, double present, int step, const Make& make) {
    double fails = present;
    for (const double value : values) {
      if (value == fails)
        continue;
      Change change = make(value);
      if (!tried(change)) {
        if (stopped())
          return;
        fails = value;
        continue;
      }
      double good = value;
      for (int k = 0; k < tolerance::remedy_halvings; ++k) {
        const double between = fails + step * std::floor((good - fails) / step / 2);
        if (between == fails || between == good)
          break;
        Change less = make(between);
        const bool is_enough = tried(less);
        (is_enough ? good : fails) = between;
        if (is_enough)
          change = std::move(less);
      }
      found_.push_back(std::move(change));
      return;
    }
  }

  const design::Design& design_;
  const design::Size& size_;
  const Failure& failure_;
  Options options_;
  double width_mm_ = 0, height_mm_ = 0;
  int tries_ = 0, steps_left_ = most_steps_in_all;
  std::vector<Change> found_;
};

} // namespace

Changed with(const design::Design& design, const design::Size& size, const Change& change) {
  Changed changed{design, size};
  switch (change.of) {
  case Change::leaves:
    changed.size.leaves = static_cast<int>(std::get<double>(change.value));
    break;
  case Change::rows:
    std::get<design::EvenRows>(changed.size.rows).count = static_cast<int>(std::get<double>(change.value));
    break;
  case Change::look:
    std::get<design::AutoRows>(changed.size.rows).look = design::Look::open;
    break;
  case Change::width:
    changed.design.silhouette_path = std::get<std::string>(change.value);
    break;
  case Change::height:
    changed.size.height_mm = std::get<double>(change.value);
    break;
  }
  return changed;
}

std::vector<Change> remedies(const design::Design& design, const design::Size& size, const Failure& failure,
                             const Options& options) {
  if (!failure.fails_check || design.shows != design::Shows::opened)
    return {};
  Search search(design, size, failure, options);
  if (!search.sound())
    return {};
  search.more_leaves();
  search.rows_apart();
  search.narrower();
  if (search.none())
    search.fewer_leaves();
  if (search.none())
    search.larger();
  return std::move(search).found();
}

std::string reason_of(const std::string& sentence) {
  const std::size_t advice = sentence.rfind("; ");
  return advice == std::string::npos ? sentence : sentence.substr(0, advice) + ".";
}

std::string sentence_of(const std::vector<Change>& remedies) {
  if (remedies.empty())
    return "";
  std::string sentence = remedies.size() == 1 ? "Tried, and it works: " : "Tried, and each works: ";
  for (std::size_t k = 0; k < remedies.size(); ++k)
    sentence += (k == 0 ? "" : "; ") + remedies[k].sentence;
  return sentence + ".";
}

std::string refusal_of(const Failure& failure, const std::vector<Change>& remedies) {
  return remedies.empty() ? failure.sentence : reason_of(failure.sentence) + " " + sentence_of(remedies);
}

} // namespace fanwright::fit
