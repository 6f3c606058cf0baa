#include "drawing/pdf_words.h"

#include <qpdf/Buffer.hh>
#include <qpdf/Pl_Buffer.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>

#include <memory>
#include <set>
#include <utility>
#include <variant>

namespace fanwright::drawing {

namespace {

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

} // namespace

std::size_t PlacedWords::take(LetteredPage lines) {
  taken_.push_back(std::move(lines));
  return taken_.size() - 1;
}

std::optional<Failure> PlacedWords::set() {
  if (taken_.empty())
    return std::nullopt;
  auto result = lettering(taken_);
  if (const Failure* failure = std::get_if<Failure>(&result))
    return *failure;
  bytes_ = std::get<std::string>(std::move(result));
  lettering_.processMemoryFile("lettering", bytes_.data(), bytes_.size());
  pages_ = QPDFPageDocumentHelper(lettering_).getAllPages();
  return std::nullopt;
}

QPDFObjectHandle PlacedWords::form(std::size_t index, bool own_colours, QPDF& document) {
  QPDFObjectHandle form = pages_.at(index).getFormXObjectForPage();
  form.getDict().removeKey("/Group");
  if (!own_colours) {
    WithoutColour filter;
    Pl_Buffer plain("text without colour");
    form.filterAsContents(&filter, &plain);
    const std::shared_ptr<Buffer> data = plain.getBufferSharedPointer();
    form.replaceStreamData(data, QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
  }
  return document.copyForeignObject(form);
}

} // namespace fanwright::drawing
