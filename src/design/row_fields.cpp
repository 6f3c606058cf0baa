#include "design/row_fields.h"

#include <array>
#include <tuple>
#include <utility>

namespace fanwright::design {
namespace {

constexpr int fewest_rows = 2, most_rows = 200;
constexpr Range row_widths_mm{0.2, 100, "mm"};
constexpr Range row_gaps_mm{0, 500, "mm"};
constexpr Range places_mm{-2000, 2000, "mm"};

Side read_side(const Field& field) { return field.choice({"inside", "between"}) == 0 ? Side::inside : Side::between; }

Look read_look(const Field& field) {
  constexpr std::array looks = {Look::open, Look::usual, Look::dense};
  return looks.at(field.choice({"open", "usual", "dense"}));
}

/// A number of rows, or "auto".
void read_count(const Field& field, RowKeys& keys) {
  keys.automatic = field.is_text() && field.text() == "auto";
  if (keys.automatic) {
    keys.count.reset();
    return;
  }
  if (!field.is_number()) {
    field.refuse_kind("a whole number from 2 to 200, or \"auto\"");
  }
  keys.count = field.whole_number(fewest_rows, most_rows);
  keys.look.reset();
}

RowKeys read_generated(const Field& field, const RowKeys& inherited, const Units& units) {
  const Section section(field, {"count", "look", "first", "width", "spine_gap", "edge_gap"});
  RowKeys keys = inherited;
  keys.listed.clear();
  if (const auto count = section.find("count")) {
    read_count(*count, keys);
  }
  if (const auto look = section.find("look")) {
    if (section.find("count") && !keys.automatic) {
      look->refuse("A look is for rows that place themselves, but \"count\" gives their number; keep one of the two, "
                   "or write \"count\": \"auto\".");
    }
    keys.look = read_look(*look);
    keys.automatic = true;
    keys.count.reset();
  }
  if (const auto first = section.find("first")) {
    keys.first = read_side(*first);
  }
  if (const auto width = section.find("width")) {
    keys.width_mm = width->length_mm(row_widths_mm, units);
  }
  if (const auto gap = section.find("spine_gap")) {
    keys.spine_gap_mm = gap->length_mm(row_gaps_mm, units);
  }
  if (const auto gap = section.find("edge_gap")) {
    keys.edge_gap_mm = gap->length_mm(row_gaps_mm, units);
  }
  return keys;
}

std::pair<double, double> read_place(const Field& field, const Units& units) {
  if (!field.is_list() || field.list().size() != 2) {
    field.refuse_kind("a place [x, y], x from the spine and y up from the foot");
  }
  return {field.entry(0).length_mm(places_mm, units), field.entry(1).length_mm(places_mm, units)};
}

ListedRow read_listed_row(const Field& field, const Units& units) {
  const Section section(field, {"side", "from", "to", "width"});
  ListedRow row;
  row.side = read_side(section.need("side"));
  std::tie(row.from_x_mm, row.from_z_mm) = read_place(section.need("from"), units);
  std::tie(row.to_x_mm, row.to_z_mm) = read_place(section.need("to"), units);
  row.width_mm = section.need("width").length_mm(row_widths_mm, units);
  return row;
}

} // namespace

RowKeys read_rows(const Field& field, const RowKeys& inherited, const Units& units) {
  if (field.is_text() && field.text() == "auto") {
    RowKeys keys = inherited;
    keys.listed.clear();
    keys.automatic = true;
    keys.count.reset();
    return keys;
  }
  if (field.is_object()) {
    return read_generated(field, inherited, units);
  }
  if (!field.is_list()) {
    field.refuse_kind("\"auto\", an object that generates the rows, or a list of rows");
  }
  const std::size_t count = field.list().size();
  if (count < fewest_rows || count > most_rows) {
    field.refuse("Found " + std::to_string(count) + " in the list, but there must be 2 to 200 rows.");
  }
  RowKeys keys;
  for (std::size_t index = 0; index < count; ++index) {
    keys.listed.push_back(read_listed_row(field.entry(index), units));
  }
  return keys;
}

Rows rows_of(const RowKeys& keys) {
  if (!keys.listed.empty()) {
    return keys.listed;
  }
  if (keys.automatic) {
    return AutoRows{keys.look.value_or(Look::usual), keys.first.value_or(Side::inside), keys.width_mm,
                    keys.spine_gap_mm, keys.edge_gap_mm};
  }
  const EvenRows usual;
  return EvenRows{keys.count.value_or(usual.count), keys.first.value_or(usual.first),
                  keys.width_mm.value_or(usual.width_mm), keys.spine_gap_mm.value_or(usual.spine_gap_mm),
                  keys.edge_gap_mm.value_or(usual.edge_gap_mm)};
}

} // namespace fanwright::design
