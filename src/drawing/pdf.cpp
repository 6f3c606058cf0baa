// Based on ISO 32000-1 (objects, section 8.11 optional content, 8.6.6.4 separations) and ISO 19593-1:2018 (steps).
#include "drawing/pdf.h"

#include "drawing/decimal.h"
#include "drawing/lettering.h"

#include <qpdf/Buffer.hh>
#include <qpdf/Pl_Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include <algorithm>
#include <map>
#include <memory>
#include <set>

namespace fanwright::drawing {

namespace {

constexpr double points_per_mm = 72.0 / 25.4;

/// How a step is spoken of in the file.
struct StepWords {
  std::string key;   ///< resource name
  std::string group; ///< GTS_ProcStepsGroup
  std::string type;  ///< GTS_ProcStepsType; empty for groups that take none
  std::string cmyk;  ///< look of the full tint on screen and in a composite print
};

const StepWords& words_of(Step step) {
  static const std::map<Step, StepWords> words = {
      {Step::print, {"Print", "", "", "0 0 0 1"}},
      {Step::perforate, {"Perforate", "Structural", "Perforating", "0.8 0.2 0.9 0.3"}},
      {Step::reverse_score, {"ScoreBack", "Structural", "ReverseCreasing", "0.2 0.9 0.2 0.3"}},
      {Step::cut, {"Cut", "Structural", "Cutting", "0 0 0 1"}},
      {Step::score, {"Score", "Structural", "Creasing", "0.9 0.3 0.1 0.3"}},
      {Step::glue_inside, {"GlueInside", "Structural", "Gluing", "0 0.6 0.9 0.25"}},
      {Step::glue_between, {"GlueBetween", "Structural", "Gluing", "0.65 0.7 0 0.25"}},
      {Step::dimension, {"Dimensions", "Dimensions", "", "0 0 0 0.85"}},
      {Step::legend, {"Notes", "Legend", "", "0 0 0 0.85"}},
  };
  return words.at(step);
}

std::string pair(const Point& point) { return decimal(point.x) + " " + decimal(point.y) + " "; }

/// Writes the segments of one path; remembers the current point, which arcs need.
class PathOperators {
public:
  void operator()(const Move& s) { put(s.to, pair(s.to) + "m\n"), subpath_ = s.to; }
  void operator()(const Line& s) { put(s.to, pair(s.to) + "l\n"); }
  void operator()(const Cubic& s) { put(s.to, pair(s.control1) + pair(s.control2) + pair(s.to) + "c\n"); }
  void operator()(const Arc& s) {
    for (const Cubic& piece : cubics_of(current_, s))
      (*this)(piece);
  }
  void operator()(const Close&) { put(subpath_, "h\n"); }
  const std::string& text() const { return text_; }

private:
  void put(const Point& to, const std::string& operators) {
    text_ += operators;
    current_ = to;
  }
  std::string text_;
  Point current_, subpath_;
};

std::string operators_of(const Path& path) {
  PathOperators operators;
  for (const Segment& segment : path.segments)
    std::visit(operators, segment);
  if (path.pen.filled)
    return operators.text() + "f\n";
  std::string dashes;
  for (const double length : path.pen.dash_mm)
    dashes += decimal(length) + " ";
  return decimal(path.pen.width_mm) + " w [" + dashes + "] 0 d\n" + operators.text() + "S\n";
}

/// Drops the colour operators of a content stream, so that its text takes the colour of whoever places it.
class WithoutColour : public QPDFObjectHandle::TokenFilter {
public:
  void handleToken(QPDFTokenizer::Token const& token) override {
    waiting_ += token.getRawValue();
    if (token.getType() == QPDFTokenizer::tt_word)
      flush(colour_operators_.count(token.getValue()) > 0);
  }
  void handleEOF() override { flush(false); }

private:
  void flush(bool drop) {
    write(drop ? std::string("\n") : waiting_);
    waiting_.clear();
  }
  std::string waiting_;
  const std::set<std::string> colour_operators_ = {"g",  "G",  "rg", "RG", "k",   "K",
                                                   "cs", "CS", "sc", "SC", "scn", "SCN"};
};

/// One document being put together.
class Composer {
public:
  Composer() {
    document_.emptyPDF();
    overprint_ =
        document_.makeIndirectObject(QPDFObjectHandle::parse("<< /Type /ExtGState /OP true /op true /OPM 1 >>"));
  }

  void set_lettering(const std::string& bytes) {
    if (bytes.empty())
      return;
    lettering_bytes_ = bytes;
    lettering_.processMemoryFile("lettering", lettering_bytes_.data(), lettering_bytes_.size());
    lettered_pages_ = QPDFPageDocumentHelper(lettering_).getAllPages();
  }

  /// `texts`: for each step with text on this page, its page in the lettering.
  void add(const Page& page, const std::map<Step, std::size_t>& texts) {
    const std::string width = truncated_decimal(page.width_mm * points_per_mm);
    const std::string height = truncated_decimal(page.height_mm * points_per_mm);
    QPDFObjectHandle resources =
        QPDFObjectHandle::parse("<< /Properties << >> /ColorSpace << >> /ExtGState << >> /XObject << >> >>");
    resources.getKey("/ExtGState").replaceKey("/Overprint", overprint_);
    std::string content;
    for (const Step step : all_steps)
      content += layer(page, step, height, texts, resources);
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
    root.replaceKey("/OCProperties", layers());
    QPDFObjectHandle information = QPDFObjectHandle::parse("<< >>");
    information.replaceKey("/Title", QPDFObjectHandle::newUnicodeString(about.title));
    document_.getTrailer().replaceKey("/Info", document_.makeIndirectObject(information));
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
  std::string layer(const Page& page, Step step, const std::string& height, const std::map<Step, std::size_t>& texts,
                    QPDFObjectHandle& resources) {
    std::string paths;
    for (const Item& item : page.items)
      if (const Path* path = std::get_if<Path>(&item); path != nullptr && path->step == step)
        paths += operators_of(*path);
    const auto text = texts.find(step);
    if (paths.empty() && text == texts.end())
      return {};
    const std::string key = "/" + words_of(step).key;
    resources.getKey("/Properties").replaceKey(key, group(step));
    resources.getKey("/ColorSpace").replaceKey(key, colour(step));
    std::string content = "/OC " + key + " BDC\nq /Overprint gs " + key + " CS " + key + " cs 1 SCN 1 scn\n";
    if (text != texts.end()) {
      resources.getKey("/XObject").replaceKey(key + "Text", lettered(text->second));
      content += "q " + key + "Text Do Q\n";
    }
    if (!paths.empty())
      content +=
          decimal(points_per_mm, 9) + " 0 0 " + decimal(-points_per_mm, 9) + " 0 " + height + " cm 1 j\n" + paths;
    return content + "Q\nEMC\n";
  }

  QPDFObjectHandle lettered(std::size_t index) {
    QPDFObjectHandle form = lettered_pages_.at(index).getFormXObjectForPage();
    form.getDict().removeKey("/Group");
    WithoutColour filter;
    Pl_Buffer plain("text without colour");
    form.filterAsContents(&filter, &plain);
    const std::shared_ptr<Buffer> data = plain.getBufferSharedPointer();
    form.replaceStreamData(data, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
    return document_.copyForeignObject(form);
  }

  QPDFObjectHandle group(Step step) {
    if (const auto known = groups_.find(step); known != groups_.end())
      return known->second;
    const StepWords& words = words_of(step);
    std::string metadata = "<< /GTS_ProcStepsGroup /" + words.group;
    if (!words.type.empty())
      metadata += " /GTS_ProcStepsType /" + words.type;
    QPDFObjectHandle object = QPDFObjectHandle::parse("<< /Type /OCG /GTS_Metadata " + metadata + " >> >>");
    object.replaceKey("/Name", QPDFObjectHandle::newUnicodeString(std::string(name_of(step))));
    return groups_[step] = document_.makeIndirectObject(object);
  }

  QPDFObjectHandle colour(Step step) {
    if (const auto known = colours_.find(step); known != colours_.end())
      return known->second;
    const StepWords& words = words_of(step);
    const std::string tint = "<< /FunctionType 2 /Domain [0 1] /C0 [0 0 0 0] /C1 [" + words.cmyk + "] /N 1 >>";
    return colours_[step] = document_.makeIndirectObject(
               QPDFObjectHandle::parse("[/Separation /" + words.key + " /DeviceCMYK " + tint + "]"));
  }

  QPDFObjectHandle layers() {
    QPDFObjectHandle all = QPDFObjectHandle::newArray();
    for (const auto& [step, object] : groups_)
      all.appendItem(object);
    QPDFObjectHandle usual = QPDFObjectHandle::parse("<< /Name (Layers) /BaseState /ON >>");
    usual.replaceKey("/Order", all.shallowCopy());
    usual.replaceKey("/ON", all.shallowCopy());
    QPDFObjectHandle properties = QPDFObjectHandle::parse("<< >>");
    properties.replaceKey("/OCGs", all);
    properties.replaceKey("/D", usual);
    return properties;
  }

  std::string lettering_bytes_; ///< must outlive `lettering_`, which reads from it until the document is written
  QPDF lettering_, document_;
  std::vector<QPDFPageObjectHelper> lettered_pages_;
  QPDFObjectHandle overprint_;
  std::map<Step, QPDFObjectHandle> groups_, colours_;
};

} // namespace

std::variant<std::string, Failure> pdf(const std::vector<Page>& pages, const About& about) {
  if (pages.empty())
    return Failure{"There is no page to write."};
  std::vector<LetteredPage> lettered;
  std::vector<std::map<Step, std::size_t>> texts(pages.size());
  for (std::size_t i = 0; i < pages.size(); ++i)
    for (const Step step : all_steps) {
      LetteredPage text{pages[i].width_mm, pages[i].height_mm, {}};
      for (const Item& item : pages[i].items)
        if (const Text* line = std::get_if<Text>(&item); line != nullptr && line->step == step)
          text.lines.push_back(*line);
      if (text.lines.empty())
        continue;
      texts[i][step] = lettered.size();
      lettered.push_back(std::move(text));
    }
  auto set = lettering(lettered);
  if (const Failure* failure = std::get_if<Failure>(&set))
    return *failure;
  Composer composer;
  if (!lettered.empty())
    composer.set_lettering(std::get<std::string>(set));
  for (std::size_t i = 0; i < pages.size(); ++i)
    composer.add(pages[i], texts[i]);
  return composer.finish(about);
}

} // namespace fanwright::drawing
