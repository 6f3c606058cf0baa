#include "studio/studio.h"

#include "studio/asked.h"
#include "studio/routes.h"

#include <chrono>
#include <thread>

namespace fanwright::studio {
namespace {

constexpr auto look_up = std::chrono::milliseconds(100);
constexpr int disk_every = 10; ///< look-ups between two looks at the disk

/// Only a drawing to take over may be large, and only in the hands of who holds the key.
bool may_be_large(std::string_view path, std::string_view head, const Door& door) {
  return path == "/api/import" && head.find(door.cookie_name() + "=" + door.secret) != std::string_view::npos;
}

} // namespace

std::optional<std::string> run(const Options& options) {
  Listeners listeners;
  OpenDesigns designs(options.folder, listeners);
  Jobs jobs(listeners);
  Routes routes(designs, listeners, jobs);
  Server server([&](const Request& request) { return routes.answer(request); },
                [&](std::string_view path, std::string_view head) { return may_be_large(path, head, routes.door); });
  const auto port = server.bind(options.port);
  if (!port)
    return "Port " + std::to_string(options.port) + " is not free; choose another one, or leave --port out.";
  routes.door = {*port, new_secret()};
  if (options.file) {
    const Reply opened = designs.open_file(*options.file);
    if (opened.status != 200)
      return asked::sentence_in(opened.body);
    routes.first = designs.list().front().id;
  }
  std::thread serving([&] { server.run(); });
  options.started("http://127.0.0.1:" + std::to_string(*port) + "/?key=" + routes.door.secret);
  for (int count = 1; !options.interrupted(); ++count) {
    std::this_thread::sleep_for(look_up);
    if (count % disk_every == 0)
      designs.look_at_disk();
  }
  server.stop();
  serving.join();
  designs.end();
  return std::nullopt;
}

} // namespace fanwright::studio
