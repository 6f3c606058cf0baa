#include "kit/size_files.h"

#include "drawing/pdf.h"
#include "drawing/svg.h"

namespace fanwright::kit {

std::variant<std::vector<File>, Problem> size_files(const design::Design& design, const DrawnPart& drawn) {
  const Part& part = drawn.part;
  const std::string title = design.title + ", " + part.size->name;
  std::vector<File> files;
  files.push_back({part.folder + "/leaf.svg", drawing::svg(drawn.leaf.page, title),
                   "one leaf at true size, unfolded, for a cutting machine or for tracing. Its groups are cut, score, "
                   "glue-inside, glue-between and notes: switch off what you do not want cut, the notes first of all"});
  std::vector<drawing::Page> pages;
  for (const MeasuredPage& sheet : drawn.sheets)
    pages.push_back(sheet.page);
  const std::string name = part.folder + "/sheets.pdf";
  auto pdf = drawing::pdf(pages, {title, design.publishing.maker, {}, {}});
  if (const auto* failure = std::get_if<drawing::Failure>(&pdf))
    return Problem{Cause::folder, name, failure->sentence};
  files.push_back({name, std::get<std::string>(std::move(pdf)),
                   "all leaves laid out on sheets. Each page says how many copies to print"});
  return files;
}

} // namespace fanwright::kit
