#include "mixed_jobs.h"

#include "sheets/chance.h"
#include "sheets/shape.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <stdexcept>

namespace fanwright::bench {
namespace {

using namespace sheets;
using std::numbers::pi;

constexpr int leaves = 45, shapes = 8, points_a_half = 56;

/// Half a leaf one high: how far the outline is from the spine at heights 0..1. `a` and `b` vary it, each 0..1.
using HalfWidth = double (*)(double z, double a, double b);

double bump(double z, double at, double width) { return std::exp(-std::pow((z - at) / width, 2)); }
double rounded(double z) { return std::sqrt(std::max(0.0, 4 * z * (1 - z))); }

double pear(double z, double a, double b) {
  return rounded(z) * (0.18 + 0.04 * b + (0.2 + 0.06 * a) * bump(z, 0.3, 0.25 + 0.05 * b));
}
double apple(double z, double a, double b) { return rounded(z) * (0.5 + 0.06 * a - (0.05 + 0.1 * b) * z); }
double beehive(double z, double a, double b) {
  const double dome = (0.42 + 0.1 * a) * std::pow(std::max(0.0, 1 - std::pow(z, 2.4)), 0.6);
  return dome * (1 + (0.03 + 0.03 * b) * std::cos(12 * pi * z));
}
double cypress(double z, double a, double b) {
  return (0.14 + 0.08 * a) * std::pow(std::sin(pi * std::pow(z, 0.62 + 0.1 * b)), 0.8);
}
double moth(double z, double a, double b) {
  return 0.05 + (0.42 + 0.12 * a) * bump(z, 0.72, 0.16) + (0.28 + 0.1 * b) * bump(z, 0.25, 0.14);
}
double bell(double z, double a, double b) {
  return rounded(0.5 + 0.5 * z) * (0.24 + 0.05 * a) + (0.16 + 0.1 * b) * bump(z, 0, 0.22);
}
double acorn(double z, double a, double b) {
  const double nut = (0.3 + 0.06 * a) * std::sqrt(std::clamp(z / 0.55, 0.0, 1.0));
  return z < 0.58 ? nut : (0.38 + 0.08 * b) * std::sqrt(std::max(0.0, 1 - std::pow((z - 0.58) / 0.42, 2)));
}
double lantern(double z, double a, double b) {
  return std::min({0.16 + (0.5 + 0.4 * a) * z, 0.34 + 0.1 * b, 0.14 + (0.5 + 0.4 * b) * (1 - z)});
}
double quince(double z, double a, double b) {
  return rounded(z) * (0.34 + 0.08 * a + (0.05 + 0.03 * b) * std::sin(5 * pi * z));
}
double vase(double z, double a, double b) {
  return 0.16 + 0.04 * b + (0.2 + 0.1 * a) * bump(z, 0.36, 0.2) + (0.1 + 0.06 * b) * bump(z, 1, 0.14);
}

struct Family {
  const char* name;
  HalfWidth half_width;
};
constexpr std::array<Family, 10> families = {{{"pear", pear},
                                              {"apple", apple},
                                              {"beehive", beehive},
                                              {"cypress", cypress},
                                              {"moth", moth},
                                              {"bell", bell},
                                              {"acorn", acorn},
                                              {"lantern", lantern},
                                              {"quince", quince},
                                              {"vase", vase}}};

leaf::Ring leaf_of(const Family& family, double height, double a, double b) {
  leaf::Ring right;
  for (int i = 0; i <= points_a_half; ++i) {
    const double z = 0.5 - 0.5 * std::cos(pi * i / points_a_half);
    right.push_back({height * std::max(0.004, family.half_width(z, a, b)), height * z});
  }
  leaf::Ring ring = right;
  for (auto point = right.rbegin(); point != right.rend(); ++point)
    ring.push_back({-point->x, point->z});
  return ring;
}

double area_of(const leaf::Ring& ring) { return area_mm2(shape_of(ring)); }

void scale(leaf::Ring& ring, double factor) {
  for (leaf::Point& point : ring)
    point = {point.x * factor, point.z * factor};
}

} // namespace

Job mixed_job(std::uint64_t seed) {
  Chance chance(seed * 7919 + 13);
  constexpr std::array<const char*, 4> sizes = {"A4", "A3", "12x12in", "letter"};
  const char* name = sizes[chance.below(sizes.size())];
  const double margin = chance.between(4, 8), gap = chance.between(1, 3);
  Job job{{}, {{{name, *paper::sheet_size(name), margin, gap}, false, 0, {}}}};
  double covered = 0;
  for (int i = 0; i < shapes; ++i) {
    const Family& family = families[chance.below(families.size())];
    const double height = chance.between(60, 140);
    job.kinds.push_back({std::string(family.name) + " " + std::to_string(i + 1),
                         leaf_of(family, height, chance.share(), chance.share()),
                         {},
                         leaves / shapes});
  }
  for (int left = leaves % shapes; left > 0; --left)
    ++job.kinds[chance.below(job.kinds.size())].count;
  for (const Kind& kind : job.kinds)
    covered += kind.count * area_of(kind.outline);
  const Sheet& sheet = job.stocks[0].sheet;
  const double wanted = chance.between(1.4, 2.1) * sheet.size.width_mm * sheet.size.height_mm;
  for (Kind& kind : job.kinds)
    scale(kind.outline, std::sqrt(wanted / covered));
  return job;
}

std::string job_json(const Job& job) {
  const Sheet& sheet = job.stocks.at(0).sheet;
  nlohmann::json json;
  json["sheet"] = {{"width_mm", sheet.size.width_mm},
                   {"height_mm", sheet.size.height_mm},
                   {"margin_mm", sheet.margin_mm},
                   {"gap_mm", sheet.gap_mm}};
  for (const Kind& kind : job.kinds) {
    nlohmann::json outline = nlohmann::json::array();
    for (const leaf::Point& point : kind.outline)
      outline.push_back({point.x, point.z});
    json["kinds"].push_back({{"name", kind.name}, {"count", kind.count}, {"outline", outline}});
  }
  return json.dump();
}

Job job_from_json(const std::string& text) {
  const nlohmann::json json = nlohmann::json::parse(text);
  const nlohmann::json& sheet = json.at("sheet");
  Job job{{},
          {{{"sheet", {sheet.at("width_mm"), sheet.at("height_mm")}, sheet.at("margin_mm"), sheet.at("gap_mm")},
            false,
            0,
            {}}}};
  for (const auto& kind : json.at("kinds")) {
    leaf::Ring outline;
    for (const auto& point : kind.at("outline"))
      outline.push_back({point.at(0).get<double>(), point.at(1).get<double>()});
    job.kinds.push_back({kind.at("name"), outline, {}, kind.at("count")});
  }
  return job;
}

} // namespace fanwright::bench
