// Based on the published DXF reference for release 2000, TABLES: all nine tables, each with the records that must be
// there.
#include "drawing/dxf_frame.h"

#include <algorithm>

namespace fanwright::drawing {

namespace {

/// One table; its records are added with their own handles under its own.
class Table {
public:
  Table(std::string_view name, Handles& handles) : name_(name), handle_(handles.next()), handles_(handles) {}

  Tags& record(std::string_view type, std::string_view subclass) { return record(type, subclass, 5, handles_.next()); }
  Tags& record(std::string_view type, std::string_view subclass, int handle_code, const std::string& handle) {
    ++count_;
    return records_.text(0, type)
        .text(handle_code, handle)
        .text(330, handle_)
        .text(100, "AcDbSymbolTableRecord")
        .text(100, subclass);
  }
  Tags finish(std::string_view extra_subclass = {}) const {
    Tags tags;
    tags.text(0, "TABLE").text(2, name_).text(5, handle_).text(330, "0").text(100, "AcDbSymbolTable");
    tags.whole(70, count_);
    if (!extra_subclass.empty())
      tags.text(100, extra_subclass);
    return tags.append(records_).text(0, "ENDTAB");
  }

private:
  std::string_view name_;
  std::string handle_;
  Handles& handles_;
  long count_ = 0;
  Tags records_;
};

Tags viewports(const Box& extents, Handles& handles) {
  const Point middle{(extents.low.x + extents.high.x) / 2, (extents.low.y + extents.high.y) / 2};
  const double height = std::max(1.0, extents.high.y - extents.low.y),
               width = std::max(1.0, extents.high.x - extents.low.x);
  Table table("VPORT", handles);
  Tags& view = table.record("VPORT", "AcDbViewportTableRecord").text(2, "*Active").whole(70, 0);
  view.point(10, {0, 0}).point(11, {1, 1}).point(12, middle).point(13, {0, 0}).point(14, {10, 10}).point(15, {10, 10});
  view.point(16, {0, 0}).real(36, 1).point(17, {0, 0}).real(37, 0);
  // 40: height of the view, 41: its width over its height, 42: lens, 1.1: a margin round the drawing.
  view.real(40, 1.1 * height).real(41, width / height).real(42, 50).real(43, 0).real(44, 0).real(50, 0).real(51, 0);
  view.whole(71, 0).whole(72, 1000).whole(73, 1).whole(74, 3).whole(75, 0).whole(76, 0).whole(77, 0).whole(78, 0);
  return table.finish();
}

Tags line_types(const std::vector<LineType>& types, Handles& handles) {
  Table table("LTYPE", handles);
  const auto add = [&](std::string_view name, std::string_view description, const std::vector<double>& dash_mm) {
    double total = 0;
    for (const double length : dash_mm)
      total += length;
    Tags& type = table.record("LTYPE", "AcDbLinetypeTableRecord").text(2, name).whole(70, 0).text(3, description);
    type.whole(72, 65).whole(73, static_cast<long>(dash_mm.size())).real(40, total);
    bool on = true;
    for (const double length : dash_mm) {
      type.real(49, on ? length : -length).whole(74, 0);
      on = !on;
    }
  };
  add("ByBlock", "", {});
  add("ByLayer", "", {});
  add("Continuous", "Solid line", {});
  for (const LineType& type : types)
    add(type.name, "Dashes in millimetres", type.dash_mm);
  return table.finish();
}

Tags layers(const std::vector<Layer>& list, const std::string& plot_style, Handles& handles) {
  Table table("LAYER", handles);
  const auto add = [&](const Layer& layer) {
    constexpr int usual_width = -3;
    table.record("LAYER", "AcDbLayerTableRecord")
        .text(2, layer.name)
        .whole(70, 0)
        .whole(62, layer.colour)
        .text(6, layer.line_type)
        .whole(370, usual_width)
        .text(390, plot_style);
  };
  add({"0", 7, "Continuous"});
  for (const Layer& layer : list)
    add(layer);
  return table.finish();
}

Tags text_styles(Handles& handles) {
  Table table("STYLE", handles);
  Tags& style = table.record("STYLE", "AcDbTextStyleTableRecord").text(2, "Standard").whole(70, 0);
  // 40: no fixed height, 41: width factor, 42: height used last.
  style.real(40, 0).real(41, 1).real(50, 0).whole(71, 0).real(42, 2.5).text(3, "txt").text(4, "");
  return table.finish();
}

Tags applications(Handles& handles) {
  Table table("APPID", handles);
  table.record("APPID", "AcDbRegAppTableRecord").text(2, "ACAD").whole(70, 0);
  return table.finish();
}

Tags dimension_styles(Handles& handles) {
  Table table("DIMSTYLE", handles);
  constexpr int handle_code = 105; // this table alone uses 5 for something else
  table.record("DIMSTYLE", "AcDbDimStyleTableRecord", handle_code, handles.next()).text(2, "Standard").whole(70, 0);
  return table.finish("AcDbDimStyleTable");
}

Tags block_records(const FrameHandles& known, Handles& handles) {
  Table table("BLOCK_RECORD", handles);
  table.record("BLOCK_RECORD", "AcDbBlockTableRecord", 5, known.model_space)
      .text(2, "*Model_Space")
      .text(340, known.model_layout);
  table.record("BLOCK_RECORD", "AcDbBlockTableRecord", 5, known.paper_space)
      .text(2, "*Paper_Space")
      .text(340, known.paper_layout);
  return table.finish();
}

} // namespace

Tags tables(const Frame& frame, const FrameHandles& known, Handles& handles) {
  Tags tags;
  tags.text(0, "SECTION").text(2, "TABLES");
  tags.append(viewports(frame.extents, handles));
  tags.append(line_types(frame.line_types, handles));
  tags.append(layers(frame.layers, known.plot_style, handles));
  tags.append(text_styles(handles));
  tags.append(Table("VIEW", handles).finish());
  tags.append(Table("UCS", handles).finish());
  tags.append(applications(handles));
  tags.append(dimension_styles(handles));
  tags.append(block_records(known, handles));
  return tags.text(0, "ENDSEC");
}

} // namespace fanwright::drawing
