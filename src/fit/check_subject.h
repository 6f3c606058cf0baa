// What is checked, and the checks themselves, in groups; each adds its findings to a list.
#pragma once

#include "fit/check.h"

#include <string>
#include <vector>

namespace fanwright::fit {

using Findings = std::vector<Finding>;

/// One size with its leaf and, once opened, its form.
struct Subject {
  const design::Design& design;
  const design::Size& size;
  const leaf::Leaf& leaf;
};

void check_lock(const Subject& subject, const opened::Form& form, Findings& findings);
void check_strain(const Subject& subject, const opened::Form& form, Findings& findings);
void check_standing(const Subject& subject, const opened::Form& form, Findings& findings);
void check_pressed_glue(const Subject& subject, Findings& findings);
void check_seam(const Subject& subject, Findings& findings);
void check_hub(const Subject& subject, Findings& findings);
void check_pull(const Subject& subject, const opened::Form& form, Findings& findings);
void check_clash(const Subject& subject, const opened::Form& form, Findings& findings);
void check_droop(const Subject& subject, Findings& findings);
void check_cutting(const Subject& subject, Findings& findings);
void check_paper(const Subject& subject, Findings& findings);
void check_weight(const Subject& subject, Findings& findings);

/// A finding that is good so far: what was measured, who sets its limit, and where in the file it is decided.
Finding measured(std::string id, double value, std::string unit, std::string limit_source, std::string where);

/// `fails` when the value is above the second limit, `warning` above the first, else good.
Finding::Verdict above(double value, double warning_limit, double fails_limit);
/// The same for values that must not be small.
Finding::Verdict below(double value, double warning_limit, double fails_limit);

/// Width, mm, to which a round bead is pressed out: w = pi d^2 / (4 h) with the film h of `limit::pressed_film_mm`.
double pressed_bead_mm(double bead_mm);

/// Mass of the finished piece, paper and dry glue, g.
double mass_g(const Subject& subject);

/// Pointer to a key of the size where it has its own, as "/sizes/0/leaves"; the maker may also find it in the family.
std::string pointer(const Subject& subject, const std::string& key);

/// "12.3", with so many decimals.
std::string decimal(double value, int decimals);

} // namespace fanwright::fit
