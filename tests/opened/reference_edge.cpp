#include "opened/reference_edge.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <vector>

namespace fanwright::opened {
namespace {

struct ReferencePoint {
  leaf::Point flat;
  double radius, height;
};

std::string file_of(const std::string& name, const char* ending) {
  return std::string(FANWRIGHT_SOURCE_DIR) + "/tests/opened/cases/" + name + ending;
}

std::vector<ReferencePoint> reference_edge(const std::string& name) {
  std::ifstream file(file_of(name, ".csv"));
  std::string line;
  std::getline(file, line);
  std::vector<ReferencePoint> edge;
  while (std::getline(file, line)) {
    std::replace(line.begin(), line.end(), ',', ' ');
    std::istringstream words(line);
    double x, z, px, py, pz, rho, azimuth, zeta;
    words >> x >> z >> px >> py >> pz >> rho >> azimuth >> zeta;
    edge.push_back({{x, z}, rho, zeta});
  }
  return edge;
}

/// Our opened edge at a flat place, by straight lines between the reported points.
EdgePoint at(const std::vector<EdgePoint>& edge, leaf::Point flat) {
  EdgePoint best;
  double least = 1e300;
  for (std::size_t k = 0; k + 1 < edge.size(); ++k) {
    const EdgePoint& a = edge[k];
    const EdgePoint& b = edge[k + 1];
    const double dx = b.x - a.x;
    const double dz = b.z - a.z;
    const double t = std::clamp(((flat.x - a.x) * dx + (flat.z - a.z) * dz) / (dx * dx + dz * dz), 0.0, 1.0);
    const double away = std::hypot(a.x + t * dx - flat.x, a.z + t * dz - flat.z);
    if (away < least) {
      least = away;
      best = {flat.x, flat.z, a.radius + t * (b.radius - a.radius), a.height + t * (b.height - a.height)};
    }
  }
  return best;
}

} // namespace

Panel case_panel(const std::string& name) {
  const auto file = nlohmann::json::parse(std::ifstream(file_of(name, ".json")));
  Panel panel;
  const double modulus = file.at("E");
  const double poisson = file.at("nu");
  panel.sheet = {file.at("thickness"), modulus, modulus, poisson, modulus / (2 * (1 + poisson))};
  panel.leaves = file.at("leaves");
  panel.opening_deg = file.at("opening_deg");
  for (const auto& point : file.at("outline")) {
    panel.outline.push_back({point.at(0), point.at(1)});
  }
  for (const auto& glue : file.at("glue")) {
    const bool inside = glue.at("side") == "A";
    panel.rows.push_back({inside ? design::Side::inside : design::Side::between,
                          {glue.at("x0"), glue.at("z")},
                          {glue.at("x1"), glue.at("z")},
                          glue.at("width")});
  }
  return panel;
}

double distance_from_reference(const std::string& name, const Form& form) {
  const std::vector<ReferencePoint> reference = reference_edge(name);
  double shift = 0;
  for (const ReferencePoint& point : reference) {
    shift += (point.height - at(form.edge, point.flat).height) / static_cast<double>(reference.size());
  }
  double worst = -1;
  for (const ReferencePoint& point : reference) {
    const EdgePoint ours = at(form.edge, point.flat);
    worst = std::max(worst, std::hypot(ours.radius - point.radius, ours.height + shift - point.height));
  }
  return worst;
}

} // namespace fanwright::opened
