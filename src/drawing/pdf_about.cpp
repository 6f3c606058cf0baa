// Based on ISO 32000-1, section 14.3 (metadata), and ISO 16684-1 (XMP; Dublin Core and PDF properties).
#include "drawing/pdf_about.h"

#include "drawing/font.h"
#include "drawing/xml_text.h"

namespace fanwright::drawing {

namespace {

constexpr const char* producer = "Fanwright";

/// A property whose value is a list of one: `list` is Alt (languages) or Seq (in order).
std::string property(const std::string& name, const std::string& list, const std::string& words) {
  if (words.empty())
    return {};
  const std::string language = list == "Alt" ? " xml:lang=\"x-default\"" : "";
  return "   <" + name + "><rdf:" + list + "><rdf:li" + language + ">" + xml_text(printable(words)) +
         "</rdf:li></rdf:" + list + "></" + name + ">\n";
}

std::string packet(const About& about) {
  // The packet's id is a constant of the standard.
  return "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
         "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
         " <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
         "  <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\""
         " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">\n"
         "   <dc:format>application/pdf</dc:format>\n" +
         property("dc:title", "Alt", about.title) + property("dc:creator", "Seq", about.author) +
         property("dc:description", "Alt", about.subject) + "   <pdf:Producer>" + producer +
         "</pdf:Producer>\n"
         "  </rdf:Description>\n"
         " </rdf:RDF>\n"
         "</x:xmpmeta>\n"
         "<?xpacket end=\"r\"?>\n";
}

} // namespace

void add_about(QPDF& document, const About& about) {
  QPDFObjectHandle information = QPDFObjectHandle::parse("<< >>");
  const auto state = [&](const char* key, const std::string& words) {
    if (!words.empty())
      information.replaceKey(key, QPDFObjectHandle::newUnicodeString(printable(words)));
  };
  state("/Title", about.title);
  state("/Author", about.author);
  state("/Subject", about.subject);
  state("/Producer", producer);
  document.getTrailer().replaceKey("/Info", document.makeIndirectObject(information));

  QPDFObjectHandle metadata = QPDFObjectHandle::newStream(&document, packet(about));
  metadata.getDict().replaceKey("/Type", QPDFObjectHandle::newName("/Metadata"));
  metadata.getDict().replaceKey("/Subtype", QPDFObjectHandle::newName("/XML"));
  document.getRoot().replaceKey("/Metadata", metadata);
  if (!about.language.empty())
    document.getRoot().replaceKey("/Lang", QPDFObjectHandle::newUnicodeString(printable(about.language)));
}

} // namespace fanwright::drawing
