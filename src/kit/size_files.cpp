#include "kit/size_files.h"

#include "drawing/pdf.h"
#include "drawing/svg.h"

namespace fanwright::kit {

namespace {

constexpr const char* layers =
    "layers: cut, score, perforate, glue-inside, glue-between, notes; let the machine act on "
    "the first three and switch the notes off";

std::string cut_name(const Part& part, const std::string& name) { return part.folder + "/cut/" + name; }

void add_cut_files(const std::string& title, const DrawnPart& drawn, std::vector<File>& files) {
  const auto add = [&](const std::string& name, const drawing::Page& page, const std::string& about) {
    files.push_back({cut_name(drawn.part, name + ".svg"), drawing::svg(page, title), about});
  };
  for (std::size_t i = 0; i < drawn.cut.sheets.size(); ++i) {
    const MeasuredPage& sheet = drawn.cut.sheets[i];
    add("sheet-" + std::to_string(i + 1), sheet.page,
        "for a cutting machine: " + std::to_string(sheet.leaves.size()) + " leaves on " + drawn.part.size->sheet.name +
            ", cut " + std::to_string(sheet.copies) + " of it");
  }
  add("leaf", drawn.cut.leaf.page, std::string("one leaf for a cutting machine; ") + layers);
}

} // namespace

void draw(const design::Design& design, DrawnPart& drawn) {
  drawn.cut = cut_pages(design, drawn.part);
  drawn.prints.clear();
  for (const PrintPaper& paper : print_papers())
    drawn.prints.push_back(print_file(design, drawn.part, paper));
  for (const PrintPaper& paper : print_papers())
    drawn.prints.push_back(master_leaf(design, drawn.part, paper));
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
  add_cut_files(title, drawn, files);
  return files;
}

} // namespace fanwright::kit
