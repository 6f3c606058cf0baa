// What is glued in each round, for each size.
#include "booklet/edition.h"
#include "booklet/table.h"

#include <algorithm>
#include <map>

namespace fanwright::booklet {

namespace {

std::vector<making::Packet> singles(int leaves) {
  std::vector<making::Packet> packets;
  packets.reserve(static_cast<std::size_t>(leaves));
  for (int leaf = 0; leaf < leaves; ++leaf)
    packets.push_back({leaf, 1});
  return packets;
}

/// "11 joints; packet 12 of 23 waits".
std::string joints_words(const Edition& edition, const std::vector<making::Packet>& before,
                         const making::Round& round) {
  std::string words = edition.say(Message::joints_of_round, {{"joints", static_cast<int>(round.joints.size())}});
  for (std::size_t i = 0; i < before.size(); ++i) {
    const bool joined = std::any_of(round.joints.begin(), round.joints.end(), [&](const making::Joint& joint) {
      return joint.left == before[i] || joint.right == before[i];
    });
    if (!joined)
      words += edition.say(before[i].leaves == 1 ? Message::leaf_waits : Message::packet_waits,
                           {{"number", static_cast<int>(i) + 1}, {"packets", static_cast<int>(before.size())}});
  }
  return words;
}

/// "11 packets of 4, 1 of 2".
std::string packets_words(const Edition& edition, const making::Round& round) {
  if (round.packets.size() == 1)
    return edition.say(Message::block_after, {{"leaves", round.packets.front().leaves}});
  std::map<int, int, std::greater<>> counts;
  for (const making::Packet& packet : round.packets)
    ++counts[packet.leaves];
  std::string words;
  for (const auto& [leaves, packets] : counts)
    words += (words.empty() ? "" : ", ") + edition.say(words.empty() ? Message::packets_after : Message::more_packets,
                                                       {{"packets", packets}, {"leaves", leaves}});
  return words;
}

Table round_table(const Edition& edition, int leaves) {
  Table table{{{edition.say(Message::column_round), 0.5},
               {edition.say(Message::column_joints), 3},
               {edition.say(Message::column_packets), 2.2}},
              {}};
  std::vector<making::Packet> before = singles(leaves);
  for (const making::Round& round : making::rounds(leaves)) {
    table.rows.push_back(
        {std::to_string(table.rows.size() + 1), joints_words(edition, before, round), packets_words(edition, round)});
    before = round.packets;
  }
  return table;
}

} // namespace

Blocks round_blocks(const Edition& edition) {
  Blocks blocks = {section_heading(edition.look, edition.say(Message::heading_rounds))};
  append(blocks, paragraph(edition.look, edition.say(Message::rounds_note)));
  blocks.back().keeps_with_next = true;
  for (const SizeFacts& facts : edition.contents.sizes) {
    Block heading =
        small_heading(edition.look, edition.say(Message::size_and_leaves,
                                                {{"size", facts.size->name}, {"leaves", facts.size->leaves}}));
    Blocks note = paragraph(
        edition.look, edition.say(Message::rounds_strips, {{"count", rows_on(*facts.leaf, design::Side::between)}}));
    for (Block& line : note)
      line.keeps_with_next = true;
    heading.before_mm = &facts == &edition.contents.sizes.front() ? 3 : heading.before_mm;
    blocks.push_back(std::move(heading));
    append(blocks, std::move(note));
    append(blocks, table_blocks(edition.look, round_table(edition, facts.size->leaves)));
  }
  return blocks;
}

} // namespace fanwright::booklet
