#include "kit/maker_notes.h"

#include "drawing/decimal.h"

#include <algorithm>
#include <array>

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

std::string size_table(const std::vector<DrawnPart>& parts) {
  std::vector<std::vector<std::string>> lines = {
      {"size", "leaves", "leaf, flat (mm)", "paper (g/m2)", "sheets", "opened: high", "across (mm)"}};
  for (const DrawnPart& drawn : parts) {
    const Part& part = drawn.part;
    lines.push_back({one_line(part.size->name), std::to_string(part.size->leaves),
                     decimal(part.width_mm, 0) + " x " + decimal(part.height_mm, 0),
                     decimal(part.size->paper.grammage_gsm, 0),
                     std::to_string(part.plan.sheets) + " x " + part.size->sheet.name, decimal(part.form.height_mm, 0),
                     decimal(part.form.diameter_mm, 0)});
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

std::string needs(const std::vector<DrawnPart>& parts) {
  const bool heavy = std::any_of(parts.begin(), parts.end(),
                                 [](const DrawnPart& d) { return d.part.size->paper.grammage_gsm >= 120; });
  std::string text = wrapped("- ", "paper as in the table, its grain as the arrow on leaf.svg shows");
  text += wrapped("- ", "a sharp knife, a mat and a steel rule, or scissors, or a cutting machine");
  text += wrapped("- ", heavy ? "a blunt point for scoring and a folding bone" : "a folding bone");
  text += wrapped("- ", "paper glue that grabs fast and dries clear, a fine tip or a small brush");
  text += wrapped("- ", "a straight edge to line the spines up against, a board and a weight of 2 to 5 kg");
  text += wrapped("- ", "clips for the last seam");
  return text;
}

/// How packets grow: 46 leaves -> 23 pairs, then packets of 4 ... until all are one.
std::string rounds_of(int leaves) {
  std::string text;
  int packets = leaves, size = 1, rounds = 0;
  while (packets > 1) {
    packets = (packets + 1) / 2;
    size = std::min(leaves, size * 2);
    ++rounds;
    if (rounds > 1)
      text += ", ";
    text += packets == 1 ? "all " + std::to_string(leaves)
                         : std::to_string(packets) + " packets of " + (leaves % size == 0 ? "" : "up to ") +
                               std::to_string(size);
  }
  return std::to_string(rounds) + " rounds: " + text;
}

std::string steps(const std::vector<DrawnPart>& parts) {
  const design::Size& first = *parts.front().part.size;
  const bool closed =
      std::any_of(parts.begin(), parts.end(), [](const DrawnPart& d) { return d.part.size->opening_deg >= 360; });
  std::vector<std::string> list = {
      "Print at 100 %, no scaling. Lay a ruler on the printed ruler: its line must be 100 mm long (or what is printed "
      "beside it). Only then go on.",
      "Cut all leaves along the solid line; holes first, outline last. They are all alike.",
      "Score each leaf along the long-dashed line, the spine, and fold it with the printed face inward. Rub the fold "
      "flat. Sort the leaves, all the same way up.",
      "Inside rows (solid frames, hatched): glue the two halves of each leaf together along these strips. Glue goes on "
      "one half only, thin, and not out to the edge: what squeezes out welds the cells shut. Press, let dry.",
      "Between rows (dashed frames; they lie on the back: hold the leaf against a window to see them, or prick their "
      "corners through): glue leaf to leaf along these strips, on one of the two faces that meet, in pairs, then pairs "
      "to pairs, and so on. Line the spines and the feet up against the straight edge every time. " +
          (parts.size() == 1 ? "For " : "For " + one_line(first.name) + ", ") + std::to_string(first.leaves) +
          " leaves make " + rounds_of(first.leaves) + ".",
      "Press each round under the weight for about 15 minutes before the next; the whole block for an hour or "
      "overnight.",
      "Open it once, gently, right round, and let it close again: every cell must part. Free a stuck one with a "
      "blade's "
      "back."};
  list.push_back(closed ? "Open it fully and close the seam: glue the between rows of the first leaf to those of the "
                          "last, and hold them with clips until dry."
                        : "Open it to the angle of the table in kit.json and fix its first and last leaf to the "
                          "backing.");
  std::string text;
  for (std::size_t i = 0; i < list.size(); ++i)
    text += wrapped(std::to_string(i + 1) + ". ", list[i]);
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
  std::string text = title + "\n" + std::string(length_of(title), '=') + "\n\n";
  text +=
      wrapped("", "An ornament of paper leaves, each folded in half on its spine, glued to each other in alternating "
                  "rows and opened round the spine. The sizes below are computed for the paper named; another paper "
                  "opens a little differently.");
  text += heading("Sizes") + size_table(parts);
  text += heading("What is in the folder") + contents(parts, files);
  text += heading("What you need") + needs(parts);
  text += heading("Steps") + steps(parts);
  text += heading("Take care") + cautions();
  return text;
}

} // namespace fanwright::kit
