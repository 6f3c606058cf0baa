#include "studio/routes.h"

#include "leaf/path_data.h"
#include "studio/advised.h"
#include "studio/asked.h"
#include "studio/page.h"
#include "studio/schema.h"
#include "studio/size_of.h"
#include "studio/starters.h"
#include "studio/taken_over.h"
#include "studio/told.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace fanwright::studio {
namespace {

std::vector<std::string> parts_of(const std::string& path) {
  std::vector<std::string> parts;
  std::size_t start = 1;
  while (start <= path.size()) {
    const std::size_t end = std::min(path.find('/', start), path.size());
    parts.push_back(path.substr(start, end - start));
    start = end + 1;
  }
  return parts;
}

Reply not_found() { return told::refusal(404, "There is nothing at this address."); }
Reply wrong_method() { return told::refusal(405, "This address cannot be asked in this way."); }

/// The request in `read`, answered by `answer`; or its refusal.
template <typename Asked, typename Answer> Reply with(const asked::Read<Asked>& read, const Answer& answer) {
  if (const auto* sentence = std::get_if<std::string>(&read))
    return told::refusal(400, *sentence);
  return answer(std::get<Asked>(read));
}

Reply page(const Request& request) {
  if (request.method != "GET" && request.method != "HEAD")
    return wrong_method();
  const std::string path = request.path == "/" ? "/index.html" : request.path;
  const auto files = page_files();
  const auto found = std::ranges::find(files, path, &PageFile::path);
  if (found == files.end())
    return not_found();
  Reply reply;
  reply.type = found->type;
  const bool zipped = !found->gzip.empty() && request.header("accept-encoding").find("gzip") != std::string::npos;
  reply.body = zipped ? found->gzip : found->bytes;
  if (zipped)
    reply.headers.emplace("Content-Encoding", "gzip");
  return reply;
}

/// A number in a query; empty when it is none.
std::optional<double> number(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size() && std::isfinite(value) ? std::optional(value)
                                                                                          : std::nullopt;
}

Reply outline(const asked::Outline& asked) {
  auto parsed = leaf::parse_path_data(asked.path);
  if (const auto* fault = std::get_if<leaf::PathFault>(&parsed))
    return told::refusal(400, fault->sentence, "/silhouette/path");
  return told::reply(told::outline(std::get<std::vector<leaf::Subpath>>(parsed)));
}

Reply advice(const asked::OneSize& asked) {
  const auto parsed = design::parse(asked.text);
  if (const auto* refusal = std::get_if<design::Refusal>(&parsed))
    return told::refusal(400, refusal->sentence, refusal->where);
  const auto& design = std::get<design::Design>(parsed);
  const design::Size* size = size_of(design, asked.size);
  if (size == nullptr)
    return told::refusal(400, "There is no size of this name in the design.", "/sizes");
  const auto found = advised(design, *size);
  if (const auto* failure = std::get_if<fit::Failure>(&found))
    return told::refusal(400, failure->sentence, failure->where);
  return told::reply(json_of(std::get<Advised>(found)));
}

} // namespace

Reply Routes::answer(const Request& request) {
  Reply reply;
  if (auto entry = let_in(request, door)) {
    reply = *std::move(entry);
  } else if (auto refusal = refused(request, door)) {
    reply = *std::move(refusal);
  } else {
    const std::vector<std::string> parts = parts_of(request.path);
    reply = !parts.empty() && parts.front() == "api" ? api(request, parts) : page(request);
  }
  harden(reply, request.path);
  return reply;
}

Reply Routes::api(const Request& request, const std::vector<std::string>& parts) {
  const std::string what = parts.size() > 1 ? parts[1] : "";
  const bool get = request.method == "GET", post = request.method == "POST";
  if (what == "designs" && parts.size() == 2)
    return post ? open(request) : wrong_method();
  if (what == "designs" && parts.size() <= 4 && parts.size() > 2)
    return of_design(request, parts[2], parts.size() == 4 ? parts[3] : "");
  if (what == "jobs")
    return job(request, parts);
  if (parts.size() != 2)
    return not_found();
  if (what == "bench")
    return get ? bench() : wrong_method();
  if (what == "events")
    return get ? events(request.asked("design")) : wrong_method();
  if (what == "outline")
    return post ? with(asked::outline(request.body), outline) : wrong_method();
  if (what == "import")
    return post ? taken_over(request) : wrong_method();
  if (what == "schema")
    return get ? told::reply(std::string(design_schema())) : wrong_method();
  return not_found();
}

Reply Routes::events(const std::string& id) {
  return designs_.engine(id) ? listeners_.listen(id)
                             : told::refusal(404, "This design is not open any more; open it again.");
}

Reply Routes::bench() {
  return told::reply(
      told::bench({designs_.folder().path().string(), designs_.folder().list(), starters(), designs_.list(), first}));
}

Reply Routes::open(const Request& request) {
  return with(asked::open(request.body), [&](const asked::Open& asked) {
    if (asked.file)
      return designs_.open_file(*asked.file);
    if (asked.text)
      return designs_.open_text(*asked.text, true);
    if (asked.blank)
      return designs_.open_text(blank_design(), false);
    const auto& known = starters();
    const auto found = std::ranges::find(known, *asked.starter, &told::Starter::id);
    return found == known.end() ? told::refusal(404, "There is no starter of this name.")
                                : designs_.open_text(found->text, false);
  });
}

Reply Routes::of_design(const Request& request, const std::string& id, const std::string& what) {
  const bool get = request.method == "GET", post = request.method == "POST";
  if (what.empty())
    return get ? designs_.tell(id) : request.method == "DELETE" ? designs_.close(id) : wrong_method();
  if (what == "mesh" || what == "fans")
    return get ? mesh(request, id, what == "fans") : wrong_method();
  constexpr std::array<std::string_view, 8> known = {"journal", "save",    "copy",      "shape",
                                                     "kit",     "picture", "mesh-file", "advice"};
  if (std::ranges::find(known, what) == known.end())
    return not_found();
  if (!post)
    return wrong_method();
  if (what == "journal")
    return with(asked::journal(request.body), [&](const auto& asked) { return designs_.append(id, asked); });
  if (what == "save")
    return with(asked::save(request.body), [&](const auto& asked) { return designs_.save(id, asked); });
  if (what == "copy")
    return with(asked::copy(request.body), [&](const auto& asked) { return designs_.copy(id, asked); });
  return what == "shape" ? shape(request, id) : make(request, id, what);
}

Reply Routes::make(const Request& request, const std::string& id, const std::string& what) {
  if (!designs_.engine(id))
    return told::refusal(404, "This design is not open any more; open it again.");
  if (what == "kit")
    return with(asked::kit(request.body), [&](const auto& asked) { return jobs_.kit(id, asked); });
  if (what == "picture")
    return with(asked::picture(request.body), [&](const auto& asked) { return jobs_.picture(id, asked); });
  if (what == "mesh-file")
    return with(asked::mesh_file(request.body), [&](const auto& asked) { return jobs_.mesh_file(id, asked); });
  return with(asked::one_size(request.body), advice);
}

Reply Routes::job(const Request& request, const std::vector<std::string>& parts) {
  if (parts.size() == 3)
    return request.method == "DELETE" ? jobs_.cancel(parts[2]) : wrong_method();
  if (parts.size() == 4)
    return request.method == "GET" ? jobs_.file(parts[2], parts[3]) : wrong_method();
  return not_found();
}

Reply Routes::shape(const Request& request, const std::string& id) {
  const auto engine = designs_.engine(id);
  if (!engine)
    return told::refusal(404, "This design is not open any more; open it again.");
  return with(asked::shape(request.body), [&](const asked::Shape& asked) { return engine->shape(asked); });
}

Reply Routes::mesh(const Request& request, const std::string& id, bool of_fans) {
  const auto engine = designs_.engine(id);
  if (!engine)
    return told::refusal(404, "This design is not open any more; open it again.");
  const auto revision = number(request.asked("revision"));
  const std::string opening = request.asked("opening");
  const auto share = opening.empty() ? std::optional(1.0) : number(opening);
  if (!revision || !share || *revision < 1 || *revision > 9e15)
    return told::refusal(400, "A mesh is asked for by revision and size.");
  if (of_fans)
    return engine->fans(static_cast<std::uint64_t>(*revision), request.asked("size"));
  return engine->mesh(static_cast<std::uint64_t>(*revision), request.asked("size"), *share,
                      request.asked("detail") == "fine", request.asked("stage") == "estimate");
}

} // namespace fanwright::studio
