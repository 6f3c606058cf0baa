#include "kit/maker_notes.h"

#include "drawing/decimal.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fanwright::kit {

namespace {

using drawing::decimal;

constexpr std::size_t line_length = 78;

/// Number of characters, not bytes, of UTF-8 text.
std::size_t length_of(const std::string& text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

/// Words wrapped at line_length; lines after the first are indented as far as `lead` is long.
std::string wrapped(const std::string& lead, const std::string& words) {
  std::string text, line = lead;
  const std::string indent(length_of(lead), ' ');
  bool fresh = true;
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t end = std::min(words.find(' ', at), words.size());
    const std::string word = words.substr(at, end - at);
    if (!fresh && length_of(line) + 1 + length_of(word) > line_length) {
      text += line + "\n";
      line = indent;
      fresh = true;
    }
    line += (fresh ? "" : " ") + word;
    fresh = false;
    at = end + 1;
  }
  return text + line + "\n";
}

std::string heading(const std::string& words) {
  return "\n" + words + "\n" + std::string(length_of(words), '-') + "\n";
}

std::string one_line(const std::string& words) {
  std::string text;
  for (const char letter : words)
    text += static_cast<unsigned char>(letter) < 0x20 ? ' ' : letter;
  return text;
}

std::string table(const std::vector<std::vector<std::string>>& lines) {
  std::vector<std::size_t> widths(lines.front().size(), 0);
  for (const auto& line : lines)
    for (std::size_t i = 0; i < line.size(); ++i)
      widths[i] = std::max(widths[i], length_of(line[i]));
  std::string text;
  for (const auto& line : lines) {
    for (std::size_t i = 0; i < line.size(); ++i) {
      const std::string padding(widths[i] - length_of(line[i]), ' ');
      text += i == 0 ? line[i] + padding : "   " + padding + line[i];
    }
    text.erase(text.find_last_not_of(' ') + 1);
    text += "\n";
  }
  return text;
}

/// "124 +- 1": a spread of less than a millimetre is said as one.
std::string with_spread(double length_mm, double spread_mm) {
  const std::string length = decimal(length_mm, 0);
  return spread_mm > 0 ? length + " +- " + decimal(std::ceil(spread_mm), 0) : length;
}

std::string size_table(const std::vector<DrawnPart>& parts) {
  std::vector<std::vector<std::string>> lines = {
      {"size", "leaves", "leaf, flat (mm)", "paper (g/m2)", "sheets", "opened: high", "across (mm)"}};
  const bool seated = std::any_of(parts.begin(), parts.end(), [](const DrawnPart& drawn) { return drawn.part.figure; });
  if (seated)
    lines.front().emplace_back("with fans (mm)");
  for (const DrawnPart& drawn : parts) {
    const Part& part = drawn.part;
    lines.push_back({one_line(part.size->name), std::to_string(part.size->leaves),
                     decimal(part.width_mm, 0) + " x " + decimal(part.height_mm, 0),
                     decimal(part.size->paper.grammage_gsm, 0),
                     std::to_string(part.plan.sheets + sheets_in(part.fan_layouts, part.size->paper)) + " x " +
                         part.size->sheet.name,
                     with_spread(part.form.height_mm, part.spread ? part.spread->height_mm : 0),
                     with_spread(part.form.diameter_mm, part.spread ? part.spread->diameter_mm : 0)});
    if (seated)
      lines.back().push_back(
          part.figure ? decimal(part.figure->width_mm, 0) + " x " + decimal(part.figure->height_mm, 0) : "");
  }
  return table(lines);
}

/// The files that lie in `folder`, the kit's own when empty; names aligned, without the folder.
std::string listed(const std::vector<Written>& files, const std::string& folder) {
  const std::string start = folder.empty() ? "" : folder + "/";
  const auto here = [&](const Written& file) {
    return folder.empty() ? file.name.find('/') == std::string::npos : file.name.compare(0, start.size(), start) == 0;
  };
  std::size_t widest = 0;
  for (const Written& file : files)
    if (here(file))
      widest = std::max(widest, length_of(file.name) - start.size());
  std::string text;
  for (const Written& file : files)
    if (here(file)) {
      const std::string name = file.name.substr(start.size());
      text += wrapped((folder.empty() ? "" : "  ") + name + std::string(widest - length_of(name) + 2, ' '), file.about);
    }
  return text;
}

std::string contents(const std::vector<DrawnPart>& parts, const std::vector<Written>& files) {
  std::string text = listed(files, "");
  for (const DrawnPart& drawn : parts) {
    const std::string& folder = drawn.part.folder;
    if (&drawn == &parts.front())
      text += folder + "/\n" + listed(files, folder);
    else
      text += wrapped(folder + "/  ", "the same for this size");
  }
  return text;
}

/// The way from the folder to the first cut; every step is in the booklet, with drawings.
std::string beginning(const std::vector<DrawnPart>& parts) {
  const std::string folder = parts.front().part.folder;
  const std::array<std::string, 4> list = {
      "Read the booklet: it has what you need, every step with drawings, the times and the cautions.",
      "Choose a size and open its folder, such as " + folder + "/.",
      "By hand: print print-A4.pdf or print-letter.pdf at 100 %, no scaling, its first page first. Lay a ruler on the "
      "printed one: it must agree. Or trace the master leaf. With a cutting machine: take the files in cut/.",
      "Make the stencils, so that no glue mark need stand on the paper that shows."};
  std::string text;
  for (std::size_t i = 0; i < list.size(); ++i)
    text += wrapped(std::to_string(i + 1) + ". ", list[i]);
  return text;
}

/// How the halves of leaves that are cut in two become leaves; empty where all are cut whole.
std::string joining(const std::vector<DrawnPart>& parts) {
  std::string sizes;
  double lap_mm = 0;
  for (const DrawnPart& drawn : parts)
    if (drawn.part.halves) {
      sizes += (sizes.empty() ? "" : ", ") + one_line(drawn.part.size->name);
      lap_mm = drawn.part.halves->lap_mm;
    }
  if (sizes.empty())
    return "";
  const std::array<std::string, 4> list = {
      "The sheet does not take these leaves whole: " + sizes +
          ". Their cutting files have right halves with a lap of " + decimal(lap_mm, 0) +
          " mm along the spine, and left halves that end at the spine: one of each for a leaf.",
      "Score each right half along its spine, where the lap begins, the face shown up; do not fold it yet.",
      "Glue the lap on the face shown, where it is marked. Lay the left half on it, its face up too and its "
      "straight edge exactly along the score; press it flat under a board and let it dry.",
      "Now fold along the score, the face shown inward, and go on as with a whole leaf."};
  std::string text;
  for (std::size_t i = 0; i < list.size(); ++i)
    text += wrapped(i == 0 ? "" : std::to_string(i) + ". ", list[i]);
  return text;
}

/// The maker's own words, each paragraph wrapped; what they leave out is not filled in.
std::string licence_of(const design::Publishing& publishing) {
  std::string text;
  for (std::size_t at = 0; at < publishing.licence.size();) {
    const std::size_t end = std::min(publishing.licence.find('\n', at), publishing.licence.size());
    text += wrapped("", one_line(publishing.licence.substr(at, end - at)));
    at = end + 1;
  }
  if (!publishing.version.empty())
    text += wrapped("", "Version " + one_line(publishing.version) + ".");
  return text;
}

std::string cautions() {
  constexpr std::array<const char*, 5> list = {
      "Knives and scoring points are sharp: cut away from your hand, cap the knife, keep it from children.",
      "Glue: read its label, air the room, keep it off skin and eyes.",
      "Paper burns. Keep the ornament away from candles, flames, hot lamps and heaters.",
      "It is a decoration, not a toy: small parts and glued paper are not for small children or pets.",
      "Where you sell it or hang it in a public place, the rules of the place and the labels of your paper and glue go "
      "before anything said here."};
  std::string text;
  for (const char* line : list)
    text += wrapped("- ", line);
  return text;
}

} // namespace

std::string maker_notes(const design::Design& design, const std::vector<DrawnPart>& parts,
                        const std::vector<Written>& files) {
  const std::string title = one_line(design.title);
  std::string text = title + "\n" + std::string(length_of(title), '=') + "\n";
  if (!design.publishing.maker.empty())
    text += one_line(design.publishing.maker) + "\n";
  text += "\n";
  text +=
      wrapped("", "An ornament of paper leaves, each folded in half on its spine, glued to each other in alternating "
                  "rows and opened round the spine. The sizes below are computed for the paper named; another paper "
                  "opens a little differently.");
  text += heading("Sizes") + size_table(parts);
  text += heading("What is in the folder") + contents(parts, files);
  text += heading("How to begin") + beginning(parts);
  if (const std::string halves = joining(parts); !halves.empty())
    text += heading("Leaves in two halves") + halves;
  text += heading("Take care") + cautions();
  if (const std::string licence = licence_of(design.publishing); !licence.empty())
    text += heading("Licence and version") + licence;
  return text;
}

} // namespace fanwright::kit
