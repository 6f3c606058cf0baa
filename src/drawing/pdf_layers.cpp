// Based on ISO 32000-1 (section 8.11 optional content, 8.6.6.4 separations) and ISO 19593-1:2018 (steps).
#include "drawing/pdf_layers.h"

#include <qpdf/QPDFObjectHandle.hh>

namespace fanwright::drawing {

namespace {

/// How a step is spoken of in the file.
struct StepWords {
  std::string key;   ///< resource name
  std::string group; ///< GTS_ProcStepsGroup
  std::string type;  ///< GTS_ProcStepsType; empty for groups that take none
  std::string cmyk;  ///< look of the full tint on screen and in a composite print
};

const StepWords& words_of(Step step) {
  static const std::map<Step, StepWords> words = {
      {Step::cut, {"Cut", "Structural", "Cutting", "0 0 0 1"}},
      {Step::perforate, {"Perforate", "Structural", "Perforating", "0.8 0.2 0.9 0.3"}},
      {Step::score, {"Score", "Structural", "Creasing", "0.9 0.3 0.1 0.3"}},
      {Step::reverse_score, {"ScoreBack", "Structural", "ReverseCreasing", "0.2 0.9 0.2 0.3"}},
      {Step::glue_inside, {"GlueInside", "Structural", "Gluing", "0 0.6 0.9 0.25"}},
      {Step::glue_between, {"GlueBetween", "Structural", "Gluing", "0.65 0.7 0 0.25"}},
      {Step::dimension, {"Dimensions", "Dimensions", "", "0 0 0 0.85"}},
      {Step::legend, {"Notes", "Legend", "", "0 0 0 0.85"}},
  };
  return words.at(step);
}

} // namespace

Layers::Layers(QPDF& document) : document_(document) {}

std::string Layers::key(Step step) { return "/" + words_of(step).key; }

std::string Layers::begin(Step step, QPDFObjectHandle& resources) {
  if (!overprint_.isInitialized())
    overprint_ =
        document_.makeIndirectObject(QPDFObjectHandle::parse("<< /Type /ExtGState /OP true /op true /OPM 1 >>"));
  const std::string name = key(step);
  resources.getKey("/ExtGState").replaceKey("/Overprint", overprint_);
  resources.getKey("/Properties").replaceKey(name, group(step));
  resources.getKey("/ColorSpace").replaceKey(name, colour(step));
  return "/OC " + name + " BDC\nq /Overprint gs " + name + " CS " + name + " cs 1 SCN 1 scn\n";
}

std::string Layers::end() { return "Q\nEMC\n"; }

QPDFObjectHandle Layers::list() const {
  if (groups_.empty())
    return QPDFObjectHandle::newNull();
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

QPDFObjectHandle Layers::group(Step step) {
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

QPDFObjectHandle Layers::colour(Step step) {
  if (const auto known = colours_.find(step); known != colours_.end())
    return known->second;
  const StepWords& words = words_of(step);
  const std::string tint = "<< /FunctionType 2 /Domain [0 1] /C0 [0 0 0 0] /C1 [" + words.cmyk + "] /N 1 >>";
  return colours_[step] = document_.makeIndirectObject(
             QPDFObjectHandle::parse("[/Separation /" + words.key + " /DeviceCMYK " + tint + "]"));
}

} // namespace fanwright::drawing
