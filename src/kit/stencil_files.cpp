#include "kit/stencil_files.h"

#include "drawing/dxf.h"
#include "drawing/pdf.h"
#include "drawing/svg.h"
#include "kit/stencil_page.h"
#include "leaf/sentence.h"
#include "leaf/strip.h"

#include <cassert>

namespace fanwright::kit {

namespace {

std::string side_name(design::Side side) { return side == design::Side::inside ? "inside" : "between"; }

/// Which rows have no window; nothing when all have.
std::vector<std::string> by_eye(const leaf::Leaf& leaf, const Stencil& stencil) {
  if (stencil.rows_by_eye.empty())
    return {};
  std::string places;
  for (const std::size_t row : stencil.rows_by_eye)
    places += (places.empty() ? "" : ", ") + leaf::in_mm(leaf::middle_z(leaf.rows[row]) - stencil.foot_z);
  return {"No window fits the " + side_name(stencil.side) +
          " rows at these heights above the lowest point of the leaf: " + places + ". Set one small dab there by eye."};
}

} // namespace

std::variant<StencilFiles, Problem> stencil_files(const design::Design& design, const Part& part) {
  StencilFiles result;
  std::vector<Stencil> stencils;
  const std::string title = design.title + ", " + part.size->name + ", stencil";
  for (const design::Side side : {design::Side::inside, design::Side::between}) {
    auto made = stencil(part.leaf, side, design.making);
    if (const auto* sentence = std::get_if<std::string>(&made)) {
      result.remarks.push_back(*sentence);
      continue;
    }
    stencils.push_back(std::get<Stencil>(std::move(made)));
    for (std::string& remark : by_eye(part.leaf, stencils.back()))
      result.remarks.push_back(std::move(remark));
    const StencilPage page = stencil_page(design, part, stencils.back());
    const std::string name = part.folder + "/stencil-" + side_name(side);
    const std::string about = "card with windows that shows where the glue of the " + side_name(side) +
                              " rows goes, for a cutting machine; switch the notes off before cutting";
    result.files.push_back({name + ".svg", drawing::svg(page.page, title + " " + side_name(side)), about});
    result.files.push_back({name + ".dxf", drawing::dxf(page.page, title + " " + side_name(side)), about});
  }
  if (stencils.empty())
    return result;
  for (const char* sheet : {"A4", "letter"}) {
    const auto size = paper::sheet_size(sheet);
    assert(size);
    std::vector<drawing::Page> pages;
    for (StencilPage& page : stencil_sheets(design, part, stencils, result.remarks, *size))
      pages.push_back(std::move(page.page));
    const std::string name = part.folder + "/stencils-" + sheet + ".pdf";
    auto pdf = drawing::pdf(pages, {title, design.publishing.maker, {}, {}});
    if (const auto* failure = std::get_if<drawing::Failure>(&pdf))
      return Problem{Cause::folder, name, failure->sentence};
    result.files.push_back({name, std::get<std::string>(std::move(pdf)),
                            std::string("both cards to print on ") + sheet + ", glue to stiff card and cut by hand"});
  }
  return result;
}

} // namespace fanwright::kit
