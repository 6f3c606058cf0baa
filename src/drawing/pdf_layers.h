// Processing steps of a PDF: an optional layer and a spot colour each. For the PDF files of this folder only.
#pragma once

#include "drawing/drawing.h"

#include <qpdf/QPDF.hh>

#include <map>
#include <string>

namespace fanwright::drawing {

/// The layers of one document, made as they are used. Step::print has none.
class Layers {
public:
  /// `document` must outlive this.
  explicit Layers(QPDF& document);

  /// Name of the step's layer and colour in a page's resources: "/Cut".
  static std::string key(Step step);

  /// Operators that begin the step's layer in its own overprinting colour; what they need goes into `resources`
  /// (/Properties, /ColorSpace and /ExtGState must be there).
  std::string begin(Step step, QPDFObjectHandle& resources);

  /// Operators that end a layer.
  static std::string end();

  /// The document's list of layers, all shown; null when no layer was begun.
  QPDFObjectHandle list() const;

private:
  QPDFObjectHandle group(Step step);
  QPDFObjectHandle colour(Step step);

  QPDF& document_;
  QPDFObjectHandle overprint_;
  std::map<Step, QPDFObjectHandle> groups_, colours_;
};

} // namespace fanwright::drawing
