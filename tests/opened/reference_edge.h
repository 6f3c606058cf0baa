// Opened outer edges that an independent general finite-element solver found: tests/opened/cases/README.md.
#pragma once

#include "opened/opened.h"

#include <string>

namespace fanwright::opened {

/// The panel of the case called `name`.
Panel case_panel(const std::string& name);

/// Largest distance of the form's edge from the case's, heights compared after a common shift, mm; negative when the
/// case's edge cannot be read.
double distance_from_reference(const std::string& name, const Form& form);

} // namespace fanwright::opened
