#include "studio/asked.h"

#include "studio/json_depth.h"

#include <nlohmann/json.hpp>

#include <utility>

namespace fanwright::studio::asked {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t most_lines = 10'000; ///< in one request
constexpr std::size_t longest_text = 1'048'576;

/// Thrown inside this file only.
struct Wrong {
  std::string sentence;
};

Json object_of(const std::string& body) {
  if (!shallow(body))
    throw Wrong{"The request is nested too deeply."};
  Json json = Json::parse(body, nullptr, false);
  if (!json.is_object())
    throw Wrong{"The body has to be a JSON object in UTF-8."};
  return json;
}

std::string text_at(const Json& json, const char* key) {
  const auto found = json.find(key);
  if (found == json.end() || !found->is_string())
    throw Wrong{std::string("\"") + key + "\" is needed, and has to be a text."};
  if (found->get_ref<const std::string&>().size() > longest_text)
    throw Wrong{std::string("\"") + key + "\" is longer than 1 MiB."};
  return *found;
}

std::optional<std::string> text_if_any(const Json& json, const char* key) {
  const auto found = json.find(key);
  return found == json.end() || found->is_null() ? std::nullopt : std::optional(text_at(json, key));
}

bool yes_at(const Json& json, const char* key, bool otherwise) {
  const auto found = json.find(key);
  if (found == json.end() || found->is_null())
    return otherwise;
  if (!found->is_boolean())
    throw Wrong{std::string("\"") + key + "\" has to be true or false."};
  return found->get<bool>();
}

/// What `read` makes of the object in `body`.
template <typename Asked> Read<Asked> read_from(const std::string& body, void (*read)(const Json&, Asked&)) {
  try {
    Asked asked;
    read(object_of(body), asked);
    return asked;
  } catch (Wrong& wrong) {
    return std::move(wrong.sentence);
  }
}

} // namespace

Read<Open> open(const std::string& body) {
  return read_from<Open>(body, [](const Json& json, Open& asked) {
    asked.file = text_if_any(json, "open");
    asked.text = text_if_any(json, "text");
    asked.starter = text_if_any(json, "starter");
    asked.name = text_if_any(json, "name").value_or("");
    asked.blank = yes_at(json, "blank", false);
    if (asked.file.has_value() + asked.text.has_value() + asked.starter.has_value() + asked.blank != 1)
      throw Wrong{"Give one of \"open\", \"text\", \"starter\" and \"blank\"."};
  });
}

Read<Journal> journal(const std::string& body) {
  return read_from<Journal>(body, [](const Json& json, Journal& asked) {
    asked.restart = text_if_any(json, "restart");
    if (const auto number = json.find("n"); number != json.end() && number->is_number_unsigned())
      asked.number = *number;
    const auto lines = json.find("lines");
    if (asked.restart && lines == json.end())
      return;
    if (asked.restart || lines == json.end() || !lines->is_array() || lines->size() > most_lines)
      throw Wrong{"Give \"lines\", a list of at most 10000 JSON values, or \"restart\", a text."};
    for (const Json& line : *lines)
      asked.lines.push_back(line.dump());
  });
}

Read<Save> save(const std::string& body) {
  return read_from<Save>(body, [](const Json& json, Save& asked) {
    asked.text = text_at(json, "text");
    asked.fingerprint = text_if_any(json, "fingerprint").value_or("");
    asked.even_if_changed = yes_at(json, "even_if_changed", false);
  });
}

Read<Copy> copy(const std::string& body) {
  return read_from<Copy>(body, [](const Json& json, Copy& asked) {
    asked.name = text_at(json, "name");
    asked.text = text_at(json, "text");
    asked.replace = yes_at(json, "replace", false);
  });
}

Read<Outline> outline(const std::string& body) {
  return read_from<Outline>(body, [](const Json& json, Outline& asked) {
    asked.path = text_at(json, "path");
    const std::string units = text_if_any(json, "units").value_or("mm");
    if (units != "mm" && units != "in")
      throw Wrong{"\"units\" is mm or in."};
    asked.units_to_mm = units == "in" ? 25.4 : 1.0;
  });
}

Read<Shape> shape(const std::string& body) {
  return read_from<Shape>(body, [](const Json& json, Shape& asked) {
    const auto revision = json.find("revision");
    if (revision == json.end() || !revision->is_number_unsigned() || revision->get<std::uint64_t>() == 0 ||
        revision->get<std::uint64_t>() > (1ULL << 53))
      throw Wrong{"\"revision\" is needed: a whole number from 1."};
    asked.revision = *revision;
    asked.size = text_if_any(json, "size").value_or("");
    asked.text = text_at(json, "text");
    asked.settle = yes_at(json, "settle", true);
  });
}

Read<OneSize> one_size(const std::string& body) {
  return read_from<OneSize>(body, [](const Json& json, OneSize& asked) {
    asked.text = text_at(json, "text");
    asked.size = text_if_any(json, "size").value_or("");
  });
}

Read<Kit> kit(const std::string& body) {
  return read_from<Kit>(body, [](const Json& json, Kit& asked) {
    asked.text = text_at(json, "text");
    if (const auto sizes = json.find("sizes"); sizes != json.end() && !sizes->is_null()) {
      asked.sizes.emplace();
      if (!sizes->is_array() || sizes->empty() || sizes->size() > 12)
        throw Wrong{"\"sizes\" lists 1 to 12 names, or is null for all."};
      for (const Json& size : *sizes)
        asked.sizes->push_back(size.is_string() ? size.get<std::string>() : throw Wrong{"A size's name is a text."});
    }
    if (const auto lap = json.find("lap_mm"); lap != json.end() && !lap->is_null())
      asked.lap_mm = lap->is_number() ? lap->get<double>() : throw Wrong{"\"lap_mm\" is a width in mm."};
    if (!(asked.lap_mm >= 0 && asked.lap_mm <= 100))
      throw Wrong{"\"lap_mm\" is a width from 0 to 100 mm."};
    const auto grammages = json.find("grammages");
    if (grammages == json.end() || grammages->is_null())
      return;
    if (!grammages->is_object() || grammages->size() > 12)
      throw Wrong{"\"grammages\" gives g/m2 by the names of sizes."};
    for (const auto& [name, grammage] : grammages->items())
      asked.grammages[name] = grammage.is_number() ? grammage.get<double>() : throw Wrong{"A grammage is a number."};
  });
}

Read<Picture> picture(const std::string& body) {
  return read_from<Picture>(body, [](const Json& json, Picture& asked) {
    asked.text = text_at(json, "text");
    asked.size = text_if_any(json, "size").value_or("");
    asked.view = text_if_any(json, "view").value_or(asked.view);
    asked.paper = text_if_any(json, "paper").value_or("");
    asked.quality = text_if_any(json, "quality").value_or(asked.quality);
    asked.background = text_if_any(json, "background").value_or(asked.background);
    const auto pixels = json.find("pixels");
    if (pixels == json.end() || pixels->is_null())
      return;
    if (!pixels->is_number_integer() || pixels->get<long long>() < 16 || pixels->get<long long>() > 4096)
      throw Wrong{"\"pixels\" is a whole number from 16 to 4096."};
    asked.pixels = *pixels;
  });
}

Read<MeshFile> mesh_file(const std::string& body) {
  return read_from<MeshFile>(body, [](const Json& json, MeshFile& asked) {
    asked.text = text_at(json, "text");
    asked.size = text_if_any(json, "size").value_or("");
    asked.kind = text_at(json, "kind");
  });
}

std::string sentence_in(const std::string& refusal) { return Json::parse(refusal).at("sentence"); }

std::string title_in(const std::string& text) {
  const Json json = shallow(text) ? Json::parse(text, nullptr, false) : Json();
  const auto title = json.is_object() ? json.find("title") : json.end();
  return title != json.end() && title->is_string() ? title->get<std::string>() : std::string();
}

bool is_json(std::string_view text) { return shallow(text) && Json::accept(text); }

std::optional<Base> journal_base(const std::string& line) {
  const Json json = shallow(line) ? Json::parse(line, nullptr, false) : Json();
  const auto text = [&](const char* key) { return json.contains(key) && json[key].is_string(); };
  if (!json.is_object() || !text("base") || !text("fingerprint"))
    return std::nullopt;
  const Json number = json.value("n", Json(0));
  return Base{json["base"], json["fingerprint"], json.value("unsaved", Json(false)) == Json(true),
              number.is_number_unsigned() ? number.get<std::uint64_t>() : 0};
}

std::optional<std::string> saved_in(const std::string& line) {
  if (line.find("\"saved\"") == std::string::npos)
    return std::nullopt;
  const Json json = Json::parse(line, nullptr, false);
  const auto saved = json.is_object() ? json.find("saved") : json.end();
  return saved != json.end() && saved->is_string() ? std::optional<std::string>(*saved) : std::nullopt;
}

} // namespace fanwright::studio::asked
