// After the steps: time, cautions, licence; and the maker's own pages.
#include "booklet/edition.h"
#include "booklet/table.h"

#include <algorithm>
#include <cmath>
#include <sstream>

namespace fanwright::booklet {

namespace {

std::string percent(const Language& language, double share) {
  const double value = 100 * share;
  const bool whole = std::abs(value - std::round(value)) < 0.05;
  return language.measure(value, whole ? 0 : 1, "%");
}

/// Amounts in the maker's money; her currency stands before them.
std::string money(const Edition& edition, double amount) {
  const std::string& currency = edition.design().prices.currency;
  return (currency.empty() ? "" : currency + "\u00a0") + edition.language.number(amount, 2);
}

/// Rows of the cost table for up to four sizes beside each other.
Table cost_table(const Edition& edition, const std::vector<const SizeFacts*>& sizes) {
  using enum Message;
  const design::Prices& prices = edition.design().prices;
  Table table{{{edition.say(cost_item), 2.2}}, {}};
  for (const SizeFacts* facts : sizes)
    table.columns.push_back({facts->size->name, 1, drawing::Align::right});
  const auto row = [&](const std::string& name, double making::Cost::*part) {
    table.rows.push_back({name});
    for (const SizeFacts* facts : sizes)
      table.rows.back().push_back(money(edition, (*facts->cost).*part));
  };
  row(edition.say(cost_paper), &making::Cost::paper);
  row(edition.say(cost_glue), &making::Cost::glue);
  if (edition.design().making.glitter)
    row(edition.say(cost_glitter), &making::Cost::glitter);
  if (edition.design().making.sealer)
    row(edition.say(cost_sealer), &making::Cost::sealer);
  row(edition.say(cost_materials, {{"waste", percent(edition.language, prices.waste)}}), &making::Cost::materials);
  table.rows.push_back({edition.say(cost_hours)});
  for (const SizeFacts* facts : sizes)
    table.rows.back().push_back(edition.language.duration(60 * facts->cost->hours));
  row(edition.say(cost_labour, {{"rate", money(edition, prices.hour)}}), &making::Cost::labour);
  row(edition.say(cost_overhead), &making::Cost::overhead);
  for (const auto& [name, part] :
       {std::pair{cost_total, &making::Cost::cost}, std::pair{cost_price, &making::Cost::price}}) {
    table.strong_rows.insert(table.rows.size());
    row(edition.say(name), part);
  }
  row(edition.say(cost_fees), &making::Cost::fees);
  row(edition.say(cost_kept), &making::Cost::kept);
  row(edition.say(cost_wholesale), &making::Cost::wholesale);
  row(edition.say(cost_retail), &making::Cost::retail);
  return table;
}

/// What the whole batch of each size takes.
Table batch_table(const Edition& edition) {
  using enum Message;
  const design::Making& making = edition.design().making;
  Table table{{{edition.say(column_size), 1.4},
               {edition.say(column_sheets), 1, drawing::Align::right},
               {edition.say(column_glue), 1, drawing::Align::right}},
              {}};
  if (making.glitter)
    table.columns.push_back({edition.say(column_glitter), 1, drawing::Align::right});
  if (making.sealer)
    table.columns.push_back({edition.say(column_sealer), 1, drawing::Align::right});
  for (const SizeFacts& facts : edition.contents.sizes) {
    const double times = facts.batch.pieces * (1 + edition.design().prices.waste);
    const double sheets = std::ceil(facts.sheets * times);
    table.rows.push_back({facts.size->name,
                          edition.say(sheets_of, {{"count", static_cast<int>(sheets)},
                                                  {"sheet", sheet_words(edition, facts.size->sheet)}}),
                          grams(edition, facts.materials.glue_g * times)});
    if (making.glitter)
      table.rows.back().push_back(grams(edition, facts.materials.glitter_g * times));
    if (making.sealer)
      table.rows.back().push_back(grams(edition, facts.materials.sealer_g * times));
  }
  return table;
}

} // namespace

Blocks time_blocks(const Edition& edition) {
  const making::Schedule& plan = edition.contents.sizes.front().one_piece;
  Blocks blocks = {section_heading(edition.look, edition.say(Message::heading_time))};
  append(blocks,
         paragraph(edition.look, edition.say(Message::time_hands, {{"hands", plan.hands}, {"presses", plan.presses}}) +
                                     " " + edition.say(Message::time_note)));
  append_kept(blocks, plan_blocks(edition, &SizeFacts::one_piece));
  return blocks;
}

Blocks caution_blocks(const Edition& edition) {
  using enum Message;
  const Look& look = edition.look;
  Blocks blocks = {section_heading(look, edition.say(heading_cautions))};
  append(blocks, paragraph(look, edition.say(cautions_note)));
  std::vector<Message> cautions = {caution_knife, caution_machine, caution_glue, caution_hot_glue,
                                   caution_spray, caution_glitter, caution_fire, caution_children};
  if (edition.design().making.display == design::Display::hangs)
    cautions.push_back(caution_cord);
  cautions.push_back(caution_codes);
  Blocks list;
  for (const Message caution : cautions)
    list.push_back(bullet(look, edition.say(caution)));
  append_list(blocks, std::move(list));
  return blocks;
}

Blocks licence_blocks(const Edition& edition) {
  const design::Publishing& publishing = edition.design().publishing;
  Blocks blocks = {section_heading(edition.look, edition.say(Message::heading_licence))};
  if (publishing.licence.empty())
    append(blocks, paragraph(edition.look, edition.say(Message::licence_none)));
  std::istringstream licence(publishing.licence);
  for (std::string words; std::getline(licence, words);)
    if (!words.empty())
      append(blocks, paragraph(edition.look, words));
  append(blocks, paragraph(edition.look, publishing.version.empty() ? edition.say(Message::licence_measures)
                                                                    : edition.say(Message::licence_predicted,
                                                                                  {{"title", edition.design().title},
                                                                                   {"version", publishing.version}})));
  constexpr std::size_t short_lines = 14; // stays on one page
  return blocks.size() <= short_lines ? kept_together(std::move(blocks)) : blocks;
}

Blocks batch_blocks(const Edition& edition) {
  const Look& look = edition.look;
  const making::Schedule& plan = edition.contents.sizes.front().batch;
  Blocks blocks = {section_heading(look, edition.say(Message::heading_batch))};
  append(blocks,
         paragraph(look, edition.say(Message::batch_note, {{"pieces", plan.pieces}}) + " " +
                             edition.say(Message::time_hands, {{"hands", plan.hands}, {"presses", plan.presses}}) +
                             " " + edition.say(Message::time_note)));
  append_kept(blocks, plan_blocks(edition, &SizeFacts::batch));
  blocks.push_back(
      small_heading(look, edition.say(Message::heading_batch_materials,
                                      {{"waste", percent(edition.language, edition.design().prices.waste)}})));
  append(blocks, table_blocks(look, batch_table(edition), 12));
  return blocks;
}

Blocks cost_blocks(const Edition& edition) {
  constexpr std::size_t beside = 4;
  std::vector<const SizeFacts*> priced;
  for (const SizeFacts& facts : edition.contents.sizes)
    if (facts.cost)
      priced.push_back(&facts);
  if (priced.empty())
    return {};
  const design::Prices& prices = edition.design().prices;
  Blocks blocks = {section_heading(edition.look, edition.say(Message::heading_cost))};
  for (std::size_t first = 0; first < priced.size(); first += beside) {
    const std::size_t last = std::min(priced.size(), first + beside);
    append(blocks, table_blocks(edition.look,
                                cost_table(edition, {priced.begin() + static_cast<std::ptrdiff_t>(first),
                                                     priced.begin() + static_cast<std::ptrdiff_t>(last)}),
                                20));
  }
  append(blocks, paragraph(edition.look,
                           edition.say(Message::cost_note, {{"fixed", money(edition, prices.fee_fixed)},
                                                            {"fees", percent(edition.language, prices.fee_share)},
                                                            {"margin", percent(edition.language, prices.margin)}})));
  return blocks;
}

} // namespace fanwright::booklet
