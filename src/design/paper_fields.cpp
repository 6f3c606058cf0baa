#include "design/paper_fields.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace fanwright::design {
namespace {

// Thinner than tissue and thicker than mount board are mistakes of unit, and so are moduli outside tissue to metal
// foil.
constexpr Range grammages{20, 600, "g/m2"};
constexpr Range calipers_mm{0.02, 1.5, "mm"};
constexpr Range moduli{50, 30000, "MPa"};
constexpr Range stiffnesses{0, 10000, "mN m", true};
constexpr Range poissons{0, 0.49, ""};
constexpr Range sheet_sides_mm{20, 2000, "mm"};
constexpr Range sheet_margins_mm{0, 100, "mm"};

/// A value along and across the grain.
std::pair<double, double> read_both_ways(const Field& field, const Range& range) {
  const Section section(field, {"along", "across"});
  return {section.need("along").number(range), section.need("across").number(range)};
}

double modulus_of(const Field& field, double stiffness_mnm, double caliper_mm) {
  const double modulus = paper::modulus_from_stiffness(stiffness_mnm, caliper_mm);
  if (!(modulus >= moduli.low && modulus <= moduli.high)) {
    field.refuse("A stiffness of " + plain(stiffness_mnm) + " mN m at a caliper of " + plain(caliper_mm) +
                 " mm means a modulus of " + plain(modulus) +
                 " MPa, and paper has 50 to 30000; check stiffness (mN m) and caliper.");
  }
  return modulus;
}

void read_elasticity(const Section& section, paper::Paper& paper) {
  const auto stiffness = section.find("stiffness");
  const auto modulus = section.find("modulus");
  if (stiffness && modulus) {
    modulus->refuse("Both \"stiffness\" and \"modulus\" are given; keep the one that was measured.");
  }
  if (stiffness) {
    const auto [along, across] = read_both_ways(*stiffness, stiffnesses);
    paper.modulus_along_mpa = modulus_of(*stiffness, along, paper.caliper_mm);
    paper.modulus_across_mpa = modulus_of(*stiffness, across, paper.caliper_mm);
  }
  if (modulus) {
    if (!modulus->is_object() && !modulus->is_number()) {
      modulus->refuse_kind("a number from 50 to 30000 MPa or an object with along and across");
    }
    std::tie(paper.modulus_along_mpa, paper.modulus_across_mpa) =
        modulus->is_object() ? read_both_ways(*modulus, moduli)
                             : std::pair(modulus->number(moduli), modulus->number(moduli));
  }
  if (const auto poisson = section.find("poisson")) {
    paper.poisson = poisson->number(poissons);
  }
}

constexpr const char* known_sheets = "A0 to A6, B0 to B6, letter, legal, tabloid, 12x12in";

void read_sheet_size(const Field& field, Sheet& sheet, const Units& units) {
  if (field.is_text()) {
    const auto size = paper::sheet_size(field.text());
    if (!size) {
      field.refuse("The sheet " + in_quotes(field.text()) + " is not known; known are " + known_sheets +
                   ", or give {\"width\", \"height\"}.");
    }
    sheet.name = field.text();
    sheet.size = *size;
    return;
  }
  if (!field.is_object()) {
    field.refuse_kind(std::string("a sheet's name (") + known_sheets + ") or an object with width and height");
  }
  const Section section(field, {"width", "height"});
  const auto [narrow, wide] = std::minmax({section.need("width").length_mm(sheet_sides_mm, units),
                                           section.need("height").length_mm(sheet_sides_mm, units)});
  sheet.name = "custom";
  sheet.size = {narrow, wide};
}

} // namespace

paper::Paper read_paper(const Field& field, const paper::Paper& inherited, const Units& units, bool with_colour) {
  const Section section =
      with_colour
          ? Section(field, {"grammage", "caliper", "stiffness", "modulus", "poisson", "grain", "core", "colour"})
          : Section(field, {"grammage", "caliper", "stiffness", "modulus", "poisson", "grain", "core"});
  paper::Paper paper = inherited;
  if (const auto grammage = section.find("grammage")) {
    paper = paper::typical_paper(grammage->number(grammages));
    paper.grain = inherited.grain;
    paper.core = inherited.core;
  }
  if (const auto caliper = section.find("caliper")) {
    paper.caliper_mm = caliper->length_mm(calipers_mm, units);
  }
  read_elasticity(section, paper);
  if (const auto grain = section.find("grain")) {
    paper.grain =
        grain->choice({"along spine", "across spine"}) == 0 ? paper::Grain::along_spine : paper::Grain::across_spine;
  }
  if (const auto core = section.find("core")) {
    paper.core = core->choice({"dyed", "white"}) == 0 ? paper::Core::dyed : paper::Core::white;
  }
  return paper;
}

Sheet read_sheet(const Field& field, const Sheet& inherited, const Units& units) {
  const Section section(field, {"size", "margin", "gap"});
  Sheet sheet = inherited;
  if (const auto size = section.find("size")) {
    read_sheet_size(*size, sheet, units);
  }
  if (const auto margin = section.find("margin")) {
    sheet.margin_mm = margin->length_mm(sheet_margins_mm, units);
  }
  if (const auto gap = section.find("gap")) {
    sheet.gap_mm = gap->length_mm(sheet_margins_mm, units);
  }
  if (2 * sheet.margin_mm >= sheet.size.width_mm) {
    field.refuse("Two margins of " + plain(sheet.margin_mm) + " mm leave nothing of a sheet " +
                 plain(sheet.size.width_mm) + " mm wide; make the margin smaller.");
  }
  return sheet;
}

} // namespace fanwright::design
