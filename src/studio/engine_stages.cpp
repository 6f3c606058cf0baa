// What an engine computes behind the page, stage by stage.
#include "fan/check_fans.h"
#include "fan/seated_fans.h"
#include "leaf/contour.h"
#include "studio/changed_text.h"
#include "studio/engine.h"
#include "studio/remedy.h"
#include "studio/seat_remedy.h"
#include "studio/size_of.h"

#include <array>

namespace fanwright::studio {
namespace {

constexpr int most_tries = 40; ///< of remedies, each with a form of its own
constexpr std::array<double, 6> shares{0.05, 0.15, 0.3, 0.5, 0.75, 1};

/// The leaf's findings and then those of the fans; `form` is null where none was found.
std::vector<fit::Finding> with_fans(std::vector<fit::Finding> findings, const design::Design& design,
                                    const design::Size& size, const opened::Form* form) {
  auto fans = fan::check(design, size, form);
  if (auto* refusal = std::get_if<design::Refusal>(&fans)) {
    fit::Finding finding;
    finding.id = "fan.form";
    finding.verdict = fit::Finding::fails;
    finding.sentence = std::move(refusal->sentence);
    finding.where = std::move(refusal->where);
    findings.push_back(std::move(finding));
    return findings;
  }
  auto& found = std::get<std::vector<fit::Finding>>(fans);
  findings.insert(findings.end(), std::make_move_iterator(found.begin()), std::make_move_iterator(found.end()));
  return findings;
}

/// Changes that let the fan of a finding sit; none where something else is wrong.
std::vector<std::vector<told::Change>> seats_that_work(const std::string& text, const design::Design& design,
                                                       const design::Size& size, const opened::Form& form,
                                                       const fit::Finding& finding) {
  const auto fans = fan::fans_of(design, size);
  if (finding.id != "fan.seat" || std::holds_alternative<design::Refusal>(fans))
    return {};
  const fan::Body body = fan::body_of(form, size.leaves, size.paper);
  for (const fan::SizedFan& fan : std::get<std::vector<fan::SizedFan>>(fans)) {
    if (!fan.seat || !finding.where.starts_with(fan.fan->where + "/"))
      continue;
    const auto seat = fan::seated(fan, body, design.making.display == design::Display::stands);
    if (const auto* unseated = std::get_if<fan::Unseated>(&seat))
      return seat_remedies(text, unseated->remedies);
  }
  return {};
}

/// Findings of the changed design's size; none where it has become no sound design or no form was found.
std::vector<fit::Finding> findings_with(const std::string& text, const std::vector<told::Change>& changes,
                                        const std::string& size_name, const fit::Followed* last,
                                        const fit::Options& options) {
  const auto changed = with_changes(text, changes);
  const auto parsed = changed ? design::parse(*changed) : design::Refusal{};
  const auto* design = std::get_if<design::Design>(&parsed);
  const design::Size* size = design != nullptr ? size_of(*design, size_name) : nullptr;
  if (size == nullptr)
    return {};
  if (last == nullptr) {
    auto found = fit::check(*design, *size, options);
    return std::holds_alternative<fit::Failure>(found)
               ? std::vector<fit::Finding>{}
               : with_fans(std::get<std::vector<fit::Finding>>(std::move(found)), *design, *size, nullptr);
  }
  opened::Solver solver;
  const auto followed = fit::settle(*design, *size, *last, solver, options);
  if (const auto* found = std::get_if<fit::Followed>(&followed))
    return with_fans(fit::check(*design, *size, found->leaf, found->form), *design, *size, &found->form);
  return {};
}

} // namespace

Engine::Stage Engine::perform(const Task& task) {
  switch (task.stage) {
  case Stage::begin: {
    std::optional<fit::Failure> failure;
    static_cast<void>(last_or_begun(*task.design, task.size, task.revision, failure));
    return Stage::done;
  }
  case Stage::settle:
    return settle(task);
  case Stage::spread:
    return measure_spread(task);
  case Stage::openings:
    return open_stepwise(task);
  case Stage::checks:
    return check(task);
  case Stage::takes:
    return tell_takes(task);
  case Stage::remedies:
    return try_remedies(task);
  case Stage::done:
    break;
  }
  return Stage::done;
}

Engine::Stage Engine::settle(const Task& task) {
  const auto settled = settled_now(task, solvers_[task.size.name]);
  if (stale(task))
    return Stage::done;
  if (const auto* found = std::get_if<fit::Failure>(&settled)) {
    told::Shape shape{task.revision, true, task.size.name, *found, nullptr, nullptr, nullptr, nullptr, {}, {}, {}};
    tell(task, "form", told::shape(shape));
    return found->fails_check ? Stage::checks : Stage::done;
  }
  const auto& followed = std::get<std::shared_ptr<const fit::Followed>>(settled);
  tell_form(task, *followed, std::nullopt);
  keep_preview(task, *followed);
  return Stage::checks;
}

/// What the next drag is shown with; that of the form before serves until it is there.
void Engine::keep_preview(const Task& task, const fit::Followed& followed) {
  const auto before = preview_of(task.size.name);
  opened::Options options;
  options.cancelled = [&] { return stale(task); };
  auto preview = opened::Preview::from(followed.panel, followed.form, before ? &*before : nullptr, options);
  const std::lock_guard lock(mutex_);
  if (preview && newest_ == task.revision)
    known(task.size.name).preview = std::move(preview);
}

/// The settled form of the task's size and revision; computed and kept where there is none yet.
Engine::Settled Engine::settled_now(const Task& task, opened::Solver& solver) {
  if (auto followed = settled_of(task))
    return followed;
  std::optional<fit::Failure> failure;
  const auto last = last_or_begun(*task.design, task.size, task.revision, failure);
  if (!last)
    return *failure;
  const fit::Options options{{}, [&] { return stale(task); }};
  auto settled = fit::settle(*task.design, task.size, *last, solver, options);
  // What cannot be reached from the last form may still be found from the start.
  if (std::holds_alternative<fit::Failure>(settled) && !stale(task))
    if (auto begun = fit::begin(*task.design, task.size, options); std::holds_alternative<fit::Followed>(begun))
      settled = fit::settle(*task.design, task.size, std::get<fit::Followed>(begun), solver, options);
  if (auto* found = std::get_if<fit::Failure>(&settled))
    return std::move(*found);
  auto followed = std::make_shared<const fit::Followed>(std::get<fit::Followed>(std::move(settled)));
  const std::lock_guard lock(mutex_);
  if (newest_ == task.revision) {
    Known& here = known(task.size.name);
    here = {followed, task.revision, std::move(here.preview), {}, nullptr, {}, {}, here.used};
  }
  return followed;
}

std::shared_ptr<const fit::Followed> Engine::settled_of(const Task& task) const {
  const std::lock_guard lock(mutex_);
  const auto here = known_.find(task.size.name);
  const bool there =
      here != known_.end() && here->second.revision == task.revision && here->second.last && !here->second.last->coarse;
  return there ? here->second.last : nullptr;
}

Engine::Stage Engine::measure_spread(const Task& task) {
  const auto followed = settled_of(task);
  if (!followed)
    return Stage::takes;
  opened::Options options;
  options.cancelled = [&] { return stale(task); };
  const auto found = opened::spread(followed->panel, followed->form, options);
  if (const auto* spread = std::get_if<opened::Spread>(&found); spread != nullptr && !stale(task))
    tell_form(task, *followed, *spread);
  return Stage::openings;
}

Engine::Stage Engine::open_stepwise(const Task& task) {
  const auto followed = settled_of(task);
  if (!followed)
    return Stage::takes;
  opened::Solver solver;
  opened::Options options;
  options.cancelled = [&] { return stale(task); };
  options.mesh = false;
  options.detail = opened::Detail::quick; // seen for a moment on the way
  std::map<double, std::shared_ptr<const opened::Form>> openings;
  // From wide to narrow, each from the one before.
  for (auto share = shares.rbegin() + 1; share != shares.rend() && !stale(task); ++share) {
    opened::Panel panel = followed->panel;
    panel.opening_deg *= *share;
    auto form = solver.open(panel, options);
    if (auto* found = std::get_if<opened::Form>(&form))
      openings[*share] = std::make_shared<const opened::Form>(std::move(*found));
  }
  if (stale(task))
    return Stage::done;
  std::vector<double> found;
  found.reserve(openings.size() + 1);
  for (const auto& [share, form] : openings)
    found.push_back(share);
  found.push_back(1);
  {
    const std::lock_guard lock(mutex_);
    if (newest_ != task.revision)
      return Stage::done;
    known(task.size.name).openings = std::move(openings);
  }
  tell(task, "openings", told::openings(task.revision, task.size.name, found));
  return Stage::takes;
}

Engine::Stage Engine::check(const Task& task) {
  std::vector<fit::Finding> findings;
  if (const auto followed = settled_of(task)) {
    findings = with_fans(fit::check(*task.design, task.size, followed->leaf, followed->form), *task.design, task.size,
                         &followed->form);
  } else {
    auto found = fit::check(*task.design, task.size, fit::Options{{}, [&] { return stale(task); }});
    if (auto* list = std::get_if<std::vector<fit::Finding>>(&found))
      findings = with_fans(std::move(*list), *task.design, task.size, nullptr);
  }
  if (!stale(task))
    tell(task, "checks", told::checks(task.revision, task.size.name, findings, {}));
  findings_[task.size.name] = std::move(findings);
  return Stage::spread;
}

/// For all sizes of the design at once, whichever of them the page looks at.
Engine::Stage Engine::tell_takes(const Task& task) {
  if (takes_told_ == task.revision)
    return Stage::remedies;
  std::vector<Takes> all;
  for (const design::Size& size : task.design->sizes) {
    Task one = task;
    one.size = size;
    const auto settled = settled_now(one, solvers_[size.name]);
    if (stale(task))
      return Stage::done;
    if (const auto* failure = std::get_if<fit::Failure>(&settled))
      all.push_back(no_takes(size, failure->sentence));
    else
      all.push_back(takes(*task.design, *std::get<std::shared_ptr<const fit::Followed>>(settled)));
  }
  tell(task, "takes", told::takes(task.revision, all));
  takes_told_ = task.revision;
  return Stage::remedies;
}

/// Looks for changes that do away with what fails or warns, and tells of each that was found.
Engine::Stage Engine::try_remedies(const Task& task) {
  const std::vector<fit::Finding> before = findings_[task.size.name];
  const auto followed = settled_of(task);
  const fit::Options options{{}, [&] { return stale(task); }};
  std::vector<std::vector<told::Change>> found(before.size());
  int tries = 0;
  for (std::size_t k = 0; k < before.size(); ++k) {
    if (before[k].verdict < fit::Finding::warning)
      continue;
    auto tried = remedies(task.text, *task.design, task.size, before[k]);
    if (followed && tried.empty())
      tried = seats_that_work(task.text, *task.design, task.size, followed->form, before[k]);
    for (const auto& changes : tried) {
      if (stale(task) || ++tries > most_tries)
        return Stage::done;
      auto after = findings_with(task.text, changes, task.size.name, followed.get(), options);
      // How near a fan comes to the body is not known before it sits.
      if (before[k].id == "fan.seat")
        std::erase_if(after, [](const fit::Finding& one) {
          return one.id == "fan.clear" && one.verdict == fit::Finding::warning;
        });
      if (!helps(before[k], before, after))
        continue;
      found[k] = changes;
      tell(task, "checks", told::checks(task.revision, task.size.name, before, found));
      break;
    }
  }
  return Stage::done;
}

void Engine::tell_form(const Task& task, const fit::Followed& followed, const std::optional<opened::Spread>& spread) {
  told::Shape shape{task.revision,
                    true,
                    task.size.name,
                    {},
                    task.design.get(),
                    &followed.leaf,
                    &followed.panel,
                    &followed.form,
                    {},
                    {},
                    {}};
  shape.wanted = fit::wanted_outline(*task.design, task.size);
  if (spread)
    shape.spread = *spread;
  shape.mesh = mesh_address(task.size.name, task.revision, false);
  tell(task, "form", told::shape(shape));
}

} // namespace fanwright::studio
