#include "studio/open_designs.h"

#include "studio/guard.h"

#include <algorithm>
#include <cctype>

namespace fanwright::studio {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t id_digits = 8;
constexpr std::string_view unsaved_beginning = ".unsaved-", journal_ending = ".journal";

/// The id in the name of an unsaved design's journal.
std::optional<std::string> unsaved_id(const std::string& file) {
  if (file.size() != unsaved_beginning.size() + id_digits + journal_ending.size() ||
      !file.starts_with(unsaved_beginning) || !file.ends_with(journal_ending))
    return std::nullopt;
  std::string id = file.substr(unsaved_beginning.size(), id_digits);
  const auto digit = [](unsigned char c) { return std::isxdigit(c) != 0; };
  return std::ranges::all_of(id, digit) ? std::optional(std::move(id)) : std::nullopt;
}

Reply no_such_design() { return told::refusal(404, "This design is not open any more; open it again."); }

} // namespace

OpenDesigns::OpenDesigns(fs::path folder, Listeners& listeners) : folder_(std::move(folder)), listeners_(listeners) {
  take_up_unsaved();
}

fs::path OpenDesigns::journal_of(const std::optional<std::string>& name, const std::string& id) const {
  const std::string file = name ? "." + *name + std::string(journal_ending)
                                : std::string(unsaved_beginning) + id + std::string(journal_ending);
  return folder_.path() / file;
}

void OpenDesigns::take_up_unsaved() {
  std::error_code error;
  for (fs::directory_iterator entry(folder_.path(), error), end; !error && entry != end && open_.size() < most;
       entry.increment(error))
    if (const auto id = unsaved_id(entry->path().filename().string()); id && Journal::read(entry->path())) {
      const auto design = std::make_shared<Open>();
      design->id = *id;
      // A starter that was opened, and nothing done to it, is nobody's work.
      if (begin(design, "", "", true).status == 200 && !design->journal->recorded().unsaved)
        let_go(design);
    }
}

// ---- The list ------------------------------------------------------------------------------------------------------

OpenDesigns::Shared OpenDesigns::find(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = open_.find(id);
  if (found == open_.end())
    return nullptr;
  found->second->used = ++uses_;
  return found->second;
}

std::vector<OpenDesigns::Shared> OpenDesigns::all() {
  const std::lock_guard lock(mutex_);
  std::vector<Shared> designs;
  for (const auto& [id, design] : open_)
    designs.push_back(design);
  return designs;
}

bool OpenDesigns::is_open(const std::string& name, const Open& but) {
  return std::ranges::any_of(all(), [&](const Shared& other) {
    if (other.get() == &but)
      return false;
    const std::lock_guard lock(other->mutex);
    return other->name == name;
  });
}

/// Lets the design go that was used longest ago, is saved and has no page looking at it.
std::optional<Reply> OpenDesigns::make_room() {
  std::vector<Shared> designs = all();
  if (designs.size() < most)
    return std::nullopt;
  std::ranges::sort(designs, {}, &Open::used);
  for (const Shared& design : designs) {
    const bool idle = listeners_.count(design->id) == 0;
    bool unsaved = true;
    {
      const std::lock_guard lock(design->mutex);
      unsaved = !design->journal || design->journal->recorded().unsaved || !design->name;
    }
    if (idle && !unsaved) {
      let_go(design);
      return std::nullopt;
    }
  }
  return told::refusal(409, "24 designs are open, all in use or not saved; close one first.");
}

void OpenDesigns::let_go(const Shared& design) {
  {
    const std::lock_guard lock(mutex_);
    open_.erase(design->id);
  }
  design->engine->end();
  const std::lock_guard lock(design->mutex);
  if (design->journal && !design->journal->recorded().unsaved)
    design->journal->remove();
  design->journal.reset();
}

// ---- Opening -------------------------------------------------------------------------------------------------------

/// Takes the design's journal and puts it on the bench. `text` is what it begins from where there is no journal yet.
Reply OpenDesigns::begin(const Shared& design, const std::string& text, const std::string& fingerprint, bool unsaved) {
  auto journal = Journal::open(journal_of(design->name, design->id), text, fingerprint, unsaved);
  if (const auto* sentence = std::get_if<std::string>(&journal))
    return told::refusal(409, *sentence);
  design->journal = std::get<Journal>(std::move(journal));
  const Recorded& recorded = design->journal->recorded();
  if (design->name && recorded.fingerprint != fingerprint) {
    // The file has changed since: gestures that were not saved go with the old text, and the page tells of both.
    if (!recorded.unsaved)
      if (auto trouble = design->journal->restart(text, fingerprint, false))
        return told::refusal(409, *trouble);
  }
  if (design->name)
    design->seen = folder_.stamp(*design->name);
  design->engine = std::make_shared<Engine>(design->id, listeners_, solving_);
  const std::lock_guard lock(mutex_);
  design->used = ++uses_;
  open_[design->id] = design;
  return told_of(*design);
}

Reply OpenDesigns::open_file(const std::string& name) {
  const auto text = folder_.read(name);
  if (const auto* trouble = std::get_if<Trouble>(&text))
    return told::refusal(trouble->status, trouble->sentence);
  for (const Shared& other : all()) {
    const std::lock_guard lock(other->mutex);
    if (other->name == name)
      return told_of(*other);
  }
  if (auto full = make_room())
    return *full;
  const auto design = std::make_shared<Open>();
  design->id = new_secret().substr(0, id_digits);
  design->name = name;
  const auto& found = std::get<std::string>(text);
  return begin_to_show(design, found, fingerprint(found), false);
}

Reply OpenDesigns::open_text(const std::string& text, bool unsaved) {
  if (auto full = make_room())
    return *full;
  const auto design = std::make_shared<Open>();
  design->id = new_secret().substr(0, id_digits);
  return begin_to_show(design, text, "", unsaved);
}

/// Begins it for a page that asks for its form at once.
Reply OpenDesigns::begin_to_show(const Shared& design, const std::string& text, const std::string& fingerprint,
                                 bool unsaved) {
  Reply reply = begin(design, text, fingerprint, unsaved);
  const std::lock_guard lock(design->mutex);
  if (reply.status == 200 && design->journal)
    design->engine->expect(design->journal->recorded().base);
  return reply;
}

// ---- One design ----------------------------------------------------------------------------------------------------

Reply OpenDesigns::told_of(const Open& design) const {
  const Recorded& recorded = design.journal->recorded();
  told::Design told{design.id, design.name, recorded.base, {}, {recorded.first}, design.engine->revision(), {}};
  told.lines.insert(told.lines.end(), recorded.lines.begin(), recorded.lines.end());
  if (!design.name)
    return told::reply(told::design(told));
  const auto there = folder_.read(*design.name);
  if (const auto* text = std::get_if<std::string>(&there)) {
    told.fingerprint = fingerprint(*text);
    if (told.fingerprint != recorded.fingerprint)
      told.disk = *text;
  }
  return told::reply(told::design(told));
}

Reply OpenDesigns::tell(const std::string& id) {
  const Shared design = find(id);
  if (!design)
    return no_such_design();
  const std::lock_guard lock(design->mutex);
  if (!design->journal)
    return no_such_design();
  design->engine->expect(design->journal->recorded().base);
  return told_of(*design);
}

Reply OpenDesigns::append(const std::string& id, const asked::Journal& asked) {
  const Shared design = find(id);
  if (!design)
    return no_such_design();
  const std::lock_guard lock(design->mutex);
  if (!design->journal)
    return no_such_design();
  const auto trouble = asked.restart ? design->journal->restart(*asked.restart, design->journal->recorded().fingerprint,
                                                                true, asked.number)
                                     : design->journal->append(asked.lines);
  return trouble ? told::refusal(413, *trouble) : told::reply("{}");
}

/// Writes the file and notes in the journal that this was saved. The design's mutex is held.
Reply OpenDesigns::write_file(Open& design, const std::string& name, const std::string& text) {
  if (text.size() > 1'048'576 || !asked::is_json(text))
    return told::refusal(400, "A design file is JSON text of at most 1 MiB.");
  if (auto trouble = folder_.write(name, text))
    return told::refusal(409, *trouble);
  const std::string print = fingerprint(text);
  design.seen = folder_.stamp(name);
  if (auto trouble = design.journal->saved(print))
    if (auto still = design.journal->restart(text, print, false)) // full: the file itself holds the state
      return told::refusal(409, *still);
  return told::reply(told::saved(print));
}

Reply OpenDesigns::save(const std::string& id, const asked::Save& asked) {
  const Shared design = find(id);
  if (!design)
    return no_such_design();
  const std::lock_guard lock(design->mutex);
  if (!design->journal)
    return no_such_design();
  if (!design->name)
    return told::refusal(409, "This design has no name yet; save it as a copy with a name.");
  const auto there = folder_.read(*design->name);
  if (const auto* text = std::get_if<std::string>(&there); text != nullptr && !asked.even_if_changed)
    if (const std::string print = fingerprint(*text); print != asked.fingerprint)
      return told::changed_on_disk(*text, print);
  return write_file(*design, *design->name, asked.text);
}

Reply OpenDesigns::copy(const std::string& id, const asked::Copy& asked) {
  const Shared design = find(id);
  if (!design)
    return no_such_design();
  if (const auto fault = fault_of_name(asked.name))
    return told::refusal(400, *fault);
  if (is_open(asked.name, *design))
    return told::refusal(409, "The design of this name is open as well; choose another name, or close it first.");
  const std::lock_guard lock(design->mutex);
  if (!design->journal)
    return no_such_design();
  if (design->name != asked.name && folder_.has(asked.name) && !asked.replace)
    return told::refusal(409, "There is a file of this name already; choose another name, or replace it.");
  if (!asked::is_json(asked.text))
    return told::refusal(400, "A design file is JSON text of at most 1 MiB.");
  const fs::path journal = journal_of(asked.name, design->id);
  if (const auto other = Journal::read(journal); design->name != asked.name && other && other->unsaved)
    return told::refusal(409, "The file of this name has changes that were not saved; open it first, or choose another "
                              "name.");
  if (design->name != asked.name)
    if (auto trouble = design->journal->rename(journal))
      return told::refusal(409, *trouble);
  design->name = asked.name;
  const Reply written = write_file(*design, asked.name, asked.text);
  return written.status == 200 ? told_of(*design) : written;
}

Reply OpenDesigns::close(const std::string& id) {
  const Shared design = find(id);
  if (!design)
    return no_such_design();
  let_go(design);
  return told::reply("{}");
}

std::shared_ptr<Engine> OpenDesigns::engine(const std::string& id) {
  const Shared design = find(id);
  return design ? design->engine : nullptr;
}

std::vector<told::OpenDesign> OpenDesigns::list() {
  std::vector<told::OpenDesign> designs;
  for (const Shared& design : all()) {
    const std::lock_guard lock(design->mutex);
    if (!design->journal)
      continue;
    const Recorded& recorded = design->journal->recorded();
    designs.push_back({design->id, design->name, asked::title_in(recorded.base), recorded.unsaved});
  }
  return designs;
}

// ---- The disk ------------------------------------------------------------------------------------------------------

void OpenDesigns::look_at_disk() {
  for (const Shared& design : all()) {
    const std::lock_guard lock(design->mutex);
    if (!design->name || !design->journal)
      continue;
    const Stamp stamp = folder_.stamp(*design->name);
    if (stamp == design->seen)
      continue;
    design->seen = stamp;
    const auto there = folder_.read(*design->name);
    const auto* text = std::get_if<std::string>(&there);
    if (text == nullptr)
      continue;
    const std::string print = fingerprint(*text);
    if (print != design->journal->recorded().fingerprint)
      listeners_.tell(design->id, {"disk", "disk", 0, told::disk(*text, print)});
  }
}

void OpenDesigns::end() {
  for (const Shared& design : all())
    design->engine->end();
  for (const Shared& design : all())
    let_go(design);
}

} // namespace fanwright::studio
