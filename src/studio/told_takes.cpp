#include "studio/json.h"
#include "studio/told.h"

namespace fanwright::studio::told {
namespace {

Json takes_json(const Takes& takes) {
  Json layouts = Json::array();
  for (const LayoutPicture& layout : takes.layouts)
    layouts.push_back({{"sheets", layout.sheets}, {"svg", layout.svg}});
  Json json = {{"name", takes.size},
               {"leaves", takes.leaves},
               {"grammage", rounded(takes.grammage_gsm)},
               {"height_mm", rounded(takes.height_mm)},
               {"diameter_mm", rounded(takes.diameter_mm)},
               {"sheets", takes.sheets},
               {"per_sheet", takes.per_sheet},
               {"sheet", takes.sheet},
               {"layouts", std::move(layouts)},
               {"glue_g", rounded(takes.glue_g)},
               {"joints", takes.joints},
               {"hours", rounded(takes.hours)},
               {"cost", nullptr},
               {"weight_g", rounded(takes.weight_g)},
               {"problem", takes.problem.empty() ? Json(nullptr) : Json(takes.problem)}};
  if (takes.cost)
    json["cost"] = {{"currency", takes.cost->currency},
                    {"materials", rounded(takes.cost->materials)},
                    {"labour", rounded(takes.cost->labour)},
                    {"total", rounded(takes.cost->total)},
                    {"price", rounded(takes.cost->price)}};
  return json;
}

} // namespace

std::string takes(std::uint64_t revision, const std::vector<Takes>& sizes) {
  Json list = Json::array();
  for (const Takes& size : sizes)
    list.push_back(takes_json(size));
  return line_of({{"revision", revision}, {"sizes", std::move(list)}});
}

std::string job(const Job& job) {
  Json json = {
      {"id", job.id}, {"kind", job.kind}, {"share", rounded(job.share)}, {"doing", job.doing}, {"done", job.done}};
  if (job.sentence)
    json["sentence"] = *job.sentence;
  return line_of(json);
}

std::string job_begun(const std::string& id) { return line_of({{"id", id}}); }

} // namespace fanwright::studio::told
