#include "kit/booklet_files.h"

#include "booklet/booklet.h"
#include "drawing/pdf.h"

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
  std::string_view ending; ///< of the name inside a size's folder
  booklet::FileKind kind;
};
constexpr std::array<Kind, 8> kinds = {{{"print-A4.pdf", booklet::FileKind::print_sheets},
                                        {"print-letter.pdf", booklet::FileKind::print_sheets},
                                        {".svg", booklet::FileKind::cutting_svg},
                                        {".dxf", booklet::FileKind::cutting_dxf},
                                        {"stencils-A4.pdf", booklet::FileKind::stencil},
                                        {"stencils-letter.pdf", booklet::FileKind::stencil},
                                        {"master-leaf-A4.pdf", booklet::FileKind::master_leaf},
                                        {"opened.png", booklet::FileKind::picture}}};

bool ends(std::string_view text, std::string_view ending) {
  return text.size() >= ending.size() && text.substr(text.size() - ending.size()) == ending;
}

/// What the booklet explains of the files: those of the first size stand for all.
std::vector<booklet::FileNote> notes_of(const std::vector<Written>& files, const std::string& folder) {
  std::vector<booklet::FileNote> notes;
  for (const Written& file : files)
    for (const Kind& kind : kinds)
      if (file.name.compare(0, folder.size() + 1, folder + "/") == 0 && ends(file.name, kind.ending))
        notes.push_back({kind.kind, file.name});
  notes.push_back({booklet::FileKind::readme, "README.txt"});
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
  facts.sheets = part.plan.sheets;
  facts.height_spread_mm = part.spread.height_mm;
  facts.diameter_spread_mm = part.spread.diameter_mm;
  facts.materials = making::materials(part.leaf, *part.size, design.making, part.plan.sheets);
  design::Making single = design.making;
  single.pieces = 1;
  facts.one_piece = making::schedule(*part.size, single);
  facts.batch = making::schedule(*part.size, design.making);
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

std::variant<File, Problem> pdf_file(const std::string& name, const std::vector<drawing::Page>& pages,
                                     const drawing::About& about, const std::string& use) {
  auto bytes = drawing::pdf(pages, about);
  if (const auto* failure = std::get_if<drawing::Failure>(&bytes))
    return Problem{Cause::folder, name, failure->sentence};
  return File{name, std::get<std::string>(std::move(bytes)), use};
}

} // namespace

std::variant<std::vector<File>, Problem> booklet_files(const design::Design& design,
                                                       const std::vector<DrawnPart>& parts,
                                                       const picture::Pixels& cover,
                                                       const std::vector<Written>& files) {
  booklet::Contents contents;
  contents.design = &design;
  contents.cover = image_of(cover);
  contents.files = notes_of(files, parts.front().part.folder);
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
  return made;
}

} // namespace fanwright::kit
