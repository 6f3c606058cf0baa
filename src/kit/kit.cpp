#include "kit/kit.h"

#include "kit/booklet_files.h"
#include "kit/maker_notes.h"
#include "kit/numbers.h"
#include "kit/shared_design.h"
#include "kit/size_files.h"
#include "kit/staging.h"
#include "picture/picture.h"
#include "picture/seated_paper.h"

#include <algorithm>
#include <cassert>
#include <set>

namespace fanwright::kit {

namespace {

// Shares of the whole work, measured on the examples: flat leaves derived from an opened outline, pictures, booklets.
// The opened forms and their drawings are the rest.
constexpr double fitted_share = 0.2, pictures_share = 0.6, booklets_share = 0.05;

double planned_share(const design::Design& design) {
  return design.shows == design::Shows::opened ? fitted_share : 0.0;
}

Problem not_written(const std::string& where, const std::string& sentence) { return {Cause::folder, where, sentence}; }

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

std::string plain_title(const design::Design& design) { return folder_name(lower(design.title)); }

std::string zip_name(const design::Design& design) { return plain_title(design) + "-kit.zip"; }

std::string design_name(const design::Design& design) { return plain_title(design) + ".ornament.json"; }

/// Folder names of all sizes, unique also where upper and lower case are one.
std::vector<std::string> folders_of(const design::Design& design) {
  std::set<std::string> taken = {numbers_file, "readme.txt", lower(zip_name(design)), lower(design_name(design)),
                                 own_folder};
  std::vector<std::string> folders;
  for (const design::Size& size : design.sizes) {
    const std::string plain = folder_name(size.name);
    std::string folder = plain;
    for (int i = 2; !taken.insert(lower(folder)).second; ++i)
      folder = plain + "-" + std::to_string(i);
    folders.push_back(folder);
  }
  return folders;
}

/// Reports and asks on behalf of one size, whose work is a slice of the whole.
struct Watch {
  const Options& options;
  double from = 0, share = 1;

  void tell(double done, const std::string& what) const {
    if (options.progress)
      options.progress(from + share * done, what);
  }
  bool stop() const { return options.cancelled && options.cancelled(); }
};

/// The part's picture, `size_px` wide and high.
std::variant<picture::Pixels, Problem> lit(const design::Design& design, const Part& part, int size_px,
                                           const Watch& watch, const std::string& what) {
  picture::Style style;
  style.width_px = style.height_px = size_px;
  style.samples = watch.options.picture_samples;
  style.colour = design.colour;
  style.progress = [&](double done) { watch.tell(done, what); };
  style.cancelled = [&] { return watch.stop(); };
  auto fans = picture::paper_of(part.fans, part.seats);
  if (const auto* refusal = std::get_if<design::Refusal>(&fans))
    return Problem{Cause::form, refusal->where, refusal->sentence};
  const picture::Piece piece{&part.form, part.size->leaves, part.size->paper.caliper_mm,
                             opened::panel_of(part.leaf, *part.size).cut_outs,
                             std::get<std::vector<picture::FanPaper>>(std::move(fans))};
  auto pixels = picture::render(std::vector<picture::Piece>{piece}, style);
  if (watch.stop())
    return stopped();
  if (const auto* trouble = std::get_if<std::string>(&pixels))
    return not_written(part.folder + "/opened.png", *trouble);
  return std::get<picture::Pixels>(std::move(pixels));
}

std::optional<Problem> write_drawings(const design::Design& design, const DrawnPart& drawn, Staging& staging) {
  const auto files = size_files(design, drawn);
  if (const auto* problem = std::get_if<Problem>(&files))
    return *problem;
  for (const File& file : std::get<std::vector<File>>(files))
    if (auto problem = staging.write(file))
      return problem;
  return std::nullopt;
}

/// Solves and draws one planned size, and writes what is drawn of it.
std::optional<Problem> write_size(const design::Design& design, DrawnPart& drawn, Staging& staging,
                                  const Watch& watch) {
  const std::string what = drawn.part.size->name + ": opened form";
  watch.tell(0, what);
  const auto solving = [&](double done) { watch.tell(done, what); };
  if (auto problem = open(drawn.part, solving, watch.options.cancelled))
    return problem;
  if (auto problem = take_seats(design, drawn.part))
    return problem;
  draw(design, drawn);
  return write_drawings(design, drawn, staging);
}

/// Pictures of all sizes; the one that the booklets' cover shows is larger, and is returned.
std::variant<picture::Pixels, Problem> write_pictures(const design::Design& design, const std::vector<DrawnPart>& parts,
                                                      const DrawnPart& on_cover, Staging& staging, const Watch& watch) {
  picture::Pixels cover;
  const double share = watch.share / static_cast<double>(parts.size());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Part& part = parts[i].part;
    const bool covers = &parts[i] == &on_cover;
    auto pixels =
        lit(design, part, covers ? watch.options.cover_px : watch.options.picture_px,
            {watch.options, watch.from + share * static_cast<double>(i), share}, part.size->name + ": picture");
    if (const auto* problem = std::get_if<Problem>(&pixels))
      return *problem;
    const std::string name = part.folder + "/opened.png";
    if (const auto trouble = picture::write_png(std::get<picture::Pixels>(pixels), staging.folder() / name))
      return not_written(name, *trouble);
    staging.note({name, "how it looks once open", true});
    if (covers)
      cover = std::get<picture::Pixels>(std::move(pixels));
  }
  return cover;
}

/// The size that cover and figures show: the highest.
const DrawnPart& highest(const std::vector<DrawnPart>& parts) {
  return *std::max_element(parts.begin(), parts.end(), [](const DrawnPart& a, const DrawnPart& b) {
    return a.part.form.height_mm < b.part.form.height_mm;
  });
}

/// Pictures and booklets.
std::optional<Problem> write_shown(const design::Design& design, const std::vector<DrawnPart>& parts, Staging& staging,
                                   const Options& options) {
  const DrawnPart& shown = highest(parts);
  const auto cover =
      write_pictures(design, parts, shown, staging, {options, 1 - booklets_share - pictures_share, pictures_share});
  if (const auto* problem = std::get_if<Problem>(&cover))
    return *problem;
  const Watch watch{options, 1 - booklets_share, booklets_share};
  watch.tell(0, "booklets");
  const BookletPictures pictures{&shown, &std::get<picture::Pixels>(cover)};
  const auto files = booklet_files(design, parts, pictures, staging.written());
  if (const auto* problem = std::get_if<Problem>(&files))
    return *problem;
  if (watch.stop())
    return stopped();
  for (const File& file : std::get<std::vector<File>>(files))
    if (auto problem = staging.write(file))
      return problem;
  return std::nullopt;
}

/// All sizes as far as they can be told to be wrong without work: a wrong design leaves no trace on the disk.
std::variant<std::vector<DrawnPart>, Problem> planned_parts(const design::Design& design, const Options& options) {
  const std::vector<std::string> folders = folders_of(design);
  std::vector<DrawnPart> parts;
  for (std::size_t i = 0; i < design.sizes.size(); ++i) {
    const auto& size = design.sizes[i];
    const auto fitting = [&](double done) {
      if (options.progress)
        options.progress(planned_share(design) * (static_cast<double>(i) + done) /
                             static_cast<double>(design.sizes.size()),
                         size.name + ": flat leaf");
    };
    auto part = planned(design, size, fitting, options.cancelled, options.lap_mm);
    if (const auto* problem = std::get_if<Problem>(&part))
      return *problem;
    if (options.remark)
      for (const std::string& remark : std::get<Part>(part).remarks)
        options.remark(size.name + ": " + remark);
    parts.push_back({std::get<Part>(std::move(part)), {}, {}});
    parts.back().part.folder = folders[i];
  }
  return parts;
}

/// What concerns all sizes: the design itself, the numbers, README.txt and the archive of it all.
std::optional<Problem> write_common(const design::Design& design, const std::vector<DrawnPart>& parts, Staging& staging,
                                    std::string_view design_text) {
  if (!design_text.empty())
    if (auto problem = staging.write({design_name(design), shared_design(design_text), "the design, for Fanwright"}))
      return problem;
  std::vector<Written> listed = staging.written();
  listed.push_back({numbers_file, "all numbers of this kit, for programs"});
  listed.push_back({zip_name(design), "all of this in one file, to hand on"});
  if (auto problem = staging.write({"README.txt", maker_notes(design, parts, listed), "this page"}))
    return problem;
  std::vector<std::string> names = {zip_name(design)};
  for (const Written& file : staging.written())
    names.push_back(file.name);
  if (auto problem = staging.write({numbers_file, numbers(design, parts, names), {}}))
    return problem;
  auto zip = staging.zipped(plain_title(design) + "-kit");
  if (const auto* problem = std::get_if<Problem>(&zip))
    return *problem;
  return staging.write({zip_name(design), std::get<std::string>(std::move(zip)), {}});
}

} // namespace

std::optional<Problem> write(const design::Design& design, const std::filesystem::path& out, const Options& options) {
  assert(!design.sizes.empty());
  auto plans = planned_parts(design, options);
  if (const auto* problem = std::get_if<Problem>(&plans))
    return *problem;
  auto parts = std::get<std::vector<DrawnPart>>(std::move(plans));
  auto begun = Staging::begin(out);
  if (const auto* problem = std::get_if<Problem>(&begun))
    return *problem;
  Staging staging = std::get<Staging>(std::move(begun));
  const double begun_share = planned_share(design);
  const double share = (1.0 - begun_share - pictures_share - booklets_share) / static_cast<double>(parts.size());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Watch watch{options, begun_share + share * static_cast<double>(i), share};
    if (watch.stop())
      return stopped();
    if (auto problem = write_size(design, parts[i], staging, watch))
      return problem;
  }
  if (auto problem = write_shown(design, parts, staging, options))
    return problem;
  if (auto problem = write_common(design, parts, staging, options.design_text))
    return problem;
  if (auto problem = staging.put_in_place())
    return problem;
  if (options.progress)
    options.progress(1, "done");
  return std::nullopt;
}

} // namespace fanwright::kit
