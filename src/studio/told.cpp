#include "studio/told.h"

#include "studio/json.h"

#include <algorithm>

namespace fanwright::studio::told {
namespace {

Json points(const std::vector<leaf::Point>& list) {
  Json json = Json::array();
  for (const leaf::Point& point : list)
    json.push_back(Json::array({rounded(point.x), rounded(point.z)}));
  return json;
}

Json text_or_null(const std::optional<std::string>& text) { return text ? Json(*text) : Json(nullptr); }

} // namespace

Reply refusal(int status, const std::string& sentence, const std::string& where) {
  Reply reply;
  reply.status = status;
  reply.body = line_of(Json{{"sentence", sentence}, {"where", where}});
  return reply;
}

Reply reply(std::string text) {
  Reply reply;
  reply.body = std::move(text);
  return reply;
}

std::string design(const Design& design) {
  Json json = {{"id", design.id},
               {"name", text_or_null(design.name)},
               {"text", design.text},
               {"fingerprint", text_or_null(design.fingerprint)},
               {"revision", design.revision}};
  if (design.disk)
    json["disk_text"] = *design.disk;
  std::string text = line_of(json);
  text.pop_back();
  text += ",\"journal\":["; // the lines are JSON already, and may be many
  for (std::size_t k = 0; k < design.lines.size(); ++k)
    text += (k == 0 ? "" : ",") + design.lines[k];
  return text + "]}";
}

std::string bench(const Bench& bench) {
  Json files = Json::array(), starters = Json::array(), open = Json::array();
  for (const Listed& file : bench.files)
    files.push_back({{"name", file.name},
                     {"title", file.title},
                     {"height_mm", file.height_mm > 0 ? rounded(file.height_mm) : Json(nullptr)},
                     {"changed", file.changed}});
  for (const Starter& starter : bench.starters)
    starters.push_back(
        {{"id", starter.id}, {"title", starter.title}, {"text", starter.text}, {"outline", points(starter.outline)}});
  for (const OpenDesign& design : bench.open)
    open.push_back(
        {{"id", design.id}, {"name", text_or_null(design.name)}, {"title", design.title}, {"unsaved", design.unsaved}});
  return line_of({{"folder", bench.folder},
                  {"units_hint", "mm"},
                  {"files", std::move(files)},
                  {"starters", std::move(starters)},
                  {"open", std::move(open)},
                  {"first", text_or_null(bench.first)}});
}

std::string saved(const std::string& fingerprint) { return line_of({{"fingerprint", fingerprint}}); }

Reply changed_on_disk(const std::string& text, const std::string& fingerprint) {
  Reply reply;
  reply.status = 409;
  reply.body = line_of({{"sentence", "The file was changed by somebody else since it was read; look at both before you "
                                     "save, or save a copy."},
                        {"where", ""},
                        {"text", text},
                        {"fingerprint", fingerprint}});
  return reply;
}

std::string disk(const std::string& text, const std::string& fingerprint) {
  return line_of({{"fingerprint", fingerprint}, {"text", text}});
}

std::string journal_base(const std::string& base, const std::string& fingerprint, bool unsaved, std::uint64_t number) {
  return line_of({{"base", base}, {"fingerprint", fingerprint}, {"unsaved", unsaved}, {"n", number}});
}

std::string journal_saved(const std::string& fingerprint) { return line_of({{"saved", fingerprint}}); }

} // namespace fanwright::studio::told
