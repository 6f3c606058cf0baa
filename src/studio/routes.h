// Which address does what.
#pragma once

#include "studio/guard.h"
#include "studio/http.h"
#include "studio/jobs.h"
#include "studio/listeners.h"
#include "studio/open_designs.h"

#include <optional>
#include <string>
#include <vector>

namespace fanwright::studio {

class Routes {
public:
  Routes(OpenDesigns& designs, Listeners& listeners, Jobs& jobs)
      : designs_(designs), listeners_(listeners), jobs_(jobs) {}

  Door door;                        ///< set before the first request
  std::optional<std::string> first; ///< id of the design that was named at the start

  /// Answers every request; refuses first what the guard refuses.
  Reply answer(const Request& request);

private:
  Reply api(const Request& request, const std::vector<std::string>& parts);
  Reply events(const std::string& id);
  Reply bench();
  Reply open(const Request& request);
  Reply of_design(const Request& request, const std::string& id, const std::string& what);
  Reply shape(const Request& request, const std::string& id);
  Reply mesh(const Request& request, const std::string& id, bool of_fans);
  Reply make(const Request& request, const std::string& id, const std::string& what);
  Reply job(const Request& request, const std::vector<std::string>& parts);

  OpenDesigns& designs_;
  Listeners& listeners_;
  Jobs& jobs_;
};

} // namespace fanwright::studio
