// The booklet: everything a maker who never saw such an ornament needs to make it, as pages to print.
//
// Figures are drawn from the design's own leaf and opened form. Lengths mm, times minutes.
#pragma once

#include "booklet/look.h"
#include "booklet/sketch.h"
#include "design/design.h"
#include "drawing/drawing.h"
#include "fan/seated_fans.h"
#include "leaf/leaf.h"
#include "leaf/marks.h"
#include "making/making.h"
#include "opened/opened.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fanwright::booklet {

/// All that the booklet tells of one size. What the pointers point to must outlive the pages' making.
struct SizeFacts {
  const design::Size* size = nullptr;
  const leaf::Leaf* leaf = nullptr;
  const leaf::Marks* marks = nullptr;
  const opened::Form* form = nullptr; ///< with its mesh
  double flat_width_mm = 0;           ///< of the whole leaf, unfolded
  double flat_height_mm = 0;
  const std::vector<fan::SizedFan>* fans = nullptr;   ///< never null in a size of a design with fans
  const std::vector<fan::SeatedFan>* seats = nullptr; ///< of those fans that have a seat; null where none has
  std::optional<fan::Figure> figure;                  ///< with the seated fans
  double lap_mm = 0;                                  ///< of leaves cut in two, 0 where they are cut whole
  int sheets = 0;                                     ///< of size->sheet, for one piece, fans included
  double height_spread_mm = 0;                        ///< the opened height lies within +- this
  double diameter_spread_mm = 0;                      ///< and so does the diameter
  making::Materials materials;                        ///< for one piece
  making::Schedule one_piece;                         ///< schedule for a single piece
  making::Schedule batch;           ///< for as many pieces as the design asks for; for the maker's own pages
  std::optional<making::Cost> cost; ///< of one piece, where the maker gave prices
};

/// What a file of the kit is for.
enum class FileKind {
  booklet,
  print_sheets, ///< PDF with layers
  cutting_svg,
  cutting_dxf,
  fan_print,
  stencil,
  master_leaf,
  picture,
  mesh,
  numbers,
  readme,
};

struct FileNote {
  FileKind kind = FileKind::booklet;
  std::string name; ///< as it stands in the kit, "small/sheets-a4.pdf"; may hold a star for several
};

struct Contents {
  const design::Design* design = nullptr;
  std::vector<SizeFacts> sizes; ///< at least one, in the design's order
  /// The size the figures show; its views are slow to make and serve all languages and pages.
  Subject figures;
  drawing::Image cover;        ///< the lit picture; its corner and size on the page are not looked at
  std::vector<FileNote> files; ///< of the kit; each kind is explained once
};

/// The booklet for whoever makes the piece. `language` is an ISO 639-1 code; English where the catalogue lacks it.
std::vector<drawing::Page> pages(const Contents& contents, PageSize page, std::string_view language);

/// The maker's own notes, not for buyers: plan of the batch, materials, cost and price.
std::vector<drawing::Page> maker_pages(const Contents& contents, PageSize page, std::string_view language);

/// ISO 639-1 codes of the languages the booklet can be set in.
std::vector<std::string_view> languages();

} // namespace fanwright::booklet
