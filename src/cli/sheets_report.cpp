#include "cli/sheets_report.h"

#include "leaf/contour.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>

namespace fanwright::cli {
namespace {

using Json = nlohmann::ordered_json;
using sheets::Capacity;
using sheets::Job;
using sheets::JobPiece;
using sheets::JobPlan;
using sheets::JobSheet;

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;
}

double mm(double value) { return rounded(value, 3); }

Json kinds_json(const Job& job) {
  Json list = Json::array();
  for (const sheets::Kind& kind : job.kinds) {
    const leaf::Box box = leaf::bounds(kind.outline);
    list.push_back(
        {{"name", kind.name}, {"count", kind.count}, {"width_mm", mm(box.width())}, {"height_mm", mm(box.height())}});
  }
  return list;
}

Json stocks_json(const Job& job) {
  Json list = Json::array();
  for (const sheets::Stock& stock : job.stocks) {
    Json entry = {{"name", stock.sheet.name},
                  {"roll", stock.roll},
                  {"width_mm", mm(stock.sheet.size.width_mm)},
                  {"height_mm", mm(stock.sheet.size.height_mm)},
                  {"margin_mm", mm(stock.sheet.margin_mm)},
                  {"gap_mm", mm(stock.sheet.gap_mm)},
                  {"price", stock.price}};
    if (stock.most)
      entry["at_hand"] = *stock.most;
    list.push_back(std::move(entry));
  }
  return list;
}

Json sheet_json(const JobSheet& sheet, const Job& job) {
  Json pieces = Json::array();
  for (const JobPiece& piece : sheet.pieces)
    pieces.push_back({{"piece", job.kinds[piece.kind].name},
                      {"x_mm", mm(piece.placement.x_mm)},
                      {"y_mm", mm(piece.placement.z_mm)},
                      {"turn_deg", piece.placement.turn_deg},
                      {"face_down", piece.mirrored}});
  return {{"stock", job.stocks[sheet.stock].sheet.name},
          {"copies", sheet.copies},
          {"length_mm", mm(sheet.length_mm)},
          {"density", rounded(sheet.density, 4)},
          {"offcut",
           {{"x_mm", mm(sheet.offcut.left_mm)},
            {"y_mm", mm(sheet.offcut.bottom_mm)},
            {"width_mm", mm(sheet.offcut.width_mm)},
            {"height_mm", mm(sheet.offcut.height_mm)}}},
          {"placements", std::move(pieces)}};
}

Json capacities_json(const JobPlan& plan, const Job& job) {
  Json list = Json::array();
  for (const Capacity& capacity : plan.capacities)
    list.push_back({{"piece", job.kinds[capacity.kind].name},
                    {"stock", job.stocks[capacity.stock].sheet.name},
                    {"a_sheet_holds", capacity.held},
                    {"no_layout_holds_more_than", capacity.most}});
  return list;
}

Json paper_json(const LaidPaper& paper) {
  const JobPlan& plan = paper.plan;
  Json sheets = Json::array();
  for (const JobSheet& sheet : plan.sheets)
    sheets.push_back(sheet_json(sheet, paper.job));
  return {{"pieces", kinds_json(paper.job)},
          {"stocks", stocks_json(paper.job)},
          {"sheets_in_all", plan.sheets_in_all},
          {"no_layout_needs_fewer_than", plan.fewest_sheets},
          {"density", rounded(plan.density, 4)},
          {"cost", rounded(plan.cost, 4)},
          {"capacities", capacities_json(plan, paper.job)},
          {"sheets", std::move(sheets)},
          {"work", plan.work},
          {"seconds", rounded(paper.seconds, 3)}};
}

std::string contents(const JobSheet& sheet, const Job& job) {
  std::vector<int> counts(job.kinds.size(), 0);
  for (const JobPiece& piece : sheet.pieces)
    ++counts[piece.kind];
  std::string text;
  for (std::size_t kind = 0; kind < counts.size(); ++kind)
    if (counts[kind] > 0)
      text += fmt::format("{}{} {}", text.empty() ? "" : ", ", counts[kind], job.kinds[kind].name);
  return text;
}

std::string sheet_line(const JobSheet& sheet, const Job& job) {
  const sheets::Stock& stock = job.stocks[sheet.stock];
  const std::string length = stock.roll ? fmt::format(" {:.1f} mm", sheet.length_mm) : "";
  return fmt::format("  {} x {}{}: {}; {:.1f} % used; offcut {:.0f} x {:.0f} mm\n", sheet.copies, stock.sheet.name,
                     length, contents(sheet, job), 100 * sheet.density, sheet.offcut.width_mm, sheet.offcut.height_mm);
}

std::string paper_text(const LaidPaper& paper) {
  const JobPlan& plan = paper.plan;
  std::string text = fmt::format("{} {}", plan.sheets_in_all, plan.sheets_in_all == 1 ? "sheet" : "sheets");
  if (plan.fewest_sheets > 0)
    text += fmt::format("; no layout needs fewer than {}", plan.fewest_sheets);
  text += fmt::format("; {:.1f} % of the paper used", 100 * plan.density);
  if (plan.cost > 0)
    text += fmt::format("; cost {:.2f}", plan.cost);
  text += "\n";
  for (const JobSheet& sheet : plan.sheets)
    text += sheet_line(sheet, paper.job);
  for (const Capacity& capacity : plan.capacities)
    text +=
        fmt::format("  {}: {} on a sheet of {}; no layout can hold more than {}\n", paper.job.kinds[capacity.kind].name,
                    capacity.held, paper.job.stocks[capacity.stock].sheet.name, capacity.most);
  return text;
}

} // namespace

std::string sheets_json(const std::string& title, const std::vector<LaidPaper>& papers) {
  Json list = Json::array();
  for (const LaidPaper& paper : papers)
    list.push_back(paper_json(paper));
  return Json{{"title", title}, {"papers", std::move(list)}}.dump(2) + "\n";
}

std::string sheets_table(const std::string& title, const std::vector<LaidPaper>& papers) {
  std::string text = title + "\n";
  for (const LaidPaper& paper : papers)
    text += paper_text(paper);
  return text;
}

} // namespace fanwright::cli
