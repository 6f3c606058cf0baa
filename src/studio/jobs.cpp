#include "studio/jobs.h"

#include "fit/leaf_of.h"
#include "kit/booklet_files.h"
#include "kit/kit.h"
#include "kit/staging.h"
#include "opened/opened.h"
#include "picture/mesh_files.h"
#include "picture/package.h"
#include "picture/picture.h"
#include "picture/seated_paper.h"
#include "studio/changed_text.h"
#include "studio/guard.h"
#include "studio/size_of.h"
#include "studio/told.h"
#include "studio/whole_file.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>

namespace fanwright::studio {
namespace {

namespace fs = std::filesystem;

constexpr const char* stopped = "Stopped as you asked; nothing was made.";

std::optional<std::string> bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  return stream.good() || stream.eof() ? std::optional(std::move(bytes)) : std::nullopt;
}

/// What the maker keeps to herself, as one archive.
std::string own_files_zipped(const fs::path& kit) {
  std::vector<picture::PackagePart> parts;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(kit / kit::own_folder, error))
    if (auto bytes = bytes_of(entry.path()))
      parts.push_back({std::string(kit::own_folder) + "/" + entry.path().filename().string(), *std::move(bytes)});
  std::ranges::sort(parts, {}, &picture::PackagePart::name);
  return picture::package(parts);
}

/// Leaf, form and seated fans of one size, solved from the start as for everything that is kept.
struct Solved {
  opened::Panel panel;
  opened::Form form;
  std::vector<picture::FanPaper> fans;
};

std::variant<Solved, std::string> solved(const design::Design& design, const design::Size& size,
                                         const std::function<void(double)>& progress,
                                         const std::function<bool()>& cancelled) {
  auto leaf = fit::leaf_of(design, size, {[&](double share) { progress(0.6 * share); }, cancelled});
  if (const auto* failure = std::get_if<fit::Failure>(&leaf))
    return cancelled() ? stopped : failure->sentence;
  opened::Options options;
  options.progress = [&](double share) { progress(0.6 + 0.4 * share); };
  options.cancelled = cancelled;
  Solved solved{opened::panel_of(std::get<leaf::Leaf>(leaf), size), {}, {}};
  auto form = opened::open(solved.panel, options);
  if (const auto* failure = std::get_if<opened::Failure>(&form))
    return cancelled() ? stopped : failure->sentence;
  solved.form = std::get<opened::Form>(std::move(form));
  auto fans = picture::seated_paper(design, size, solved.form);
  if (auto* refusal = std::get_if<design::Refusal>(&fans))
    return std::move(refusal->sentence);
  solved.fans = std::get<std::vector<picture::FanPaper>>(std::move(fans));
  return solved;
}

std::string plain(const std::string& title) { return kit::folder_name(title); }

/// The design and size that a job is about, or a refusal.
struct Subject {
  std::shared_ptr<const design::Design> design;
  const design::Size* size = nullptr;
};
std::variant<Subject, Reply> subject(const std::string& text, const std::string& size) {
  auto parsed = design::parse(text);
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed))
    return told::refusal(400, refusal->sentence, refusal->where);
  Subject found{std::make_shared<const design::Design>(std::get<design::Design>(std::move(parsed))), nullptr};
  found.size = size_of(*found.design, size);
  if (found.size == nullptr)
    return told::refusal(400, "There is no size of this name in the design.", "/sizes");
  return found;
}

std::optional<picture::Style> style_of(const asked::Picture& asked, const design::Design& design) {
  const std::map<std::string, picture::View> views = {{"three-quarter", picture::View::three_quarter},
                                                      {"front", picture::View::front},
                                                      {"top", picture::View::top},
                                                      {"close-up", picture::View::close_up}};
  const std::map<std::string, picture::Background> backgrounds = {{"table", picture::Background::table},
                                                                  {"wall", picture::Background::wall},
                                                                  {"plain", picture::Background::plain},
                                                                  {"transparent", picture::Background::transparent}};
  const bool known_quality = asked.quality == "preview" || asked.quality == "final";
  if (!views.contains(asked.view) || !backgrounds.contains(asked.background) || !known_quality)
    return std::nullopt;
  picture::Style style;
  picture::look_from(views.at(asked.view), style);
  style.background = backgrounds.at(asked.background);
  style.draft = asked.quality == "preview";
  style.samples = style.draft ? 4 : 25;
  style.width_px = style.height_px = asked.pixels > 0 ? asked.pixels : style.draft ? 480 : 1200;
  style.colour = asked.paper.empty() ? design.colour : asked.paper;
  return style;
}

using WriteMesh = std::string (*)(const picture::Body&);

WriteMesh mesh_writer(const std::string& kind) {
  const std::map<std::string, WriteMesh> writers = {
      {"glb", picture::gltf}, {"stl", picture::stl}, {"obj", picture::obj}, {"3mf", picture::three_mf}};
  const auto found = writers.find(kind);
  return found == writers.end() ? nullptr : found->second;
}

} // namespace

Jobs::Jobs(Listeners& listeners) : listeners_(listeners) {
  std::error_code error;
  if (const fs::path place = fs::temp_directory_path(error); !error)
    WorkFolder::clear_abandoned(place);
}

Jobs::~Jobs() {
  for (auto& [id, job] : jobs_)
    job->cancelled = true;
  for (auto& [id, job] : jobs_)
    if (job->thread.joinable())
      job->thread.join();
}

void Jobs::tell(const Job& job, double share, std::string_view doing, const std::optional<std::string>& sentence) {
  listeners_.tell(job.design, {"job", "job " + job.id, 0,
                               told::job({job.id, job.kind, share, std::string(doing), job.done, sentence})});
}

/// Removes finished jobs beyond those that are kept. The mutex is held.
void Jobs::forget_oldest() {
  for (auto id = order_.begin(); id != order_.end() && order_.size() >= most_kept;) {
    const auto job = jobs_.at(*id);
    if (!job->done) {
      ++id;
      continue;
    }
    job->thread.join();
    std::error_code error;
    fs::remove_all(job->folder, error);
    jobs_.erase(*id);
    id = order_.erase(id);
  }
}

Reply Jobs::start(const std::string& kind, const std::string& design, const std::string& title, Work work) {
  const std::lock_guard lock(mutex_);
  if (std::ranges::count_if(jobs_, [](const auto& entry) { return !entry.second->done; }) >= most_at_once)
    return told::refusal(409, "Four things are being made already; wait for one, or cancel one.");
  forget_oldest();
  std::error_code error;
  if (!folder_)
    if (auto made = WorkFolder::make(fs::temp_directory_path(error)))
      folder_.emplace(*std::move(made));
  if (!folder_)
    return told::refusal(409, "There is no room for temporary files on this machine; make some.");
  const auto job = std::make_shared<Job>();
  job->id = new_secret().substr(0, 12);
  job->kind = kind;
  job->design = design;
  job->title = title;
  job->folder = folder_->path() / job->id;
  fs::create_directory(job->folder, error);
  if (error)
    return told::refusal(409, "There is no room for temporary files on this machine; make some.");
  jobs_[job->id] = job;
  order_.push_back(job->id);
  job->thread = std::thread([this, job, work = std::move(work)] {
    std::optional<std::string> sentence;
    try {
      sentence = work(*job);
    } catch (const std::exception&) {
      sentence = "There is not enough memory or disk for this; make it smaller.";
    }
    job->done = true;
    tell(*job, 1, "", sentence);
  });
  return told::reply(told::job_begun(job->id));
}

Reply Jobs::kit(const std::string& design, const asked::Kit& asked) {
  const auto chosen = for_kit(asked.text, asked.sizes, asked.grammages);
  if (const auto* refusal = std::get_if<design::Refusal>(&chosen))
    return told::refusal(400, refusal->sentence, refusal->where);
  const auto& text = std::get<std::string>(chosen);
  auto found = subject(text, "");
  if (auto* reply = std::get_if<Reply>(&found))
    return std::move(*reply);
  const auto whole = std::get<Subject>(found).design;
  return start("kit", design, plain(whole->title) + "-kit",
               [this, whole, text, lap_mm = asked.lap_mm](Job& job) -> std::optional<std::string> {
                 kit::Options options;
                 options.progress = [&](double share, std::string_view doing) { tell(job, share, doing, {}); };
                 options.cancelled = [&] { return job.cancelled.load(); };
                 options.lap_mm = lap_mm;
                 options.design_text = text;
                 const fs::path out = job.folder / "kit";
                 if (const auto problem = kit::write(*whole, out, options))
                   return job.cancelled ? stopped : problem->sentence;
                 for (const auto& entry : fs::directory_iterator(out))
                   if (entry.path().extension() == ".zip")
                     fs::rename(entry.path(), job.folder / "kit.zip");
                 return write_whole((job.folder / "for-you-only.zip").string(), own_files_zipped(out));
               });
}

Reply Jobs::picture(const std::string& design, const asked::Picture& asked) {
  auto found = subject(asked.text, asked.size);
  if (auto* reply = std::get_if<Reply>(&found))
    return std::move(*reply);
  const Subject about = std::get<Subject>(std::move(found));
  const auto style = style_of(asked, *about.design);
  if (!style)
    return told::refusal(400,
                         "Choose the view three-quarter, front, top or close-up, the background table, wall, plain "
                         "or transparent, and the quality preview or final.");
  return start(
      "picture", design, plain(about.design->title + " " + about.size->name),
      [this, about, style = *style](Job& job) mutable -> std::optional<std::string> {
        const auto cancelled = [&] { return job.cancelled.load(); };
        constexpr double solved_share = 0.4;
        auto form = solved(
            *about.design, *about.size, [&](double share) { tell(job, solved_share * share, "opened form", {}); },
            cancelled);
        if (auto* sentence = std::get_if<std::string>(&form))
          return std::move(*sentence);
        style.progress = [&](double share) { tell(job, solved_share + (1 - solved_share) * share, "light", {}); };
        style.cancelled = cancelled;
        const auto& [panel, opened, fans] = std::get<Solved>(form);
        const picture::Piece piece{&opened, about.size->leaves, about.size->paper.caliper_mm, panel.cut_outs, fans};
        const auto pixels = picture::render(std::vector<picture::Piece>{piece}, style);
        if (const auto* sentence = std::get_if<std::string>(&pixels))
          return job.cancelled ? stopped : *sentence;
        return picture::write_png(std::get<picture::Pixels>(pixels), job.folder / "picture.png");
      });
}

Reply Jobs::mesh_file(const std::string& design, const asked::MeshFile& asked) {
  auto found = subject(asked.text, asked.size);
  if (auto* reply = std::get_if<Reply>(&found))
    return std::move(*reply);
  const WriteMesh writer = mesh_writer(asked.kind);
  if (writer == nullptr)
    return told::refusal(400, "A mesh file is one of glb, stl, obj and 3mf.");
  const Subject about = std::get<Subject>(std::move(found));
  return start("mesh-file", design, plain(about.design->title + " " + about.size->name),
               [this, about, writer, kind = asked.kind](Job& job) -> std::optional<std::string> {
                 auto form = solved(
                     *about.design, *about.size, [&](double share) { tell(job, 0.8 * share, "opened form", {}); },
                     [&] { return job.cancelled.load(); });
                 if (auto* sentence = std::get_if<std::string>(&form))
                   return std::move(*sentence);
                 const auto& [panel, opened, fans] = std::get<Solved>(form);
                 const auto body = picture::body_of(panel, opened, about.design->title, about.design->colour,
                                                    picture::most_mesh_triangles, fans);
                 if (const auto* sentence = std::get_if<std::string>(&body))
                   return *sentence;
                 return write_whole((job.folder / ("mesh." + kind)).string(), writer(std::get<picture::Body>(body)));
               });
}

Reply Jobs::cancel(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = jobs_.find(id);
  if (found == jobs_.end())
    return told::refusal(404, "There is no such work any more.");
  found->second->cancelled = true;
  return told::reply("{}");
}

Reply Jobs::file(const std::string& id, const std::string& name) {
  const std::map<std::string, std::string> types = {
      {"kit.zip", "application/zip"}, {"for-you-only.zip", "application/zip"},
      {"picture.png", "image/png"},   {"mesh.glb", "model/gltf-binary"},
      {"mesh.stl", "model/stl"},      {"mesh.obj", "model/obj"},
      {"mesh.3mf", "model/3mf"}};
  std::shared_ptr<Job> job;
  {
    const std::lock_guard lock(mutex_);
    const auto found = jobs_.find(id);
    job = found == jobs_.end() ? nullptr : found->second;
  }
  const auto type = types.find(name);
  if (!job || type == types.end())
    return told::refusal(404, "There is no such file any more; make it again.");
  if (!job->done)
    return told::refusal(409, "This is still being made.");
  std::error_code error;
  auto bytes = fs::is_regular_file(job->folder / name, error) ? bytes_of(job->folder / name) : std::nullopt;
  if (!bytes)
    return told::refusal(404, "There is no such file any more; make it again.");
  Reply reply;
  reply.type = type->second;
  reply.body = *std::move(bytes);
  const std::string ending = fs::path(name).extension().string();
  const std::string own = name == "for-you-only.zip" ? "-for-you-only" : "";
  reply.headers.emplace("Content-Disposition", "attachment; filename=\"" + ascii(job->title) + own + ending + "\"");
  return reply;
}

} // namespace fanwright::studio
