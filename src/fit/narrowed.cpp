#include "fit/narrowed.h"

#include "leaf/path_data.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <numbers>
#include <variant>
#include <vector>

namespace fanwright::fit {
namespace {

class Writer {
public:
  explicit Writer(double factor) : factor_(factor) {}

  void start(leaf::Point p) { put("M", {factor_ * p.x, p.z}); }
  void close() { text_ += "Z "; }
  std::string text() const { return text_.empty() ? text_ : text_.substr(0, text_.size() - 1); }

  void operator()(const leaf::Line& line) { put("L", {factor_ * line.to.x, line.to.z}); }
  void operator()(const leaf::Quadratic& curve) {
    put("Q", {factor_ * curve.control.x, curve.control.z, factor_ * curve.to.x, curve.to.z});
  }
  void operator()(const leaf::Cubic& curve) {
    put("C", {factor_ * curve.control1.x, curve.control1.z, factor_ * curve.control2.x, curve.control2.z,
              factor_ * curve.to.x, curve.to.z});
  }
  // An ellipse is the image of the unit circle under M = rotation times diag(rx, rz); narrowed, that of S M. The axes
  // of the new one are the eigenvectors of S M (S M)^T = (p q; q r), the radii the roots of its eigenvalues.
  void operator()(const leaf::Arc& arc) {
    const double turn = arc.rotation_deg * std::numbers::pi / 180, c = std::cos(turn), s = std::sin(turn);
    const double a = arc.radius_x * arc.radius_x, b = arc.radius_z * arc.radius_z;
    const double p = factor_ * factor_ * (a * c * c + b * s * s), r = a * s * s + b * c * c;
    const double q = factor_ * s * c * (a - b);
    const double middle = 0.5 * (p + r), reach = std::hypot(0.5 * (p - r), q);
    put("A", {std::sqrt(middle + reach), std::sqrt(std::max(0.0, middle - reach)),
              0.5 * std::atan2(2 * q, p - r) * 180 / std::numbers::pi, arc.large ? 1.0 : 0.0, arc.sweep ? 1.0 : 0.0,
              factor_ * arc.to.x, arc.to.z});
  }

private:
  void put(const char* command, std::initializer_list<double> values) {
    text_ += command;
    for (const double value : values) {
      char number[40];
      std::snprintf(number, sizeof number, " %.10g", std::round(value * 1e4) / 1e4 + 0.0);
      text_ += number;
    }
    text_ += ' ';
  }

  double factor_;
  std::string text_;
};

} // namespace

std::string narrowed(const std::string& path_data, double factor) {
  const auto parsed = leaf::parse_path_data(path_data);
  const auto* subpaths = std::get_if<std::vector<leaf::Subpath>>(&parsed);
  if (subpaths == nullptr)
    return path_data;
  Writer writer(factor);
  for (const leaf::Subpath& subpath : *subpaths) {
    writer.start(subpath.start);
    for (const leaf::Segment& segment : subpath.segments)
      std::visit(writer, segment);
    if (subpath.closed)
      writer.close();
  }
  return writer.text();
}

} // namespace fanwright::fit
