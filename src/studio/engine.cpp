#include "studio/engine.h"

#include "studio/panel_mesh.h"

#include <algorithm>
#include <array>

namespace fanwright::studio {
namespace {

using Clock = std::chrono::steady_clock;

constexpr auto pause_of_edits = std::chrono::milliseconds(300); ///< before anything but the form is looked at
constexpr std::size_t most_known = 12; ///< sizes with a form at hand: as many as a file may list
constexpr std::array<double, 6> shares{0.05, 0.15, 0.3, 0.5, 0.75, 1};

const design::Size* size_of(const design::Design& design, const std::string& name) {
  if (name.empty())
    return &design.sizes.back();
  const auto found = std::ranges::find(design.sizes, name, &design::Size::name);
  return found == design.sizes.end() ? nullptr : &*found;
}

} // namespace

Engine::Engine(std::string id, Listeners& listeners, Solving& solving)
    : id_(std::move(id)), listeners_(listeners), solving_(solving), worker_([this] { work(); }) {}

Engine::~Engine() {
  end();
  worker_.join();
}

void Engine::end() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  asked_.notify_all();
}

std::uint64_t Engine::revision() const { return newest_; }

// ---- Asked by the page ---------------------------------------------------------------------------------------------

Reply Engine::shape(const asked::Shape& asked) {
  auto parsed = design::parse(asked.text);
  const auto* refusal = std::get_if<design::Refusal>(&parsed);
  std::shared_ptr<const design::Design> design;
  const design::Size* size = nullptr;
  if (refusal == nullptr) {
    design = std::make_shared<const design::Design>(std::get<design::Design>(std::move(parsed)));
    size = size_of(*design, asked.size);
    if (size == nullptr)
      return told::refusal(400, "There is no size of this name in the design.", "/sizes");
  }
  {
    const std::lock_guard lock(mutex_);
    if (asked.revision < newest_)
      return told::refusal(409,
                           "A newer change has come already; go on from revision " + std::to_string(newest_) + ".");
    if (asked.revision > newest_)
      wanted_.clear();
    newest_ = asked.revision;
    newest_came_ = Clock::now();
    design_ = design;
    text_ = asked.text;
  }
  Reply reply = estimated(asked, design, size, refusal);
  if (size != nullptr && asked.settle)
    want(asked.revision, size->name);
  return reply;
}

/// Lets a size of this revision settle, unless a newer one has come.
void Engine::want(std::uint64_t revision, const std::string& size) {
  {
    const std::lock_guard lock(mutex_);
    if (newest_ != revision || std::ranges::find(wanted_, size, &Wanted::size) != wanted_.end())
      return;
    wanted_.push_back({size, Stage::settle});
  }
  asked_.notify_all();
}

Reply Engine::estimated(const asked::Shape& asked, const std::shared_ptr<const design::Design>& design,
                        const design::Size* size, const design::Refusal* refusal) {
  told::Shape answer{asked.revision, false, asked.size, {}, nullptr, nullptr, nullptr, nullptr, {}, {}, {}};
  if (size == nullptr) {
    answer.problem = fit::Failure{refusal->where, refusal->sentence, false};
    return told::reply(told::shape(answer));
  }
  answer.size = size->name;
  const auto last = last_or_begun(*design, *size, asked.revision, answer.problem);
  if (!last)
    return told::reply(told::shape(answer));
  const auto estimate = fit::estimate(*design, *size, *last);
  if (const auto* failure = std::get_if<fit::Failure>(&estimate)) {
    answer.problem = *failure;
    return told::reply(told::shape(answer));
  }
  const auto& found = std::get<fit::Estimate>(estimate);
  answer.design = design.get();
  answer.leaf = &found.leaf;
  answer.panel = &found.panel;
  answer.form = &found.form;
  answer.wanted = fit::wanted_outline(*design, *size);
  return told::reply(told::shape(answer));
}

std::shared_ptr<const fit::Followed> Engine::last_or_begun(const design::Design& design, const design::Size& size,
                                                           std::uint64_t revision,
                                                           std::optional<fit::Failure>& failure) {
  {
    const std::lock_guard lock(mutex_);
    if (auto last = known(size.name).last)
      return last;
  }
  auto begun = fit::begin(design, size, {{}, [&] { return ending_ || newest_ != revision; }});
  if (auto* found = std::get_if<fit::Failure>(&begun)) {
    failure = std::move(*found);
    return nullptr;
  }
  const auto last = std::make_shared<const fit::Followed>(std::get<fit::Followed>(std::move(begun)));
  const std::lock_guard lock(mutex_);
  Known& here = known(size.name);
  if (!here.last) {
    here.last = last;
    here.revision = revision;
  }
  return here.last;
}

Engine::Known& Engine::known(const std::string& size) {
  if (!known_.contains(size) && known_.size() >= most_known)
    known_.erase(std::ranges::min_element(known_, {}, [](const auto& entry) { return entry.second.used; }));
  Known& here = known_[size];
  here.used = ++uses_;
  return here;
}

Reply Engine::mesh(std::uint64_t revision, const std::string& size, double share, bool fine) {
  std::shared_ptr<const fit::Followed> followed;
  std::shared_ptr<const opened::Form> opening;
  const std::string name = std::to_string(share) + (fine ? " fine" : " coarse");
  {
    const std::lock_guard lock(mutex_);
    const auto here = known_.find(size);
    if (here == known_.end() || !here->second.last || here->second.revision != revision)
      return told::refusal(410, "There is no mesh of this revision any more; take the newest.");
    followed = here->second.last;
    const auto found = std::ranges::find_if(here->second.openings,
                                            [&](const auto& entry) { return std::abs(entry.first - share) < 1e-6; });
    if (share < 1 && found == here->second.openings.end())
      return told::refusal(404, "This opening has not been computed; take one of those that were told.");
    if (share < 1)
      opening = found->second;
    if (const auto made = here->second.meshes.find(name); made != here->second.meshes.end()) {
      Reply reply;
      reply.type = "application/octet-stream";
      reply.body = *made->second;
      return reply;
    }
  }
  auto bytes = panel_mesh(*followed, opening ? *opening : followed->form, fine);
  if (const auto* sentence = std::get_if<NoMesh>(&bytes))
    return told::refusal(409, sentence->sentence);
  Reply reply;
  reply.type = "application/octet-stream";
  reply.body = std::get<std::string>(std::move(bytes));
  const std::lock_guard lock(mutex_);
  if (const auto here = known_.find(size); here != known_.end() && here->second.last == followed)
    here->second.meshes[name] = std::make_shared<const std::string>(reply.body);
  return reply;
}

// ---- Behind --------------------------------------------------------------------------------------------------------

void Engine::work() {
  while (const auto task = next_task()) {
    Stage next = Stage::done;
    {
      const Solving::Place place(solving_);
      if (!stale(*task))
        next = perform(*task);
    }
    const std::lock_guard lock(mutex_);
    if (newest_ != task->revision)
      continue;
    const auto found = std::ranges::find(wanted_, task->size.name, &Wanted::size);
    if (found != wanted_.end())
      found->next = next;
  }
}

std::optional<Engine::Task> Engine::next_task() {
  std::unique_lock lock(mutex_);
  while (!ending_) {
    const auto first = std::ranges::min_element(wanted_, {}, &Wanted::next);
    if (first == wanted_.end() || first->next == Stage::done) {
      asked_.wait(lock);
      continue;
    }
    const auto ready = newest_came_ + pause_of_edits;
    if (first->next != Stage::settle && Clock::now() < ready) {
      asked_.wait_until(lock, ready);
      continue;
    }
    return Task{design_, *size_of(*design_, first->size), newest_, first->next, text_};
  }
  return std::nullopt;
}

Engine::Stage Engine::perform(const Task& task) {
  switch (task.stage) {
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
  case Stage::done:
    break;
  }
  return Stage::done;
}

Engine::Stage Engine::settle(const Task& task) {
  const auto settled = settled_now(task);
  if (stale(task))
    return Stage::done;
  if (const auto* found = std::get_if<fit::Failure>(&settled)) {
    told::Shape shape{task.revision, true, task.size.name, *found, nullptr, nullptr, nullptr, nullptr, {}, {}, {}};
    tell(task, "form", told::shape(shape));
    return found->fails_check ? Stage::checks : Stage::done;
  }
  tell_form(task, *std::get<std::shared_ptr<const fit::Followed>>(settled), nullptr);
  return Stage::spread;
}

/// The settled form of the task's size and revision; computed and kept where there is none yet.
Engine::Settled Engine::settled_now(const Task& task) {
  if (auto followed = settled_of(task))
    return followed;
  std::optional<fit::Failure> failure;
  const auto last = last_or_begun(*task.design, task.size, task.revision, failure);
  if (!last)
    return *failure;
  const fit::Options options{{}, [&] { return stale(task); }};
  auto settled = fit::settle(*task.design, task.size, *last, solvers_[task.size.name], options);
  // What cannot be reached from the last form may still be found from the start.
  if (std::holds_alternative<fit::Failure>(settled) && !stale(task))
    if (auto begun = fit::begin(*task.design, task.size, options); std::holds_alternative<fit::Followed>(begun))
      settled = fit::settle(*task.design, task.size, std::get<fit::Followed>(begun), solvers_[task.size.name], options);
  if (auto* found = std::get_if<fit::Failure>(&settled))
    return std::move(*found);
  auto followed = std::make_shared<const fit::Followed>(std::get<fit::Followed>(std::move(settled)));
  const std::lock_guard lock(mutex_);
  if (newest_ == task.revision) {
    Known& here = known(task.size.name);
    here = {followed, task.revision, nullptr, {}, {}, here.used};
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
    return Stage::checks;
  opened::Options options;
  options.cancelled = [&] { return stale(task); };
  const auto found = opened::spread(followed->panel, followed->form, options);
  if (const auto* spread = std::get_if<opened::Spread>(&found); spread != nullptr && !stale(task))
    tell_form(task, *followed, std::make_shared<const opened::Spread>(*spread));
  return Stage::openings;
}

Engine::Stage Engine::open_stepwise(const Task& task) {
  const auto followed = settled_of(task);
  if (!followed)
    return Stage::checks;
  opened::Solver solver;
  opened::Options options;
  options.cancelled = [&] { return stale(task); };
  options.mesh = false;
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
  return Stage::checks;
}

Engine::Stage Engine::check(const Task& task) {
  std::vector<fit::Finding> findings;
  if (const auto followed = settled_of(task)) {
    findings = fit::check(*task.design, task.size, followed->leaf, followed->form);
  } else {
    auto found = fit::check(*task.design, task.size, fit::Options{{}, [&] { return stale(task); }});
    if (auto* list = std::get_if<std::vector<fit::Finding>>(&found))
      findings = std::move(*list);
  }
  if (!stale(task))
    tell(task, "checks", told::checks(task.revision, task.size.name, findings, {}));
  return Stage::takes;
}

/// For all sizes of the design at once, whichever of them the page looks at.
Engine::Stage Engine::tell_takes(const Task& task) {
  if (takes_told_ == task.revision)
    return Stage::done;
  std::vector<Takes> all;
  for (const design::Size& size : task.design->sizes) {
    Task one = task;
    one.size = size;
    const auto settled = settled_now(one);
    if (stale(task))
      return Stage::done;
    if (const auto* failure = std::get_if<fit::Failure>(&settled))
      all.push_back(no_takes(size, failure->sentence));
    else
      all.push_back(takes(*task.design, *std::get<std::shared_ptr<const fit::Followed>>(settled)));
  }
  tell(task, "takes", told::takes(task.revision, all));
  takes_told_ = task.revision;
  return Stage::done;
}

void Engine::tell_form(const Task& task, const fit::Followed& followed, std::shared_ptr<const opened::Spread> spread) {
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

bool Engine::tell(const Task& task, const std::string& kind, const std::string& text) {
  const std::lock_guard lock(mutex_);
  if (newest_ != task.revision || ending_)
    return false;
  listeners_.tell(id_, {kind, kind + " " + task.size.name, task.revision, text});
  return true;
}

std::string Engine::mesh_address(const std::string& size, std::uint64_t revision, bool coarse) const {
  std::string name;
  for (const char c : size)
    name += c == ' ' ? std::string("%20") : std::string(1, c);
  return "/api/designs/" + id_ + "/mesh?revision=" + std::to_string(revision) + "&size=" + name +
         (coarse ? "&stage=begun" : "");
}

} // namespace fanwright::studio
