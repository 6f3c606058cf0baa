// Based on the published DXF reference for release 2000: HEADER, CLASSES, BLOCKS and OBJECTS in the least form that the
// release calls complete.
#include "drawing/dxf_frame.h"

#include <utility>

namespace fanwright::drawing {

namespace {

Tags section(std::string_view name, const Tags& content) {
  Tags tags;
  return tags.text(0, "SECTION").text(2, name).append(content).text(0, "ENDSEC");
}

Tags block(std::string_view name, const std::string& record, bool paper, Handles& handles) {
  Tags tags;
  const auto entity = [&](std::string_view type, std::string_view subclass) {
    tags.text(0, type).text(5, handles.next()).text(330, record).text(100, "AcDbEntity");
    if (paper)
      tags.whole(67, 1);
    tags.text(8, "0").text(100, subclass);
  };
  entity("BLOCK", "AcDbBlockBegin");
  tags.text(2, name).whole(70, 0).point3(10, {0, 0}).text(3, name).text(1, "");
  entity("ENDBLK", "AcDbBlockEnd");
  return tags;
}

using Entries = std::vector<std::pair<std::string, std::string>>; ///< name, handle

Tags dictionary(std::string_view type, const std::string& handle, const std::string& owner, const Entries& entries) {
  Tags tags;
  tags.text(0, type).text(5, handle).text(330, owner).text(100, "AcDbDictionary").whole(281, 1);
  for (const auto& [name, object] : entries)
    tags.text(3, name).text(350, object);
  return tags;
}

Tags plot_settings(bool model) {
  constexpr long model_type = 1024, initializing = 0;
  Tags tags;
  tags.text(100, "AcDbPlotSettings").text(1, "").text(2, "none_device").text(4, "").text(6, "");
  for (int margin_or_size = 40; margin_or_size <= 49; ++margin_or_size)
    tags.real(margin_or_size, 0);
  // 142, 143: one unit of paper is one unit of drawing; 72: millimetres; 74: plots the layout; 75: 1:1.
  tags.real(140, 0).real(141, 0).real(142, 1).real(143, 1).whole(70, model ? model_type : initializing);
  return tags.whole(72, 1).whole(73, 0).whole(74, 5).text(7, "").whole(75, 16).real(147, 1).real(148, 0).real(149, 0);
}

Tags layout(bool model, const Box& extents, const FrameHandles& known) {
  Tags tags;
  tags.text(0, "LAYOUT").text(5, model ? known.model_layout : known.paper_layout).text(330, known.layouts);
  tags.append(plot_settings(model)).text(100, "AcDbLayout").text(1, model ? "Model" : "Layout1");
  tags.whole(70, 1).whole(71, model ? 0 : 1).point(10, {0, 0}).point(11, extents.high).point3(12, {0, 0});
  tags.point3(14, model ? extents.low : Point{0, 0}).point3(15, model ? extents.high : Point{0, 0}).real(146, 0);
  tags.point3(13, {0, 0}).point3(16, {1, 0}).point3(17, {0, 1}).whole(76, 0);
  return tags.text(330, model ? known.model_space : known.paper_space);
}

Tags multiline_style(const std::string& handle, const std::string& owner) {
  constexpr long by_layer = 256;
  Tags tags;
  tags.text(0, "MLINESTYLE").text(5, handle).text(330, owner).text(100, "AcDbMlineStyle").text(2, "Standard");
  tags.whole(70, 0).text(3, "").whole(62, by_layer).real(51, 90).real(52, 90).whole(71, 2);
  for (const double offset : {0.5, -0.5})
    tags.real(49, offset).whole(62, by_layer).text(6, "BYLAYER");
  return tags;
}

} // namespace

FrameHandles take_frame_handles(Handles& handles) {
  FrameHandles known;
  for (std::string* handle : {&known.root, &known.model_space, &known.paper_space, &known.model_layout,
                              &known.paper_layout, &known.layouts, &known.plot_style})
    *handle = handles.next();
  return known;
}

Tags header(const Frame& frame, const std::string& handle_seed) {
  constexpr long millimetres = 4, metric = 1, decimal_lengths = 2;
  Tags tags;
  tags.text(9, "$ACADVER").text(1, "AC1015").text(9, "$DWGCODEPAGE").text(3, "ANSI_1252");
  tags.text(9, "$INSBASE").point3(10, {0, 0});
  tags.text(9, "$EXTMIN").point3(10, frame.extents.low).text(9, "$EXTMAX").point3(10, frame.extents.high);
  tags.text(9, "$LTSCALE").real(40, 1).text(9, "$TEXTSTYLE").text(7, "Standard").text(9, "$CLAYER").text(8, "0");
  tags.text(9, "$CELTYPE").text(6, "ByLayer").text(9, "$LUNITS").whole(70, decimal_lengths).text(9, "$LUPREC");
  tags.whole(70, 4).text(9, "$MEASUREMENT").whole(70, metric).text(9, "$INSUNITS").whole(70, millimetres);
  tags.text(9, "$HANDSEED").text(5, handle_seed);
  return section("HEADER", tags);
}

Tags classes() {
  Tags tags;
  for (const auto& [name, type] : {std::pair{"ACDBDICTIONARYWDFLT", "AcDbDictionaryWithDefault"},
                                   std::pair{"ACDBPLACEHOLDER", "AcDbPlaceHolder"}, std::pair{"LAYOUT", "AcDbLayout"}})
    tags.text(0, "CLASS")
        .text(1, name)
        .text(2, type)
        .text(3, "ObjectDBX Classes")
        .whole(90, 0)
        .whole(280, 0)
        .whole(281, 0);
  return section("CLASSES", tags);
}

Tags blocks(const FrameHandles& known, Handles& handles) {
  Tags tags = block("*Model_Space", known.model_space, false, handles);
  return section("BLOCKS", tags.append(block("*Paper_Space", known.paper_space, true, handles)));
}

Tags objects(const Frame& frame, const FrameHandles& known, Handles& handles) {
  const std::string groups = handles.next(), multiline_styles = handles.next(), plot_styles = handles.next();
  const std::string multiline = handles.next();
  Tags tags = dictionary("DICTIONARY", known.root, "0",
                         {{"ACAD_GROUP", groups},
                          {"ACAD_LAYOUT", known.layouts},
                          {"ACAD_MLINESTYLE", multiline_styles},
                          {"ACAD_PLOTSTYLENAME", plot_styles}});
  tags.append(dictionary("DICTIONARY", groups, known.root, {}));
  tags.append(dictionary("DICTIONARY", known.layouts, known.root,
                         {{"Layout1", known.paper_layout}, {"Model", known.model_layout}}));
  tags.append(layout(true, frame.extents, known)).append(layout(false, frame.extents, known));
  tags.append(dictionary("DICTIONARY", multiline_styles, known.root, {{"Standard", multiline}}));
  tags.append(multiline_style(multiline, multiline_styles));
  tags.append(dictionary("ACDBDICTIONARYWDFLT", plot_styles, known.root, {{"Normal", known.plot_style}}));
  tags.text(100, "AcDbDictionaryWithDefault").text(340, known.plot_style);
  tags.text(0, "ACDBPLACEHOLDER").text(5, known.plot_style).text(330, plot_styles);
  return section("OBJECTS", tags);
}

} // namespace fanwright::drawing
