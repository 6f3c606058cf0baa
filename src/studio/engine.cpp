#include "studio/engine.h"

#include "studio/fan_mesh.h"
#include "studio/panel_mesh.h"
#include "studio/size_of.h"

#include <algorithm>
#include <utility>

namespace fanwright::studio {
namespace {

using Clock = std::chrono::steady_clock;

/// A drag asks every 16 ms; a form begun in between would only be cancelled, and slow down the page beside it.
constexpr auto pause_of_drag = std::chrono::milliseconds(25);
constexpr auto pause_of_edits = std::chrono::milliseconds(300); ///< before anything but the form is looked at
constexpr std::size_t most_known = 12; ///< sizes with a form at hand: as many as a file may list

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

void Engine::expect(const std::string& text) {
  {
    const std::lock_guard lock(mutex_);
    if (newest_ != 0 || !known_.empty())
      return;
    expected_ = text;
  }
  asked_.notify_all();
}

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
  const auto preview = preview_of(size->name);
  auto estimate = fit::estimate(*design, *size, *last, preview ? &*preview : nullptr);
  if (const auto* failure = std::get_if<fit::Failure>(&estimate)) {
    answer.problem = *failure;
    return told::reply(told::shape(answer));
  }
  auto& [leaf, panel, form, previewed] = std::get<fit::Estimate>(estimate);
  const auto found = std::make_shared<const fit::Followed>(
      fit::Followed{*size, std::move(leaf), std::move(panel), std::move(form), true});
  answer.design = design.get();
  answer.leaf = &found->leaf;
  answer.panel = &found->panel;
  answer.form = &found->form;
  answer.wanted = fit::wanted_outline(*design, *size);
  if (previewed) {
    answer.mesh = mesh_address(size->name, asked.revision, true);
    const std::lock_guard lock(mutex_);
    known(size->name).shown = Shown{found, *preview, asked.revision};
  }
  return told::reply(told::shape(answer));
}

std::optional<opened::Preview> Engine::preview_of(const std::string& size) {
  const std::lock_guard lock(mutex_);
  return known(size).preview;
}

std::shared_ptr<const fit::Followed> Engine::last_or_begun(const design::Design& design, const design::Size& size,
                                                           std::uint64_t revision,
                                                           std::optional<fit::Failure>& failure) {
  {
    const std::lock_guard lock(mutex_);
    if (auto last = known(size.name).last)
      return last;
  }
  // Whoever comes while it is begun for another waits, rather than begin it twice.
  const std::lock_guard begins(beginning_);
  {
    const std::lock_guard lock(mutex_);
    if (auto last = known(size.name).last)
      return last;
  }
  const bool expected = revision == 0;
  auto begun = fit::begin(design, size, {{}, [&] { return ending_ || (!expected && newest_ != revision); }});
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

namespace {

Reply mesh_reply(std::string bytes) {
  Reply reply;
  reply.type = "application/octet-stream";
  reply.body = std::move(bytes);
  return reply;
}

Reply mesh_reply(std::variant<std::string, NoMesh> mesh) {
  if (const auto* none = std::get_if<NoMesh>(&mesh))
    return told::refusal(409, none->sentence);
  return mesh_reply(std::get<std::string>(std::move(mesh)));
}

} // namespace

Reply Engine::mesh(std::uint64_t revision, const std::string& asked, double share, bool fine, bool shown) {
  if (shown && share >= 1)
    if (const auto estimate = shown_for(revision, asked))
      return mesh_reply(panel_mesh(*estimate, estimate->form, fine));
  auto opened = opened_for(revision, asked);
  if (auto* reply = std::get_if<Reply>(&opened))
    return std::move(*reply);
  return mesh_of(std::get<std::shared_ptr<const fit::Followed>>(opened), share, fine);
}

/// The estimate told for a revision, with its mesh; nothing where a newer one was told since, or its form has settled.
std::shared_ptr<const fit::Followed> Engine::shown_for(std::uint64_t revision, const std::string& size) {
  std::optional<Shown> shown;
  {
    const std::lock_guard lock(mutex_);
    const auto here = known_.find(size);
    if (here == known_.end() || here->second.revision == revision)
      return nullptr;
    shown = here->second.shown;
  }
  if (!shown || shown->revision != revision)
    return nullptr;
  fit::Followed meshed = *shown->followed;
  shown->preview.make_mesh(meshed.form);
  return std::make_shared<const fit::Followed>(std::move(meshed));
}

Reply Engine::fans(std::uint64_t revision, const std::string& asked) {
  std::shared_ptr<const design::Design> design;
  {
    const std::lock_guard lock(mutex_);
    if (newest_ != revision || !design_)
      return told::refusal(410, "A newer change has come; take the newest revision.");
    design = design_;
  }
  auto opened = opened_for(revision, asked);
  if (auto* reply = std::get_if<Reply>(&opened))
    return std::move(*reply);
  const auto followed = std::get<std::shared_ptr<const fit::Followed>>(std::move(opened));
  const Solving::Place place(solving_);
  return mesh_reply(fan_mesh(*design, followed->size, followed->form));
}

/// The form of a size as of a revision: the settled one, or opened now.
std::variant<std::shared_ptr<const fit::Followed>, Reply> Engine::opened_for(std::uint64_t revision,
                                                                             const std::string& asked) {
  std::string size = asked;
  {
    const std::lock_guard lock(mutex_);
    if (size.empty() && design_ && !design_->sizes.empty())
      size = design_->sizes.front().name;
    const auto here = known_.find(size);
    if (here != known_.end() && here->second.revision == revision && here->second.last)
      return here->second.last;
  }
  return opened_beside(revision, size);
}

/// A size that the newest revision has not been asked for yet, opened for a look at it beside the others.
std::variant<std::shared_ptr<const fit::Followed>, Reply> Engine::opened_beside(std::uint64_t revision,
                                                                                const std::string& name) {
  Task task;
  {
    const std::lock_guard lock(mutex_);
    const design::Size* size = newest_ == revision && design_ ? size_of(*design_, name) : nullptr;
    if (size == nullptr || size->name != name)
      return told::refusal(410, "There is no mesh of this revision and size any more; take the newest.");
    task = {design_, *size, revision, Stage::settle, text_};
  }
  const Solving::Place place(solving_);
  opened::Solver solver;
  auto settled = settled_now(task, solver);
  if (stale(task))
    return told::refusal(410, "A newer change has come; take the newest revision.");
  if (const auto* failure = std::get_if<fit::Failure>(&settled))
    return told::refusal(409, failure->sentence, failure->where);
  return std::get<std::shared_ptr<const fit::Followed>>(std::move(settled));
}

Reply Engine::mesh_of(const std::shared_ptr<const fit::Followed>& followed, double share, bool fine) {
  std::shared_ptr<const opened::Form> opening;
  const std::string name = std::to_string(share) + (fine ? " fine" : " coarse");
  {
    const std::lock_guard lock(mutex_);
    const Known& here = known_[followed->size.name];
    const auto found =
        std::ranges::find_if(here.openings, [&](const auto& entry) { return std::abs(entry.first - share) < 1e-6; });
    if (share < 1 && (here.last != followed || found == here.openings.end()))
      return told::refusal(404, "This opening has not been computed; take one of those that were told.");
    if (share < 1)
      opening = found->second;
    if (const auto made = here.meshes.find(name); here.last == followed && made != here.meshes.end())
      return mesh_reply(*made->second);
  }
  auto bytes = panel_mesh(*followed, opening ? *opening : followed->form, fine);
  if (const auto* none = std::get_if<NoMesh>(&bytes))
    return told::refusal(409, none->sentence);
  auto made = std::make_shared<const std::string>(std::get<std::string>(std::move(bytes)));
  const std::lock_guard lock(mutex_);
  if (Known& here = known_[followed->size.name]; here.last == followed)
    here.meshes[name] = made;
  return mesh_reply(*made);
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
    if (const std::string text = std::exchange(expected_, {}); !text.empty() && newest_ == 0) {
      if (auto task = expected_task(text))
        return task;
    }
    const auto first = std::ranges::min_element(wanted_, {}, &Wanted::next);
    if (first == wanted_.end() || first->next == Stage::done) {
      asked_.wait(lock);
      continue;
    }
    const auto ready = newest_came_ + (first->next == Stage::settle ? pause_of_drag : pause_of_edits);
    if (Clock::now() < ready) {
      asked_.wait_until(lock, ready);
      continue;
    }
    return Task{design_, *size_of(*design_, first->size), newest_, first->next, text_};
  }
  return std::nullopt;
}

std::optional<Engine::Task> Engine::expected_task(const std::string& text) {
  auto parsed = design::parse(text);
  if (std::holds_alternative<design::Refusal>(parsed))
    return std::nullopt;
  const auto design = std::make_shared<const design::Design>(std::get<design::Design>(std::move(parsed)));
  return Task{design, design->sizes.front(), 0, Stage::begin, text};
}

bool Engine::tell(const Task& task, const std::string& kind, const std::string& text) {
  const std::lock_guard lock(mutex_);
  if (newest_ != task.revision || ending_)
    return false;
  listeners_.tell(id_, {kind, kind + " " + task.size.name, task.revision, text});
  return true;
}

std::string Engine::mesh_address(const std::string& size, std::uint64_t revision, bool shown) const {
  std::string name;
  for (const char c : size)
    name += c == ' ' ? std::string("%20") : std::string(1, c);
  return "/api/designs/" + id_ + "/mesh?revision=" + std::to_string(revision) + "&size=" + name +
         (shown ? "&stage=estimate" : "");
}

} // namespace fanwright::studio
