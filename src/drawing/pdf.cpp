// Based on ISO 32000-1 (objects, pages).
#include "drawing/pdf.h"

#include "drawing/decimal.h"
#include "drawing/font.h"
#include "drawing/pdf_about.h"
#include "drawing/pdf_layers.h"
#include "drawing/pdf_operators.h"
#include "drawing/pdf_pictures.h"
#include "drawing/pdf_words.h"

#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

#include <array>
#include <memory>
#include <optional>
#include <utility>

namespace fanwright::drawing {

namespace {

/// Lines that are placed together, by their number in PlacedWords.
struct WordSet {
  std::size_t number;
};
using Mark = std::variant<WordSet, const Path*, const Image*>;

/// A page's marks, sorted by step, its text handed to PlacedWords.
struct SortedPage {
  const Page* page;
  std::array<std::vector<Mark>, all_steps.size()> marks; ///< in the order of all_steps
};

/// The marks of one step. Print covers what lies under it, so its order holds and only neighbouring lines are set
/// together; the inks of other steps overprint, and all their lines are set together.
class StepMarks {
public:
  StepMarks(const Page& page, Step step, PlacedWords& words) : page_(page), step_(step), words_(words) {}

  void operator()(const Text& line) { lines_.push_back(line); }
  void operator()(const Path& path) { put(&path); }
  void operator()(const Image& image) { put(&image); }

  std::vector<Mark> finish() {
    place_lines();
    return std::move(marks_);
  }

private:
  void put(const Mark& mark) {
    if (step_ == Step::print)
      place_lines();
    marks_.push_back(mark);
  }
  void place_lines() {
    if (!lines_.empty())
      marks_.emplace_back(WordSet{words_.take({page_.width_mm, page_.height_mm, std::move(lines_)})});
    lines_.clear();
  }

  const Page& page_;
  const Step step_;
  PlacedWords& words_;
  std::vector<Text> lines_;
  std::vector<Mark> marks_;
};

SortedPage sorted(const Page& page, PlacedWords& words) {
  SortedPage result{&page, {}};
  for (std::size_t i = 0; i < all_steps.size(); ++i) {
    StepMarks marks(page, all_steps[i], words);
    for (const Item& item : page.items)
      std::visit(
          [&](const auto& mark) {
            if (mark.step == all_steps[i])
              marks(mark);
          },
          item);
    result.marks[i] = marks.finish();
  }
  return result;
}

/// One document being put together.
class Composer {
public:
  explicit Composer(PlacedWords& words) : words_(words) { document_.emptyPDF(); }

  void add(const SortedPage& sorted_page) {
    const Page& page = *sorted_page.page;
    const std::string width = truncated_decimal(page.width_mm * points_per_mm);
    const std::string height = truncated_decimal(page.height_mm * points_per_mm);
    QPDFObjectHandle resources =
        QPDFObjectHandle::parse("<< /Properties << >> /ColorSpace << >> /ExtGState << >> /XObject << >> >>");
    std::string content;
    for (std::size_t i = 0; i < all_steps.size(); ++i)
      if (!sorted_page.marks[i].empty())
        content += layer(all_steps[i], sorted_page.marks[i], height, resources);
    QPDFObjectHandle object = QPDFObjectHandle::parse("<< /Type /Page >>");
    const std::string box = "[0 0 " + width + " " + height + "]";
    object.replaceKey("/MediaBox", QPDFObjectHandle::parse(box));
    object.replaceKey("/TrimBox", QPDFObjectHandle::parse(box));
    object.replaceKey("/Resources", resources);
    object.replaceKey("/Contents", QPDFObjectHandle::newStream(&document_, content));
    document_.addPage(document_.makeIndirectObject(object), false);
  }

  std::string finish(const About& about) {
    QPDFObjectHandle root = document_.getRoot();
    root.replaceKey("/ViewerPreferences", QPDFObjectHandle::parse("<< /PrintScaling /None /DisplayDocTitle true >>"));
    if (QPDFObjectHandle list = layers_.list(); !list.isNull())
      root.replaceKey("/OCProperties", list);
    add_about(document_, about);
    QPDFWriter writer(document_);
    writer.setOutputMemory();
    writer.setDeterministicID(true);
    writer.setMinimumPDFVersion("1.6");
    writer.setObjectStreamMode(qpdf_o_disable);
    writer.write();
    const std::shared_ptr<Buffer> buffer = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
  }

private:
  std::string layer(Step step, const std::vector<Mark>& marks, const std::string& height, QPDFObjectHandle& resources) {
    const bool print = step == Step::print;
    std::string content = print ? "q\n" : layers_.begin(step, resources);
    bool in_page_coordinates = false;
    for (const Mark& mark : marks) {
      const bool words = std::holds_alternative<WordSet>(mark);
      if (words == in_page_coordinates)
        content += words ? "Q\n" : begin_page_coordinates(height);
      in_page_coordinates = !words;
      content += operators_of_mark(mark, print, resources);
    }
    return content + (in_page_coordinates ? "Q\n" : "") + (print ? "Q\n" : Layers::end());
  }

  std::string operators_of_mark(const Mark& mark, bool print, QPDFObjectHandle& resources) {
    if (const auto* path = std::get_if<const Path*>(&mark))
      return operators_of(**path);
    QPDFObjectHandle objects = resources.getKey("/XObject");
    if (const auto* image = std::get_if<const Image*>(&mark)) {
      const std::string name = "/Picture" + std::to_string(objects.getKeys().size());
      objects.replaceKey(name, pictures_.object(**image, document_));
      return operators_of(**image, name);
    }
    const std::size_t number = std::get<WordSet>(mark).number;
    const std::string name = "/Words" + std::to_string(number);
    objects.replaceKey(name, words_.form(number, print, document_));
    return "q " + name + " Do Q\n";
  }

  PlacedWords& words_;
  QPDF document_;
  Layers layers_{document_};
  Pictures pictures_;
};

std::optional<Failure> fault_of(const std::vector<Page>& pages) {
  if (pages.empty())
    return Failure{"There is no page to write."};
  for (const Page& page : pages)
    for (const Item& item : page.items)
      if (const Image* image = std::get_if<Image>(&item); image != nullptr && !is_whole(*image))
        return Failure{"A picture on the page has not as many pixels as its width and height say."};
  return std::nullopt;
}

} // namespace

std::variant<std::string, Failure> pdf(const std::vector<Page>& pages, const About& about) {
  if (auto fault = fault_of(pages))
    return *fault;
  PlacedWords words;
  std::vector<SortedPage> sorted_pages;
  for (const Page& page : pages)
    sorted_pages.push_back(sorted(page, words));
  if (auto failure = words.set())
    return *failure;
  Composer composer(words);
  for (const SortedPage& page : sorted_pages)
    composer.add(page);
  return composer.finish(about);
}

} // namespace fanwright::drawing
