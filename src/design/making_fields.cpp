#include "design/making_fields.h"

#include <algorithm>
#include <array>

namespace fanwright::design {
namespace {

// Bounds that catch slips of unit and keep a schedule small enough to be drawn; no real workshop is near them.
constexpr Range dashes_mm{0.5, 50, "mm"};
constexpr Range dash_gaps_mm{0.3, 50, "mm"};
constexpr Range beads_mm{0.1, 5, "mm"};
constexpr Range pressing_min{0, 1440, "minutes"};
constexpr Range last_drying_min{0, 10080, "minutes"};
constexpr int most_presses = 50, most_places = 200, most_hands = 20, most_pieces = 100;
constexpr int longest_glue = 60, longest_currency = 8, longest_maker = 120, longest_version = 20;
constexpr std::size_t most_paragraphs = 20;
constexpr int longest_paragraph = 1000;
constexpr Range amounts{0, 1e6, ""};
constexpr Range shares{0, 1, ""};
/// Fees and margin together; beyond it a price would be more than a hundred times the cost.
constexpr double most_taken = 0.99;
constexpr double share_rounding = 1e-9; ///< 0.94 and 0.05 add up to a hair more than 0.99

constexpr std::array<std::string_view, 2> known_languages = {"en", "de"};

void read_score(const Field& field, Making& making, const Units& units) {
  if (field.is_text()) {
    making.score = field.choice({"line", "dashes"}) == 0 ? ScoreStyle::line : ScoreStyle::dashes;
    return;
  }
  if (!field.is_object()) {
    field.refuse_kind("\"line\", \"dashes\" or an object with dash and gap");
  }
  const Section section(field, {"dash", "gap"});
  making.score = ScoreStyle::dashes;
  making.score_dash_mm = section.need("dash").length_mm(dashes_mm, units);
  making.score_gap_mm = section.need("gap").length_mm(dash_gaps_mm, units);
}

MarkStyle read_marks(const Field& field) {
  constexpr std::array styles = {MarkStyle::printed, MarkStyle::nicks, MarkStyle::none};
  return styles.at(field.choice({"printed", "nicks", "none"}));
}

void read_workshop(const Section& section, Making& making) {
  if (const auto drying = section.find("drying")) {
    making.drying_min = drying->number(pressing_min);
  }
  if (const auto drying = section.find("last_drying")) {
    making.last_drying_min = drying->number(last_drying_min);
  }
  if (const auto presses = section.find("presses")) {
    making.presses = presses->whole_number(1, most_presses);
  }
  if (const auto places = section.find("packets_per_press")) {
    making.packets_per_press = places->whole_number(1, most_places);
  }
  if (const auto hands = section.find("hands")) {
    making.hands = hands->whole_number(1, most_hands);
  }
  if (const auto pieces = section.find("pieces")) {
    making.pieces = pieces->whole_number(1, most_pieces);
  }
}

/// Paragraphs separated by line feeds.
std::string read_licence(const Field& field) {
  if (field.is_text()) {
    return field.line(0, longest_paragraph);
  }
  if (!field.is_list()) {
    field.refuse_kind("text in quotes or a list of paragraphs");
  }
  if (field.list().size() > most_paragraphs) {
    field.refuse("Found " + std::to_string(field.list().size()) +
                 " paragraphs, but a licence may have 20; point to a longer one instead.");
  }
  std::string licence;
  for (std::size_t index = 0; index < field.list().size(); ++index) {
    licence += (index == 0 ? "" : "\n") + field.entry(index).line(1, longest_paragraph);
  }
  return licence;
}

std::vector<std::string> read_languages(const Field& field) {
  const std::size_t count = field.list().size();
  if (count < 1 || count > known_languages.size()) {
    field.refuse("Found " + std::to_string(count) +
                 " in the list, but the booklet needs one or two languages: en, de.");
  }
  std::vector<std::string> languages;
  for (std::size_t index = 0; index < count; ++index) {
    const Field entry = field.entry(index);
    const std::string language(known_languages.at(entry.choice({known_languages[0], known_languages[1]})));
    if (std::ranges::find(languages, language) != languages.end()) {
      entry.refuse("The language " + in_quotes(language) + " is given twice; keep one of them.");
    }
    languages.push_back(language);
  }
  return languages;
}

} // namespace

Making read_making(const Field& field, const Units& units) {
  const Section section(field, {"score", "marks", "cutting", "display", "glue", "bead", "glitter", "sealer", "drying",
                                "last_drying", "presses", "packets_per_press", "hands", "pieces"});
  Making making;
  if (const auto score = section.find("score")) {
    read_score(*score, making, units);
  }
  if (const auto marks = section.find("marks")) {
    making.marks = read_marks(*marks);
  }
  if (const auto cutting = section.find("cutting")) {
    making.cutting = cutting->choice({"by hand", "by machine"}) == 0 ? Cutting::by_hand : Cutting::by_machine;
  }
  if (const auto display = section.find("display")) {
    making.display = display->choice({"stands", "hangs"}) == 0 ? Display::stands : Display::hangs;
  }
  if (const auto glue = section.find("glue")) {
    making.glue = glue->line(1, longest_glue);
  }
  if (const auto bead = section.find("bead")) {
    making.bead_mm = bead->length_mm(beads_mm, units);
  }
  if (const auto glitter = section.find("glitter")) {
    making.glitter = glitter->yes_or_no();
  }
  if (const auto sealer = section.find("sealer")) {
    making.sealer = sealer->yes_or_no();
  }
  read_workshop(section, making);
  return making;
}

Prices read_prices(const Field& field) {
  const Section section(field, {"currency", "sheet", "glue_per_100g", "glitter_per_100g", "sealer_per_100g", "hour",
                                "overhead", "waste", "fee_share", "fee_fixed", "margin"});
  Prices prices;
  const auto read = [&](std::string_view key, double& number, const Range& range) {
    if (const auto given = section.find(key)) {
      number = given->number(range);
    }
  };
  if (const auto currency = section.find("currency")) {
    prices.currency = currency->line(0, longest_currency);
  }
  read("sheet", prices.sheet, amounts);
  read("glue_per_100g", prices.glue_per_100g, amounts);
  read("glitter_per_100g", prices.glitter_per_100g, amounts);
  read("sealer_per_100g", prices.sealer_per_100g, amounts);
  read("hour", prices.hour, amounts);
  read("overhead", prices.overhead, amounts);
  read("waste", prices.waste, shares);
  read("fee_share", prices.fee_share, {0, most_taken, ""});
  read("fee_fixed", prices.fee_fixed, amounts);
  read("margin", prices.margin, {0, most_taken, ""});
  if (prices.fee_share + prices.margin > most_taken + share_rounding) {
    field.refuse(
        "A fee of " + plain(prices.fee_share) + " and a margin of " + plain(prices.margin) +
        " of the price leave nothing of it for the cost; make \"fee_share\" and \"margin\" add up to at most " +
        plain(most_taken) + ".");
  }
  return prices;
}

Publishing read_publishing(const Field& field) {
  const Section section(field, {"maker", "version", "licence", "languages"});
  Publishing publishing;
  if (const auto maker = section.find("maker")) {
    publishing.maker = maker->line(0, longest_maker);
  }
  if (const auto version = section.find("version")) {
    publishing.version = version->line(0, longest_version);
  }
  if (const auto licence = section.find("licence")) {
    publishing.licence = read_licence(*licence);
  }
  if (const auto languages = section.find("languages")) {
    publishing.languages = read_languages(*languages);
  }
  return publishing;
}

} // namespace fanwright::design
