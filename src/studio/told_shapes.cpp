#include "studio/json.h"
#include "studio/told.h"

#include <array>
#include <cmath>

namespace fanwright::studio::told {
namespace {

Json pair(double x, double z) { return Json::array({rounded(x), rounded(z)}); }
Json pair(leaf::Point point) { return pair(point.x, point.z); }

Json points(const std::vector<leaf::Point>& list) {
  Json json = Json::array();
  for (const leaf::Point& point : list)
    json.push_back(pair(point));
  return json;
}

Json opened_place(const opened::Form& form, leaf::Point flat) {
  const opened::Point3 place = form.place(flat);
  return pair(std::hypot(place[0], place[1]), place[2]);
}

/// The edge with a point every 1.5 mm or so, more than a screen shows.
Json edge(const opened::Form& form) {
  constexpr double spacing_mm = 1.5;
  Json json = Json::array();
  double last_x = -1e9, last_z = -1e9;
  for (std::size_t k = 0; k < form.edge.size(); ++k) {
    const opened::EdgePoint& point = form.edge[k];
    const bool corner = k + 1 == form.edge.size();
    if (!corner && std::hypot(point.radius - last_x, point.height - last_z) < spacing_mm)
      continue;
    json.push_back(pair(point.radius, point.height));
    last_x = point.radius;
    last_z = point.height;
  }
  return json;
}

Json rows(const leaf::Leaf& leaf, const opened::Form& form) {
  Json json = Json::array();
  for (std::size_t k = 0; k < leaf.rows.size(); ++k) {
    const leaf::GlueRow& row = leaf.rows[k];
    json.push_back({{"index", k},
                    {"side", row.side == design::Side::inside ? "inside" : "between"},
                    {"flat", Json::array({pair(row.from), pair(row.to)})},
                    {"width", rounded(row.width_mm)},
                    {"opened", Json::array({opened_place(form, row.from), opened_place(form, row.to)})}});
  }
  return json;
}

Json locks(const opened::Form& form) {
  Json json = Json::array();
  for (const opened::RowLock& lock : form.row_locks)
    json.push_back({{"lower", lock.lower}, {"upper", lock.upper}, {"ratio", rounded(lock.ratio)}});
  return json;
}

Json form_json(const Shape& shape) {
  const opened::Form& form = *shape.form;
  Json cut_outs = Json::array();
  for (const leaf::Ring& ring : shape.panel->cut_outs)
    cut_outs.push_back(points(ring));
  return {{"size", shape.size},
          {"shows", shape.design->shows == design::Shows::opened ? "opened" : "flat"},
          {"outline", edge(form)},
          {"wanted", shape.wanted.empty() ? Json(nullptr) : points(shape.wanted)},
          {"leaf", points(shape.panel->outline)},
          {"cut_outs", std::move(cut_outs)},
          {"rows", rows(*shape.leaf, form)},
          {"height_mm", rounded(form.height_mm)},
          {"diameter_mm", rounded(form.diameter_mm)},
          {"spread", shape.spread ? Json{{"height_mm", rounded(shape.spread->height_mm)},
                                         {"diameter_mm", rounded(shape.spread->diameter_mm)}}
                                  : Json(nullptr)},
          {"hub_radius_mm", rounded(form.hub_radius_mm)},
          {"foot_lift_mm", rounded(form.foot_lift_mm)},
          {"lock", locks(form)},
          {"leaves", shape.panel->leaves},
          {"opening_deg", rounded(shape.panel->opening_deg)},
          {"colour", shape.design->colour},
          {"mesh", shape.mesh.empty() ? Json(nullptr) : Json(shape.mesh)}};
}

const char* word(fit::Finding::Verdict verdict) {
  constexpr std::array<const char*, 4> words{"good", "note", "warning", "fails"};
  return words[static_cast<std::size_t>(verdict)];
}

Json changes_json(const std::vector<Change>& changes) {
  if (changes.empty())
    return nullptr;
  Json json = Json::array();
  for (const Change& change : changes) {
    json.push_back({{"at", change.at}});
    if (!change.after.empty())
      json.back()["after"] = Json::parse(change.after);
  }
  return json;
}

} // namespace

std::string shape(const Shape& shape) {
  Json json = {{"revision", shape.revision},
               {"size", shape.size},
               {"stage", shape.settled ? "settled" : "estimate"},
               {"problem", shape.problem ? Json{{"sentence", shape.problem->sentence}, {"where", shape.problem->where}}
                                         : Json(nullptr)}};
  if (shape.form != nullptr)
    json["form"] = form_json(shape);
  return line_of(json);
}

std::string openings(std::uint64_t revision, const std::string& size, const std::vector<double>& shares) {
  return line_of({{"revision", revision}, {"size", size}, {"shares", shares}});
}

std::string checks(std::uint64_t revision, const std::string& size, const std::vector<fit::Finding>& findings,
                   const std::vector<std::vector<Change>>& changes) {
  Json list = Json::array();
  for (std::size_t k = 0; k < findings.size(); ++k) {
    const fit::Finding& finding = findings[k];
    list.push_back({{"id", finding.id},
                    {"verdict", word(finding.verdict)},
                    {"value", rounded(finding.value)},
                    {"unit", finding.unit},
                    {"limit", finding.limit ? rounded(*finding.limit) : Json(nullptr)},
                    {"limit_source", finding.limit_source},
                    {"sentence", finding.sentence},
                    {"remedy", finding.remedy},
                    {"where", finding.where},
                    {"changes", k < changes.size() ? changes_json(changes[k]) : Json(nullptr)}});
  }
  return line_of({{"revision", revision}, {"size", size}, {"findings", std::move(list)}});
}

} // namespace fanwright::studio::told
