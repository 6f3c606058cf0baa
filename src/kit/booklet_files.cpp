#include "kit/booklet_files.h"

#include "booklet/booklet.h"
#include "drawing/pdf.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace fanwright::kit {

namespace {

struct Paper {
  booklet::PageSize size;
  const char* name;
};
constexpr std::array<Paper, 2> papers = {{{booklet::PageSize::a4, "A4"}, {booklet::PageSize::letter, "letter"}}};

struct Kind {
  booklet::FileKind kind;
  std::string_view shown;  ///< how the booklet names the files of a size's folder
  std::string_view ending; ///< of the names it stands for
};
constexpr std::array<Kind, 7> kinds = {{{booklet::FileKind::print_sheets, "print-*.pdf", "/print-A4.pdf"},
                                        {booklet::FileKind::fan_print, "print-fans-*.pdf", "/print-fans-A4.pdf"},
                                        {booklet::FileKind::stencil, "stencil*", "/stencils-A4.pdf"},
                                        {booklet::FileKind::master_leaf, "master-leaf-*.pdf", "/master-leaf-A4.pdf"},
                                        {booklet::FileKind::cutting_svg, "cut/*.svg", "/cut/leaf.svg"},
                                        {booklet::FileKind::cutting_dxf, "cut/*.dxf", "/cut/leaf.dxf"},
                                        {booklet::FileKind::picture, "opened.png", "/opened.png"}}};

/// What the booklet explains of the files: those of the first size stand for all.
std::vector<booklet::FileNote> notes_of(const std::vector<Written>& files, const std::string& folder) {
  std::vector<booklet::FileNote> notes = {{booklet::FileKind::readme, "README.txt"},
                                          {booklet::FileKind::booklet, "booklet-*.pdf"}};
  for (const Kind& kind : kinds) {
    const auto of_kind = [&](const Written& file) { return file.name == folder + std::string(kind.ending); };
    if (std::any_of(files.begin(), files.end(), of_kind))
      notes.push_back({kind.kind, folder + "/" + std::string(kind.shown)});
  }
  notes.push_back({booklet::FileKind::numbers, numbers_file});
  return notes;
}

std::variant<booklet::SizeFacts, Problem> facts_of(const design::Design& design, const Part& part) {
  booklet::SizeFacts facts;
  facts.size = part.size;
  facts.leaf = &part.leaf;
  facts.marks = &part.marks;
  facts.form = &part.form;
  facts.flat_width_mm = part.width_mm;
  facts.flat_height_mm = part.height_mm;
  facts.fans = &part.fans;
  facts.seats = part.seats.empty() ? nullptr : &part.seats;
  facts.figure = part.figure;
  facts.lap_mm = part.halves ? part.halves->lap_mm : 0;
  facts.sheets = part.plan.sheets + sheets_in(part.fan_layouts, part.size->paper);
  if (part.spread) {
    facts.height_spread_mm = part.spread->height_mm;
    facts.diameter_spread_mm = part.spread->diameter_mm;
  }
  const making::FanWork fans = work_of(part.fan_layouts);
  const making::Laps laps = part.halves ? laps_of(*part.halves) : making::Laps{};
  facts.materials = making::materials(part.leaf, *part.size, design.making, facts.sheets, fans, laps);
  design::Making single = design.making;
  single.pieces = 1;
  facts.one_piece = making::schedule(*part.size, single, fans, laps);
  facts.batch = making::schedule(*part.size, design.making, fans, laps);
  auto cost = making::cost(facts.materials, facts.batch.hands_on_min / facts.batch.pieces, design.prices);
  if (const auto* refusal = std::get_if<design::Refusal>(&cost))
    return Problem{Cause::design, refusal->where, refusal->sentence};
  if (std::get<making::Cost>(cost).cost > 0) // she gave rates
    facts.cost = std::get<making::Cost>(cost);
  return facts;
}

drawing::Image image_of(const picture::Pixels& pixels) {
  drawing::Image image;
  image.width_px = pixels.width_px;
  image.height_px = pixels.height_px;
  image.rgb = std::make_shared<const std::vector<std::uint8_t>>(pixels.rgb);
  return image;
}

/// None when the paper is too finely cut to be drawn: the figures then show the silhouette.
std::optional<booklet::OpenedViews> views_of(const Part& part) {
  auto views = booklet::opened_views(opened::panel_of(part.leaf, *part.size), part.form);
  if (!std::holds_alternative<booklet::OpenedViews>(views))
    return std::nullopt;
  return std::get<booklet::OpenedViews>(std::move(views));
}

booklet::Subject subject_of(const design::Design& design, const Part& part, const booklet::OpenedViews* views) {
  booklet::Subject subject;
  subject.design = &design;
  subject.size = part.size;
  subject.leaf = &part.leaf;
  subject.views = views;
  subject.fan = part.fans.empty() ? nullptr : &part.fans.front();
  if (!part.seats.empty()) {
    subject.fan = &part.fans[part.seats.front().fan];
    subject.seated = &part.seats.front().seated;
    subject.form = &part.form;
  }
  const auto lay = [&subject](const leaf::Ring& outline, const sheets::Placement& placement) {
    leaf::Ring ring;
    for (const leaf::Point& point : outline)
      ring.push_back(sheets::placed(placement, point));
    subject.on_sheet.push_back(std::move(ring));
  };
  if (part.halves) {
    for (const sheets::JobPiece& piece : part.halves->plan.sheets.front().pieces)
      lay(piece.kind == 0 ? part.halves->right.outline : part.halves->left.outline, piece.placement);
    return subject;
  }
  for (const sheets::Placement& placement : part.plan.layouts.front().placements)
    lay(part.outline, placement);
  return subject;
}

/// The lap of the first size that is cut in two, as it looks on the size that the figures show; 0 when all are whole.
double drawn_lap_mm(const Part& shown, const std::vector<DrawnPart>& parts) {
  const auto cut = std::find_if(parts.begin(), parts.end(), [](const DrawnPart& p) { return p.part.halves; });
  return cut == parts.end() ? 0 : cut->part.halves->lap_mm * shown.height_mm / cut->part.height_mm;
}

std::variant<File, Problem> pdf_file(const std::string& name, const std::vector<drawing::Page>& pages,
                                     const drawing::About& about, const std::string& use) {
  auto bytes = drawing::pdf(pages, about);
  if (const auto* failure = std::get_if<drawing::Failure>(&bytes))
    return Problem{Cause::folder, name, failure->sentence};
  return File{name, std::get<std::string>(std::move(bytes)), use, true};
}

} // namespace

std::variant<std::vector<File>, Problem> booklet_files(const design::Design& design,
                                                       const std::vector<DrawnPart>& parts,
                                                       const BookletPictures& pictures,
                                                       const std::vector<Written>& files) {
  booklet::Contents contents;
  contents.design = &design;
  contents.cover = image_of(*pictures.cover);
  const auto views = views_of(pictures.shown->part);
  contents.figures = subject_of(design, pictures.shown->part, views ? &*views : nullptr);
  contents.files = notes_of(files, parts.front().part.folder);
  contents.figures.lap_mm = drawn_lap_mm(pictures.shown->part, parts);
  for (const DrawnPart& drawn : parts) {
    auto facts = facts_of(design, drawn.part);
    if (const auto* problem = std::get_if<Problem>(&facts))
      return *problem;
    contents.sizes.push_back(std::get<booklet::SizeFacts>(std::move(facts)));
  }
  std::vector<File> made;
  const auto add = [&](std::variant<File, Problem> file) -> std::optional<Problem> {
    if (const auto* problem = std::get_if<Problem>(&file))
      return *problem;
    made.push_back(std::get<File>(std::move(file)));
    return std::nullopt;
  };
  const std::string& maker = design.publishing.maker;
  for (const std::string& language : design.publishing.languages)
    for (const Paper& paper : papers)
      if (auto problem = add(pdf_file("booklet-" + language + "-" + paper.name + ".pdf",
                                      booklet::pages(contents, paper.size, language),
                                      {design.title, maker, {}, language}, "every step from paper to ornament")))
        return *problem;
  const std::string& language = design.publishing.languages.front();
  for (const Paper& paper : papers)
    if (auto problem = add(pdf_file(std::string(own_folder) + "/plan-and-price-" + paper.name + ".pdf",
                                    booklet::maker_pages(contents, paper.size, language),
                                    {design.title, maker, {}, language}, "your plan of work, materials and price")))
      return *problem;
  for (File& file : made)
    file.shared = file.name.compare(0, std::string_view(own_folder).size(), own_folder) != 0;
  return made;
}

} // namespace fanwright::kit
