// Before the first cut: how the ornament works, what is needed, the sizes, the files.
#include "booklet/edition.h"
#include "booklet/step_block.h"
#include "booklet/table.h"

#include <algorithm>
#include <limits>
#include <set>

namespace fanwright::booklet {

namespace {

using drawing::Align;

bool closes(const SizeFacts& facts) { return facts.size->opening_deg >= 360; }

std::string angle_words(const Edition& edition, const SizeFacts& facts) {
  return edition.language.number(facts.size->opening_deg) + "°";
}

std::string paper_words(const Edition& edition, const paper::Paper& paper) {
  return edition.say(Message::paper_and_caliper, {{"grammage", edition.language.measure(paper.grammage_gsm, 0, "g/m²")},
                                                  {"caliper", edition.language.measure(paper.caliper_mm, 2, "mm")}});
}

Table amounts_table(const Edition& edition) {
  const design::Making& making = edition.design().making;
  Table table{{{edition.say(Message::column_size), 1.1},
               {edition.say(Message::column_paper), 2.2},
               {edition.say(Message::column_sheets), 1.0},
               {edition.say(Message::column_leaves), 0.8, Align::right},
               {edition.say(Message::column_rows), 1.9},
               {edition.say(Message::column_glue), 0.8, Align::right}},
              {}};
  if (making.glitter)
    table.columns.push_back({edition.say(Message::column_glitter), 0.8, Align::right});
  if (making.sealer)
    table.columns.push_back({edition.say(Message::column_sealer), 0.8, Align::right});
  for (const SizeFacts& facts : edition.contents.sizes) {
    table.rows.push_back(
        {facts.size->name, paper_words(edition, facts.size->paper),
         edition.say(Message::sheets_of, {{"count", facts.sheets}, {"sheet", sheet_words(edition, facts.size->sheet)}}),
         std::to_string(facts.size->leaves),
         edition.say(Message::row_counts, {{"inside", rows_on(*facts.leaf, design::Side::inside)},
                                           {"between", rows_on(*facts.leaf, design::Side::between)}}),
         grams(edition, facts.materials.glue_g)});
    if (making.glitter)
      table.rows.back().push_back(grams(edition, facts.materials.glitter_g));
    if (making.sealer)
      table.rows.back().push_back(grams(edition, facts.materials.sealer_g));
  }
  return table;
}

std::vector<std::string> tools(const Edition& edition) {
  const design::Making& making = edition.design().making;
  const std::vector<SizeFacts>& sizes = edition.contents.sizes;
  const bool seam = std::any_of(sizes.begin(), sizes.end(), closes);
  const bool backing = !std::all_of(sizes.begin(), sizes.end(), closes);
  std::vector<std::string> list;
  const auto add = [&](Message message, const Values& values = {}) { list.push_back(edition.say(message, values)); };
  add(Message::tool_knife);
  if (making.cutting == design::Cutting::by_machine)
    add(Message::tool_machine);
  for (const Message message :
       {Message::tool_score, Message::tool_folder, Message::tool_card, Message::tool_glue, Message::tool_straight_edge})
    add(message);
  add(Message::tool_weights, {{"presses", making.presses}});
  add(Message::tool_parting_sheets);
  if (seam)
    add(Message::tool_clips, {{"clips", for_each_size(edition, [&](const SizeFacts& facts) {
                                 return edition.say(Message::clip_count, {{"count", facts.materials.clips}});
                               })}});
  add(Message::tool_freeing);
  if (backing)
    add(Message::tool_backing);
  add(making.display == design::Display::hangs ? Message::tool_thread : Message::tool_disc);
  if (making.glitter)
    add(Message::tool_glitter);
  if (making.sealer)
    add(Message::tool_sealer);
  return list;
}

/// Least distance of neighbouring rows on the leaf, at their outer ends, mm.
double least_pitch_mm(const leaf::Leaf& leaf) {
  double pitch = std::numeric_limits<double>::infinity();
  for (std::size_t i = 1; i < leaf.rows.size(); ++i)
    pitch = std::min(pitch, leaf.rows[i].to.z - leaf.rows[i - 1].to.z);
  return pitch;
}

/// How hard a size is: a point each for long work, very long work, rows close to each other and cut-outs (common
/// practice, no source).
Message difficulty(const SizeFacts& facts) {
  constexpr double long_min = 150, very_long_min = 300, close_rows_mm = 9;
  const int points = int{facts.one_piece.hands_on_min > long_min} + int{facts.one_piece.hands_on_min > very_long_min} +
                     int{least_pitch_mm(*facts.leaf) < close_rows_mm} + int{!facts.leaf->cut_outs.empty()};
  return points == 0   ? Message::difficulty_easy
         : points == 1 ? Message::difficulty_medium
                       : Message::difficulty_demanding;
}

Message purpose_of(FileKind kind) {
  switch (kind) {
  case FileKind::booklet:
    return Message::file_booklet;
  case FileKind::print_sheets:
    return Message::file_print_sheets;
  case FileKind::cutting_svg:
    return Message::file_cutting_svg;
  case FileKind::cutting_dxf:
    return Message::file_cutting_dxf;
  case FileKind::fan_print:
    return Message::file_fan_print;
  case FileKind::stencil:
    return Message::file_stencil;
  case FileKind::master_leaf:
    return Message::file_master_leaf;
  case FileKind::picture:
    return Message::file_picture;
  case FileKind::mesh:
    return Message::file_mesh;
  case FileKind::numbers:
    return Message::file_numbers;
  case FileKind::readme:
    return Message::file_readme;
  }
  return Message::file_readme;
}

} // namespace

Blocks idea_blocks(const Edition& edition) {
  const Look& look = edition.look;
  Blocks blocks = {section_heading(look, edition.say(Message::heading_idea))};
  append(blocks, paragraph(look, edition.say(Message::idea_leaf)));
  append(blocks, paragraph(look, edition.say(Message::idea_rows)));
  const SizeFacts& shown = edition.contents.sizes.back();
  append(blocks, paragraph(look, closes(shown) ? edition.say(Message::idea_closed_round)
                                               : edition.say(Message::idea_part_round,
                                                             {{"angle", angle_words(edition, shown)}})));
  constexpr double figure_mm = 36;
  blocks.push_back(figure_block(edition, Scene::opening, figure_mm));
  blocks.push_back(small_heading(look, edition.say(Message::heading_words)));
  using enum Message;
  for (const auto& [word, meaning] :
       {std::pair{word_leaf, means_leaf}, std::pair{word_spine, means_spine},
        std::pair{word_inside_row, means_inside_row}, std::pair{word_between_row, means_between_row},
        std::pair{word_stencil, means_stencil}, std::pair{word_packet, means_packet},
        std::pair{word_block, means_block}, std::pair{word_seam, means_seam}, std::pair{word_grain, means_grain},
        std::pair{word_fan, means_fan}})
    if ((word != word_seam || closes(shown)) && (word != word_fan || !edition.design().fans.empty()))
      blocks.push_back(term(look, edition.say(word), edition.say(meaning)));
  return blocks;
}

Blocks needs_blocks(const Edition& edition) {
  const Look& look = edition.look;
  const making::Materials& materials = edition.contents.sizes.back().materials;
  Blocks blocks = {section_heading(look, edition.say(Message::heading_needs)),
                   small_heading(look, edition.say(Message::heading_amounts))};
  append(blocks, table_blocks(look, amounts_table(edition)));
  append(blocks, paragraph(look, edition.say(Message::amounts_note)));
  append(blocks, paragraph(look, edition.say(Message::needs_paper)));
  const std::string grain =
      for_each_size(edition, [&](const SizeFacts& facts) { return edition.say(grain_of(facts.size->paper)); });
  append(blocks, paragraph(look, edition.say(Message::needs_grain) + " " +
                                     edition.say(Message::needs_grain_of_leaves, {{"grain", grain}})));
  append(blocks,
         paragraph(look, edition.say(Message::glue_note,
                                     {{"glue", edition.design().making.glue},
                                      {"bead", edition.language.measure(edition.design().making.bead_mm, 1, "mm")},
                                      {"spread", edition.language.measure(materials.spread_mm, 1, "mm")}})));
  blocks.push_back(small_heading(look, edition.say(Message::heading_tools)));
  Blocks list;
  for (const std::string& tool : tools(edition))
    list.push_back(bullet(look, tool));
  append_list(blocks, std::move(list));
  return blocks;
}

Blocks size_blocks(const Edition& edition) {
  const Language& language = edition.language;
  Table table{{{edition.say(Message::column_size), 1.1},
               {edition.say(Message::column_leaf), 1.4, Align::right},
               {edition.say(Message::column_leaves), 0.8, Align::right},
               {edition.say(Message::column_sheets), 0.8, Align::right},
               {edition.say(Message::column_height), 1.35, Align::right},
               {edition.say(Message::column_diameter), 1.6, Align::right},
               {edition.say(Message::column_hands_on), 1.35, Align::right},
               {edition.say(Message::column_difficulty), 1.25, Align::right}},
              {}};
  const bool seated =
      std::ranges::any_of(edition.contents.sizes, [](const SizeFacts& facts) { return facts.figure.has_value(); });
  if (seated)
    table.columns.push_back({edition.say(Message::column_with_fans), 1.4, Align::right});
  for (const SizeFacts& facts : edition.contents.sizes) {
    table.rows.push_back(
        {facts.size->name,
         language.number(facts.flat_width_mm) + " × " + language.measure(facts.flat_height_mm, 0, "mm"),
         std::to_string(facts.size->leaves), std::to_string(facts.sheets),
         language.with_spread(facts.form->height_mm, facts.height_spread_mm, "mm"),
         language.with_spread(facts.form->diameter_mm, facts.diameter_spread_mm, "mm"),
         language.duration(facts.one_piece.hands_on_min), edition.say(difficulty(facts))});
    if (seated)
      table.rows.back().push_back(facts.figure ? language.number(facts.figure->width_mm) + " × " +
                                                     language.measure(facts.figure->height_mm, 0, "mm")
                                               : std::string());
  }
  Blocks blocks = {section_heading(
      edition.look, edition.say(Message::heading_sizes, {{"count", static_cast<int>(table.rows.size())}}))};
  append(blocks, table_blocks(edition.look, table));
  append_kept(blocks, kept_together(paragraph(edition.look, edition.say(Message::sizes_note))));
  append_kept(blocks, kept_together(paragraph(edition.look, edition.say(Message::hours_note))));
  return blocks;
}

Blocks file_blocks(const Edition& edition) {
  Table table{{{edition.say(Message::column_file), 1.3}, {edition.say(Message::column_purpose), 2.4}}, {}};
  for (const FileNote& file : edition.contents.files)
    table.rows.push_back({file.name, edition.say(purpose_of(file.kind))});
  if (table.rows.empty())
    return {};
  Blocks blocks = {section_heading(edition.look, edition.say(Message::heading_files))};
  append(blocks, table_blocks(edition.look, table));
  return blocks;
}

} // namespace fanwright::booklet
