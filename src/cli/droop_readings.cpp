#include "cli/droop_readings.h"

#include "paper/paper.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <exception>
#include <string_view>
#include <utility>

namespace fanwright::cli {
namespace {

constexpr double inch_mm = 25.4;
constexpr double stack_reading_mm = 0.1; // slide caliper and the pressure of a hand; common practice, no source
constexpr double scale_reading_g = 1;    // kitchen scale; common practice, no source
constexpr std::size_t most_readings = 12;
constexpr double least_grammage = 20, most_grammage = 600;       // g/m2, as in a design file
constexpr double least_caliper_mm = 0.02, most_caliper_mm = 1.5; // as in a design file

/// Carries a sentence out of the nested readers.
class Refused : public std::exception {
public:
  explicit Refused(std::string text) : sentence(std::move(text)) {}
  std::string sentence;
};

std::vector<std::string> parts_of(const std::string& text) {
  std::vector<std::string> parts(1);
  for (const char letter : text) {
    if (letter == ':')
      parts.emplace_back();
    else
      parts.back() += letter;
  }
  return parts;
}

/// The number at the front of `text`, written with a point or a comma, and what follows it.
std::optional<std::pair<double, std::string>> number_and_rest(std::string text) {
  if (std::ranges::count(text, ',') == 1 && text.find('.') == std::string::npos)
    *std::ranges::find(text, ',') = '.';
  double number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || !std::isfinite(number))
    return std::nullopt;
  std::string rest = text.substr(static_cast<std::size_t>(end - text.data()));
  rest.erase(0, rest.find_first_not_of(' '));
  return std::pair(number, rest);
}

double plain_number(const std::string& option, const std::string& text) {
  const auto read = number_and_rest(text);
  if (!read || !read->second.empty())
    throw Refused(fmt::format("{}: \"{}\" is not a number; write it like 160 or 67.8.", option, text));
  return read->first;
}

double length_mm(const std::string& option, const std::string& text, const std::string& units) {
  const auto read = number_and_rest(text);
  const std::string unit = read && !read->second.empty() ? read->second : units;
  if (!read || (unit != "mm" && unit != "cm" && unit != "in"))
    throw Refused(fmt::format("{}: \"{}\" is not a length; write it like 67.8, 6.78cm or 2.67in.", option, text));
  return read->first * (unit == "in" ? inch_mm : unit == "cm" ? 10 : 1);
}

int sheet_count(const std::string& option, const std::string& text) {
  const double count = plain_number(option, text);
  if (!(count >= 1 && count <= 1000) || count != std::floor(count))
    throw Refused(fmt::format("{}: The number of sheets is a whole number from 1 to 1000, not {}.", option, text));
  return static_cast<int>(count);
}

/// Area of a sheet in m2, by its trade name or as WIDTHxHEIGHT.
double sheet_area(const std::string& text, const std::string& units) {
  if (const auto named = paper::sheet_size(text))
    return named->width_mm * named->height_mm * 1e-6;
  const std::size_t cross = text.find('x');
  if (cross == std::string::npos)
    throw Refused(
        fmt::format("--weigh: The sheet \"{}\" is not known; give its name (A0 to A6, B0 to B6, letter, legal, "
                    "tabloid, 12x12in) or its size, like 210x297.",
                    text));
  const double width = length_mm("--weigh", text.substr(0, cross), units);
  const double height = length_mm("--weigh", text.substr(cross + 1), units);
  if (!(std::min(width, height) >= 20 && std::max(width, height) <= 2000))
    throw Refused(fmt::format("--weigh: A sheet of {} is not 20 to 2000 mm each way; give width and height, like "
                              "210x297.",
                              text));
  return width * height * 1e-6;
}

void read_weighing(const DroopRequest& request, DroopInput& input) {
  const auto parts = parts_of(request.weigh);
  if (parts.size() != 2 && parts.size() != 3)
    throw Refused(fmt::format("--weigh: \"{}\" is not MASS:SHEET:COUNT; for ten sheets of A4 that weigh 50 g write "
                              "50:A4:10.",
                              request.weigh));
  const double mass_g = plain_number("--weigh", parts[0]);
  const int sheets = parts.size() == 3 ? sheet_count("--weigh", parts[2]) : 1;
  input.grammage_gsm = mass_g / (sheet_area(parts[1], request.units) * sheets);
  input.errors.grammage_share = scale_reading_g / mass_g;
  input.weighed = true;
}

void read_grammage(const DroopRequest& request, DroopInput& input) {
  if (request.grammage.empty() == request.weigh.empty())
    throw Refused(request.grammage.empty()
                      ? "The weight of the paper is missing; give --grammage (g/m2, from its label) or --weigh."
                      : "Both --grammage and --weigh are given; keep the one you trust more.");
  if (request.weigh.empty())
    input.grammage_gsm = plain_number("--grammage", request.grammage);
  else
    read_weighing(request, input);
  if (!(input.grammage_gsm >= least_grammage && input.grammage_gsm <= most_grammage))
    throw Refused(fmt::format(
        "{}: {:.4g} g/m2 is not 20 to 600; check {}.", input.weighed ? "--weigh" : "--grammage", input.grammage_gsm,
        input.weighed ? "grams, sheet and number of sheets" : "the label (g/m2, also called gsm)"));
}

void read_stack(const DroopRequest& request, DroopInput& input) {
  if (request.stack.empty())
    return;
  const Stack stack{length_mm("--stack", request.stack, request.units), sheet_count("--sheets", request.sheets)};
  if (!(stack.caliper_mm() >= least_caliper_mm && stack.caliper_mm() <= most_caliper_mm))
    throw Refused(
        fmt::format("--stack: {} sheets in {:.4g} mm make one sheet {:.4g} mm thick, and paper is 0.02 to 1.5 "
                    "mm; check the height and --sheets.",
                    stack.sheets, stack.height_mm, stack.caliper_mm()));
  input.stack = stack;
}

paper::DroopReading reading_of(const std::string& option, const std::string& text, const std::string& units) {
  const auto parts = parts_of(text);
  if (parts.size() != 2)
    throw Refused(
        fmt::format("{}: \"{}\" is not OVERHANG:DROP; for 200 mm over the edge and a tip 68 mm below the table "
                    "write 200:68, or 200:20deg for the angle.",
                    option, text));
  paper::DroopReading reading{.overhang_mm = length_mm(option, parts[0], units)};
  const auto angle = number_and_rest(parts[1]);
  if (angle && angle->second == "deg") {
    reading.read = paper::DroopReading::Read::chord;
    reading.value = angle->first;
  } else {
    reading.value = length_mm(option, parts[1], units);
  }
  return reading;
}

std::vector<paper::DroopReading> readings_of(const std::string& option, const std::vector<std::string>& texts,
                                             const std::string& units) {
  if (texts.size() > most_readings)
    throw Refused(fmt::format("{}: {} readings are more than the {} that are taken; four are enough.", option,
                              texts.size(), most_readings));
  std::vector<paper::DroopReading> readings;
  readings.reserve(texts.size());
  for (const std::string& text : texts)
    readings.push_back(reading_of(option, text, units));
  return readings;
}

DroopInput read_all(const DroopRequest& request) {
  DroopInput input;
  if (!request.ruler.empty())
    input.errors.ruler_mm = length_mm("--ruler", request.ruler, request.units);
  if (!(input.errors.ruler_mm >= 0.05 && input.errors.ruler_mm <= 10))
    throw Refused(fmt::format("--ruler: A ruler is read to 0.05 to 10 mm, not {}.", request.ruler));
  read_grammage(request, input);
  read_stack(request, input);
  input.along = readings_of("--along", request.along, request.units);
  input.across = readings_of("--across", request.across, request.units);
  if (input.along.empty() && input.across.empty())
    throw Refused("No reading is given; hang a strip over a table's edge and give --along OVERHANG:DROP, like 200:68.");
  return input;
}

} // namespace

double Stack::uncertainty() const { return stack_reading_mm / height_mm; }

std::variant<DroopInput, std::string> droop_input(const DroopRequest& request) {
  try {
    return read_all(request);
  } catch (const Refused& refused) {
    return refused.sentence;
  }
}

} // namespace fanwright::cli
