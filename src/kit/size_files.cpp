#include "kit/size_files.h"

#include "drawing/dxf.h"
#include "drawing/pdf.h"
#include "drawing/svg.h"
#include "kit/fan_pages.h"
#include "kit/stencil_files.h"

namespace fanwright::kit {

namespace {

std::string counted_leaves(std::size_t count) { return std::to_string(count) + (count == 1 ? " leaf" : " leaves"); }

/// Both kinds of one page for cutting machines.
void add_cut_files(const DrawnPart& drawn, const std::string& title, const std::string& name, const drawing::Page& page,
                   const std::string& about, std::vector<File>& files) {
  const std::string path = drawn.part.folder + "/cut/" + name;
  files.push_back({path + ".svg", drawing::svg(page, title), about});
  files.push_back({path + ".dxf", drawing::dxf(page, title), "the same for machines that read DXF, in mm"});
}

void add_cut_files(const DrawnPart& drawn, const std::string& title, std::vector<File>& files) {
  for (std::size_t i = 0; i < drawn.cut.sheets.size(); ++i) {
    const MeasuredPage& sheet = drawn.cut.sheets[i];
    add_cut_files(drawn, title, "sheet-" + std::to_string(i + 1), sheet.page,
                  "for a cutting machine: " +
                      (drawn.part.halves ? words_of_halves(sheet.right_halves.size(), sheet.left_halves.size())
                                         : counted_leaves(sheet.leaves.size())) +
                      " on " + drawn.part.size->sheet.name + "; cut " + std::to_string(sheet.copies) +
                      " of it. Each kind of line is on a layer of its own; the notes are not for the machine",
                  files);
  }
  for (std::size_t i = 0; i < drawn.cut.fans.size(); ++i)
    add_cut_files(drawn, title, "fans-" + std::to_string(i + 1), drawn.cut.fans[i].page,
                  "for a cutting machine: strips of fans on " + drawn.part.size->sheet.name + "; cut " +
                      std::to_string(drawn.cut.fans[i].copies) +
                      " of it. Valleys are on the layer Score, mountains on Score on the back",
                  files);
  add_cut_files(drawn, title, "leaf", drawn.cut.leaf.page,
                drawn.part.halves ? "one leaf whole, for a larger sheet" : "one leaf, to lay out yourself", files);
}

/// On printers' papers where the strips fit them, else on the maker's own sheet, which they do fit.
void draw_fans(const design::Design& design, DrawnPart& drawn) {
  if (drawn.part.fans.empty())
    return;
  const design::Sheet& sheet = drawn.part.size->sheet;
  drawn.cut.fans = fan_pages(design, *drawn.part.size, drawn.part.fan_layouts, sheet, false);
  bool printed = false;
  std::vector<PrintPaper> papers = print_papers();
  papers.push_back({sheet.name.c_str(), sheet.size});
  for (std::size_t i = 0; i < papers.size() && (!printed || i + 1 < papers.size()); ++i)
    if (auto file = fan_print_file(design, drawn.part, papers[i])) {
      drawn.prints.push_back(std::move(*file));
      printed = true;
    }
}

} // namespace

void draw(const design::Design& design, DrawnPart& drawn) {
  drawn.cut = cut_pages(design, drawn.part);
  drawn.prints.clear();
  for (const PrintPaper& paper : print_papers())
    drawn.prints.push_back(print_file(design, drawn.part, paper));
  for (const PrintPaper& paper : print_papers())
    drawn.prints.push_back(master_leaf(design, drawn.part, paper));
  draw_fans(design, drawn);
}

std::variant<std::vector<File>, Problem> size_files(const design::Design& design, const DrawnPart& drawn) {
  const Part& part = drawn.part;
  const std::string title = design.title + ", " + part.size->name;
  std::vector<File> files;
  for (const PrintFile& print : drawn.prints) {
    std::vector<drawing::Page> pages;
    for (const MeasuredPage& page : print.pages)
      pages.push_back(page.page);
    const std::string name = part.folder + "/" + print.name;
    auto pdf = drawing::pdf(pages, {title, design.publishing.maker, print.about, "en"});
    if (const auto* failure = std::get_if<drawing::Failure>(&pdf))
      return Problem{Cause::folder, name, failure->sentence};
    files.push_back({name, std::get<std::string>(std::move(pdf)), print.about});
  }
  add_cut_files(drawn, title, files);
  auto stencils = stencil_files(design, part);
  if (const auto* problem = std::get_if<Problem>(&stencils))
    return *problem;
  for (File& file : std::get<StencilFiles>(stencils).files)
    files.push_back(std::move(file));
  return files;
}

} // namespace fanwright::kit
