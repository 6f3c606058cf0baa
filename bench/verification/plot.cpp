#include "plot.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace fanwright {
namespace {

constexpr double left = 70, right = 620, top = 44, bottom = 330;
constexpr std::array<const char*, 4> colours{"#1f5f8b", "#b5532a", "#3d7a45", "#7a4a8c"};

/// One axis: from values to the page.
class Axis {
public:
  Axis(double from_px, double to_px, bool logarithmic) : from_px_(from_px), to_px_(to_px), log_(logarithmic) {}

  void hold(double value) {
    low_ = std::min(low_, scaled(value));
    high_ = std::max(high_, scaled(value));
  }

  double at(double value) const { return from_px_ + (to_px_ - from_px_) * (scaled(value) - low_) / (high_ - low_); }

  /// Round values within the axis.
  std::vector<double> ticks() const {
    std::vector<double> list;
    if (log_) {
      for (int power = static_cast<int>(std::floor(low_)); power <= high_; ++power)
        for (const double digit : {1.0, 3.0})
          if (const double value = digit * std::pow(10.0, power); scaled(value) >= low_ && scaled(value) <= high_)
            list.push_back(value);
      return list;
    }
    const double rough = (high_ - low_) / 5;
    const double ten = std::pow(10.0, std::floor(std::log10(rough)));
    const double step = ten * (rough / ten < 1.5 ? 1 : rough / ten < 3.5 ? 2 : 5);
    for (double value = std::ceil(low_ / step) * step; value <= high_ + 1e-9 * step; value += step)
      list.push_back(value);
    return list;
  }

private:
  double scaled(double value) const { return log_ ? std::log10(value) : value; }
  double from_px_, to_px_;
  bool log_;
  double low_ = std::numeric_limits<double>::infinity(), high_ = -std::numeric_limits<double>::infinity();
};

std::string frame(const Plot& plot, const Axis& across, const Axis& up) {
  std::string out = fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"#888\"/>\n",
                                left, top, right - left, bottom - top);
  out += fmt::format("<text x=\"{}\" y=\"24\" font-size=\"15\">{}</text>\n", left, plot.title);
  for (const double value : across.ticks())
    out += fmt::format("<text x=\"{0:.1f}\" y=\"{1}\" text-anchor=\"middle\">{2:.4g}</text>\n"
                       "<path d=\"M{0:.1f} {3}V{4}\" stroke=\"#ddd\"/>\n",
                       across.at(value), bottom + 18, value, top, bottom);
  for (const double value : up.ticks())
    out += fmt::format("<text x=\"{0}\" y=\"{1:.1f}\" text-anchor=\"end\">{2:.4g}</text>\n"
                       "<path d=\"M{3} {4:.1f}H{5}\" stroke=\"#ddd\"/>\n",
                       left - 6, up.at(value) + 4, value, left, up.at(value), right);
  out += fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"middle\">{}</text>\n", (left + right) / 2, bottom + 40,
                     plot.across);
  return out + fmt::format("<text transform=\"translate(16 {}) rotate(-90)\" text-anchor=\"middle\">{}</text>\n",
                           (top + bottom) / 2, plot.up);
}

} // namespace

std::string svg(const Plot& plot) {
  Axis across(left, right, plot.logarithmic);
  Axis up(bottom, top, plot.logarithmic);
  for (const Series& series : plot.series)
    for (const auto& [x, y] : series.points) {
      across.hold(x);
      up.hold(y);
    }
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"640\" height=\"380\" viewBox=\"0 0 640 380\" "
                    "font-family=\"sans-serif\" font-size=\"12\" fill=\"#222\">\n"
                    "<rect width=\"640\" height=\"380\" fill=\"#fff\"/>\n";
  out += frame(plot, across, up);
  for (std::size_t k = 0; k < plot.series.size(); ++k) {
    const Series& series = plot.series[k];
    const char* colour = colours[k % colours.size()];
    std::string path;
    for (const auto& [x, y] : series.points) {
      path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", across.at(x), up.at(y));
      if (!series.line)
        out += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"3.5\" fill=\"{}\"/>\n", across.at(x), up.at(y),
                           colour);
    }
    if (series.line)
      out += fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"1.6\"/>\n", path, colour);
    // Errors fall from the upper left to the lower right, loading paths rise: each leaves another corner free.
    const double above = plot.logarithmic ? bottom - 16 * static_cast<double>(plot.series.size()) - 8 : top;
    const double y = above + 18 + 16 * static_cast<double>(k);
    out += series.line
               ? fmt::format("<path d=\"M{} {}h20\" stroke=\"{}\" stroke-width=\"1.6\"/>\n", left + 10, y - 4, colour)
               : fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"3.5\" fill=\"{}\"/>\n", left + 20, y - 4, colour);
    out += fmt::format("<text x=\"{}\" y=\"{}\">{}</text>\n", left + 38, y, series.name);
  }
  return out + "</svg>\n";
}

} // namespace fanwright
