#include "fit/remedy.h"

#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "fit/foreseen.h"
#include "fit/narrowed.h"
#include "fit/tolerances.h"
#include "leaf/contour.h"
#include "leaf/sentence.h"
#include "leaf/silhouette.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace fanwright::fit {
namespace {

/// Of an ornament: fewer are no body, more a stack of twice what clips hold flat (common practice, no source).
constexpr int most_leaves = 150, fewest_leaves = 8;
constexpr int fewest_rows = 3;
/// Rows further apart let the paper between them hang through (common practice, no source: 12 to 25 mm as a rule).
constexpr double furthest_rows_mm = 50;
constexpr double narrow_share = 0.4;    ///< of a drawn width: narrower is another ornament,
constexpr double narrowest_share = 0.2; ///< and proposed where nothing else works
constexpr double largest_growth = 2.5;  ///< of a height
constexpr int most_steps_in_all = 2500; ///< of the solver, in one search

/// What a changed design must promise before it is derived: its lock ratio on paper, and how much of the silhouette
/// its hub leaves. Nearer to the limits an opening is hard to find and rarely there; what does not work although it
/// promised is followed by what promises more; the last asks for little of the silhouette, since so many leaves fill
/// the middle.
struct Promise {
  double most_lock, least_overlap;
};
constexpr std::array<Promise, 5> promises{
    {{tolerance::sure_lock, 0.9875}, {0.36, 0.991}, {0.26, 0.995}, {0.18, 0.9975}, {0.13, 0.9875}}};

/// A value that does not work although it promised is followed by one that differs by this share of it.
constexpr double least_progress = 0.3;

bool promising(const Changed& changed, const Promise& promise) {
  const auto ahead = foreseen(changed.design, changed.size);
  const auto* found = std::get_if<Foreseen>(&ahead);
  return found != nullptr && found->lock_ratio <= promise.most_lock && found->overlap >= promise.least_overlap;
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
  Search(const design::Design& design, const design::Size& size, const Options& options)
      : design_(design), size_(size), options_(options) {
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
    least({1.0 * std::max(size_.leaves, fewest_leaves - 1), 1, most_leaves},
          [&](double count) { return leaves(count, "at least "); });
  }

  void fewer_leaves() {
    least({1.0 * size_.leaves, -1, fewest_leaves}, [&](double count) { return leaves(count, "at most "); });
  }

  void rows_apart() {
    if (const auto* even = std::get_if<design::EvenRows>(&size_.rows)) {
      const double fewest = std::max<double>(fewest_rows, std::ceil(span_of(*even) / furthest_rows_mm) + 1);
      // Two rows fewer at a time: foot and top keep their sides.
      least({1.0 * even->count, -2, fewest}, [&](double count) { return rows(*even, count); });
    } else if (const auto* wish = std::get_if<design::AutoRows>(&size_.rows);
               wish != nullptr && wish->look != design::Look::open) {
      least({0, 1, 1}, [&](double) {
        return Change{Change::look, size_.where + "/rows/look", std::string("open"), "rows with an open look"};
      });
    }
  }

  void narrower(double share) {
    // Rows listed one by one lie where they are drawn; a narrower outline would leave them outside.
    if (std::holds_alternative<std::vector<design::ListedRow>>(size_.rows))
      return;
    least({std::ceil(width_mm_), -1, share * width_mm_}, [&](double width) {
      return Change{Change::width, "/silhouette/path", narrowed(design_.silhouette_path, width / width_mm_),
                    "drawn no wider than " + leaf::in_mm(width)};
    });
  }

  void larger() {
    // Whole millimetres, or quarters of an inch.
    const double step = design_.units_to_mm > 1 ? design_.units_to_mm / 4 : 1;
    least({step * std::floor(height_mm_ / step), step, largest_growth * height_mm_}, [&](double height) {
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

  /// From the lowest row to the highest, mm.
  double span_of(const design::EvenRows& even) const { return height_mm_ - 2 * even.edge_gap_mm - even.width_mm; }

  Change rows(const design::EvenRows& even, double count) const {
    const double apart = span_of(even) / (count - 1);
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

  /// Values that a thing may have: from the present one in steps as far as the last.
  struct Values {
    double present, step, last;

    int count() const { return std::max(0, static_cast<int>(std::floor((last - present) / step + 1e-9))); }
    double at(int k) const { return present + step * k; }
  };

  /// The first value after the one numbered `after` that holds the promise, looked for in strides of a twentieth and
  /// then between the last two.
  template <typename Make>
  std::optional<int> first(const Values& values, int after, const Promise& promise, const Make& make) const {
    const auto holds = [&](int k) { return promising(with(design_, size_, make(values.at(k))), promise); };
    int fails = after;
    for (int k = after + 1; k <= values.count(); ++k) {
      if (!holds(k)) {
        fails = k;
        k += static_cast<int>(std::abs(values.at(k) / values.step) / 20);
        continue;
      }
      while (k - fails > 1) {
        const int middle = fails + (k - fails) / 2;
        (holds(middle) ? k : fails) = middle;
      }
      return k;
    }
    return std::nullopt;
  }

  /// Tries what promises to work, the nearest to the present value first.
  template <typename Make> void least(const Values& values, const Make& make) {
    int last = 0;
    for (const Promise& promise : promises) {
      if (stopped())
        return;
      const auto found = first(values, last, promise, make);
      if (!found)
        continue;
      Change change = make(values.at(*found));
      if (tried(change)) {
        found_.push_back(std::move(change));
        return;
      }
      last = *found + static_cast<int>(least_progress * std::abs(values.at(*found) / values.step));
    }
  }

  const design::Design& design_;
  const design::Size& size_;
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
  Search search(design, size, options);
  if (!search.sound())
    return {};
  search.more_leaves();
  search.rows_apart();
  search.narrower(narrow_share);
  if (search.none())
    search.fewer_leaves();
  if (search.none())
    search.larger();
  if (search.none())
    search.narrower(narrowest_share);
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
