// What the design file means: schema/ornament.schema.json, with defaults and the sizes of a family resolved.
#include "design/design.h"
#include "design/fan_fields.h"
#include "design/fields.h"
#include "design/json_reader.h"
#include "design/making_fields.h"
#include "design/paper_fields.h"
#include "design/row_fields.h"

#include <algorithm>
#include <cctype>
#include <string>
#include <utility>

namespace fanwright::design {
namespace {

constexpr double inch_mm = 25.4;
constexpr int fewest_leaves = 2, most_leaves = 400;
constexpr std::size_t most_sizes = 12;
constexpr int longest_title = 120;
constexpr std::size_t longest_size_name = 40;
constexpr Range openings{0, 360, "degrees", true};
constexpr Range heights_mm{10, 2000, "mm"};

std::string read_colour(const Field& field) {
  std::string colour = field.is_text() ? field.text() : "";
  const auto hexadecimal = [](unsigned char c) { return std::isxdigit(c) != 0; };
  if (colour.size() != 7 || colour[0] != '#' || !std::all_of(colour.begin() + 1, colour.end(), hexadecimal)) {
    field.refuse_kind("a colour such as \"#c8563c\" (# and six hexadecimal digits)");
  }
  return colour;
}

/// What a size inherits: itself, and the rows as the file gives them.
struct Inherited {
  Size size;
  RowKeys rows;
};

/// The keys that the file's top level and each of its sizes share.
void read_shared(const Section& section, Inherited& read, const Units& units, bool with_colour) {
  Size& size = read.size;
  if (const auto leaves = section.find("leaves")) {
    size.leaves = leaves->whole_number(fewest_leaves, most_leaves);
  }
  if (const auto opening = section.find("opening")) {
    size.opening_deg = opening->number(openings);
  }
  if (const auto rows = section.find("rows")) {
    read.rows = read_rows(*rows, read.rows, units);
    size.rows = rows_of(read.rows);
  }
  if (const auto paper = section.find("paper")) {
    size.paper = read_paper(*paper, size.paper, units, with_colour);
  }
  if (const auto sheet = section.find("sheet")) {
    size.sheet = read_sheet(*sheet, size.sheet, units);
  }
}

std::string read_size_name(const Field& field) {
  const std::string& name = field.text();
  const auto allowed = [](unsigned char c) {
    return c < 0x80 && (std::isalnum(c) != 0 || c == ' ' || c == '-' || c == '_' || c == '.');
  };
  const bool starts_well = !name.empty() && std::isalnum(static_cast<unsigned char>(name.front())) != 0;
  const bool ends_well = !name.empty() && name.back() != ' ' && name.back() != '.';
  if (name.size() > longest_size_name || !starts_well || !ends_well || !std::ranges::all_of(name, allowed)) {
    field.refuse("The size name " + in_quotes(name) +
                 " cannot name a file; use 1 to 40 letters, digits, spaces, - _ and ., starting with a letter or digit "
                 "and not ending in a space or a dot.");
  }
  return name;
}

std::string in_small_letters(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

Size read_size(const Field& field, const Inherited& inherited, const Units& units) {
  const Section section(field, {"name", "height", "leaves", "opening", "rows", "paper", "sheet"});
  Inherited read = inherited;
  Size& size = read.size;
  size.where = section.pointer();
  size.name = read_size_name(section.need("name"));
  if (const auto height = section.find("height")) {
    size.height_mm = height->length_mm(heights_mm, units);
  }
  read_shared(section, read, units, false);
  return size;
}

std::vector<Size> read_sizes(const Field& field, const Inherited& inherited, const Units& units) {
  const std::size_t count = field.list().size();
  if (count < 1 || count > most_sizes) {
    field.refuse("Found " + std::to_string(count) +
                 " in the list, but there must be 1 to 12 sizes; leave \"sizes\" out to make the ornament as drawn.");
  }
  std::vector<Size> sizes;
  for (std::size_t index = 0; index < count; ++index) {
    const Field entry = field.entry(index);
    sizes.push_back(read_size(entry, inherited, units));
    // File systems may take "Small" and "small" for one name.
    const auto same = [name = in_small_letters(sizes.back().name)](const Size& size) {
      return in_small_letters(size.name) == name;
    };
    if (std::ranges::count_if(sizes, same) > 1) {
      throw Refused(pointer_to(entry.pointer, "name"),
                    "The size name " + in_quotes(sizes.back().name) + " is used twice; give each size its own.");
    }
  }
  return sizes;
}

void read_silhouette(const Field& field, Design& design) {
  const Section section(field, {"path", "shows"});
  const Field path = section.need("path");
  design.silhouette_path = path.text();
  if (design.silhouette_path.empty()) {
    path.refuse("The path is empty; give SVG path data from the spine's foot to its top.");
  }
  design.shows = section.need("shows").choice({"opened", "flat"}) == 0 ? Shows::opened : Shows::flat;
}

void read_colours(const Section& top, Design& design) {
  if (const auto colour = top.find("colour")) {
    design.colour = read_colour(*colour);
  }
  const auto paper = top.find("paper");
  const auto* members = paper ? std::get_if<Value::Object>(&paper->value.held) : nullptr;
  const auto colour =
      members != nullptr ? std::ranges::find(*members, "colour", &Member::key) : Value::Object::const_iterator{};
  if (members == nullptr || colour == members->end()) {
    return;
  }
  const Field field{colour->value, pointer_to(paper->pointer, "colour"), in_quotes("colour")};
  if (top.find("colour")) {
    field.refuse("The colour is given both here and at the top of the file; keep one of them.");
  }
  design.colour = read_colour(field);
}

void read_making_and_selling(const Section& top, Design& design, const Units& units) {
  if (const auto making = top.find("making")) {
    design.making = read_making(*making, units);
  }
  if (const auto prices = top.find("prices")) {
    design.prices = read_prices(*prices);
  }
  if (const auto publishing = top.find("publishing")) {
    design.publishing = read_publishing(*publishing);
  }
}

void check_version(const Section& top) {
  const Field version = top.need("fanwright");
  const auto* number = std::get_if<double>(&version.value.held);
  if (number == nullptr || *number != 1) {
    version.refuse_kind("1, the version of the design file that this Fanwright reads");
  }
}

Design read_design(const Value& root) {
  const Section top(Field{root, "", "the design file"},
                    {"$schema", "fanwright", "title", "units", "colour", "silhouette", "leaves", "opening", "rows",
                     "paper", "sizes", "sheet", "fans", "making", "prices", "publishing"});
  check_version(top);
  if (const auto schema = top.find("$schema")) {
    static_cast<void>(schema->text()); // for editors; any text will do
  }
  Design design;
  design.title = "Ornament";
  if (const auto title = top.find("title")) {
    design.title = title->line(1, longest_title);
  }
  Units units;
  if (const auto given = top.find("units"); given && given->choice({"mm", "in"}) == 1) {
    units = {inch_mm, "in"};
  }
  design.units_to_mm = units.to_mm;
  read_silhouette(top.need("silhouette"), design);
  read_making_and_selling(top, design, units);

  Inherited family;
  family.size.name = "as drawn";
  family.size.rows = rows_of(family.rows);
  family.size.paper = paper::typical_paper(paper::Paper{}.grammage_gsm);
  read_shared(top, family, units, true);
  read_colours(top, design);
  if (const auto fans = top.find("fans")) {
    design.fans = read_fans(*fans, family.size.paper, units);
  }
  const auto sizes = top.find("sizes");
  design.sizes = sizes ? read_sizes(*sizes, family, units) : std::vector{family.size};
  return design;
}

} // namespace

std::variant<Design, Refusal> parse(std::string_view text) {
  auto root = read_json(text);
  if (auto* refusal = std::get_if<Refusal>(&root)) {
    return std::move(*refusal);
  }
  try {
    return read_design(std::get<Value>(root));
  } catch (Refused& refused) {
    return std::move(refused.refusal);
  }
}

} // namespace fanwright::design
