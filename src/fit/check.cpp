#include "fit/check.h"

#include "fit/check_limits.h"
#include "fit/check_subject.h"
#include "fit/tolerances.h"

#include <algorithm>
#include <cstdio>

namespace fanwright::fit {
namespace {

void worst_first(Findings& findings) {
  std::ranges::stable_sort(findings, [](const Finding& a, const Finding& b) { return a.verdict > b.verdict; });
}

Findings flat_checks(const Subject& subject) {
  Findings findings;
  check_hub(subject, findings);
  check_seam(subject, findings);
  check_pressed_glue(subject, findings);
  check_droop(subject, findings);
  check_cutting(subject, findings);
  check_paper(subject, findings);
  check_weight(subject, findings);
  return findings;
}

Finding no_form(const std::string& sentence, const std::string& where) {
  Finding finding = measured("opens.form", 0, "", "docs/model.md", where);
  finding.verdict = Finding::fails;
  // What there is to do stands in the sentence, after its semicolon.
  const std::size_t remedy = sentence.rfind("; ");
  finding.sentence = reason_of(sentence);
  finding.remedy = remedy == std::string::npos ? "Change the outline, the rows or the number of leaves."
                                               : sentence.substr(remedy + 2);
  if (finding.remedy[0] >= 'a' && finding.remedy[0] <= 'z')
    finding.remedy[0] = static_cast<char>(finding.remedy[0] - 'a' + 'A');
  return finding;
}

} // namespace

std::vector<Finding> check(const design::Design& design, const design::Size& size, const leaf::Leaf& leaf) {
  Findings findings = flat_checks({design, size, leaf});
  worst_first(findings);
  return findings;
}

std::vector<Finding> check(const design::Design& design, const design::Size& size, const leaf::Leaf& leaf,
                           const opened::Form& form) {
  const Subject subject{design, size, leaf};
  Findings findings;
  check_lock(subject, form, findings);
  // Rows that lock never open into this form: what it measures means nothing.
  if (form.lock_ratio <= limit::opens_lock) {
    check_strain(subject, form, findings);
    check_standing(subject, form, findings);
    check_pull(subject, form, findings);
    check_clash(subject, form, findings);
  }
  const Findings flat = flat_checks(subject);
  findings.insert(findings.end(), flat.begin(), flat.end());
  worst_first(findings);
  return findings;
}

namespace {

/// How much of the wanted silhouette the opened one covers; what is missing lies at the axis.
Finding outline_shown(const OpenedLeaf& found, const design::Size& size) {
  Finding finding = measured("opens.outline", 100 * found.overlap, "%", limit::common_practice, size.where + "/leaves");
  finding.limit = 100 * tolerance::good_overlap;
  finding.sentence = "The opened silhouette covers the drawn one to " + decimal(100 * found.overlap, 1) + " %.";
  if (found.remarks.empty())
    return finding;
  finding.verdict = Finding::note;
  finding.sentence = found.remarks.front();
  finding.remedy = "More leaves, or rows further apart, bring the ends of the folds nearer to the axis; thinner paper "
                   "makes the hub smaller.";
  return finding;
}

std::variant<std::vector<Finding>, Failure> check_as_wanted(const design::Design& design, const design::Size& size,
                                                            const Options& options) {
  auto found = opened_leaf(design, size, options);
  if (auto* failure = std::get_if<Failure>(&found)) {
    if (!failure->fails_check)
      return std::move(*failure);
    Finding finding = no_form(failure->sentence, failure->where);
    if (options.remedies)
      finding.tried = remedies(design, size, *failure, options);
    if (!finding.tried.empty())
      finding.remedy = sentence_of(finding.tried);
    return Findings{std::move(finding)};
  }
  const auto& opened = std::get<OpenedLeaf>(found);
  if (options.formed)
    options.formed(opened.form);
  Findings findings = check(design, size, opened.leaf, opened.form);
  findings.push_back(outline_shown(opened, size));
  worst_first(findings);
  return findings;
}

} // namespace

std::variant<std::vector<Finding>, Failure> check(const design::Design& design, const design::Size& size,
                                                  const Options& options) {
  if (design.shows == design::Shows::opened)
    return check_as_wanted(design, size, options);
  auto found = leaf_of(design, size, options);
  if (auto* failure = std::get_if<Failure>(&found)) {
    if (!failure->fails_check)
      return std::move(*failure);
    return Findings{no_form(failure->sentence, failure->where)};
  }
  const leaf::Leaf& leaf = std::get<leaf::Leaf>(found);
  opened::Options how;
  how.progress = options.progress;
  how.cancelled = options.cancelled;
  auto form = opened::open(opened::panel_of(leaf, size), how);
  if (const auto* failure = std::get_if<opened::Failure>(&form)) {
    Findings findings = check(design, size, leaf);
    findings.insert(findings.begin(), no_form(failure->sentence, size.where));
    return findings;
  }
  if (options.formed)
    options.formed(std::get<opened::Form>(form));
  return check(design, size, leaf, std::get<opened::Form>(form));
}

Finding::Verdict worst(const std::vector<Finding>& findings) {
  Finding::Verdict verdict = Finding::good;
  for (const Finding& finding : findings)
    verdict = std::max(verdict, finding.verdict);
  return verdict;
}

Finding measured(std::string id, double value, std::string unit, std::string limit_source, std::string where) {
  Finding finding;
  finding.id = std::move(id);
  finding.value = value;
  finding.unit = std::move(unit);
  finding.limit_source = std::move(limit_source);
  finding.where = std::move(where);
  return finding;
}

Finding::Verdict above(double value, double warning_limit, double fails_limit) {
  return value > fails_limit ? Finding::fails : value > warning_limit ? Finding::warning : Finding::good;
}

Finding::Verdict below(double value, double warning_limit, double fails_limit) {
  return value < fails_limit ? Finding::fails : value < warning_limit ? Finding::warning : Finding::good;
}

std::string pointer(const Subject& subject, const std::string& key) { return subject.size.where + key; }

std::string decimal(double value, int decimals) {
  char text[64];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

} // namespace fanwright::fit
