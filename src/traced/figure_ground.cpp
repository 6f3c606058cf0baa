#include "traced/figure_ground.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace fanwright::traced {
namespace {

using Colour = std::array<float, 3>;

/// The picture upon white, and its opacity.
struct Reduced {
  int width = 0, height = 0;
  std::vector<Colour> colour;
  std::vector<float> opacity; ///< 0..255
  bool see_through = false;   ///< a part of the picture is transparent
};

constexpr int longest_side = 2200, shortest_long_side = 1100;

/// Sums over the blocks of one row of blocks: three colours upon white and the opacity, in 255 x 255.
using BlockSums = std::vector<std::array<std::uint64_t, 4>>;

void add_row(const Picture& picture, int row, int block, BlockSums& sums) {
  const std::uint8_t* p = picture.at(0, row);
  for (std::size_t at = 0; at < sums.size(); ++at) {
    const int first = static_cast<int>(at) * block, last = std::min(picture.width, first + block);
    std::array<std::uint64_t, 4>& sum = sums[at];
    for (int column = first; column < last; ++column, p += 4) {
      const std::uint32_t opacity = p[3], ground = 255 * (255 - opacity);
      for (std::size_t k = 0; k < 3; ++k)
        sum[k] += p[k] * opacity + ground;
      sum[3] += 255 * opacity;
    }
  }
}

/// Mean over whole blocks of `block` x `block` pixels.
Reduced reduced(const Picture& picture, int block) {
  Reduced result;
  result.width = (picture.width + block - 1) / block;
  result.height = (picture.height + block - 1) / block;
  const std::size_t count = static_cast<std::size_t>(result.width) * static_cast<std::size_t>(result.height);
  result.colour.reserve(count);
  result.opacity.reserve(count);
  BlockSums sums(static_cast<std::size_t>(result.width));
  std::size_t clear = 0;
  for (int first = 0; first < picture.height; first += block) {
    const int last = std::min(picture.height, first + block);
    std::fill(sums.begin(), sums.end(), std::array<std::uint64_t, 4>{});
    for (int row = first; row < last; ++row)
      add_row(picture, row, block, sums);
    for (int column = 0; column < result.width; ++column) {
      const double pixels = static_cast<double>(last - first) * std::min(block, picture.width - column * block);
      const auto mean = [&](std::size_t k) {
        return static_cast<float>(static_cast<double>(sums[static_cast<std::size_t>(column)][k]) / (255 * pixels));
      };
      result.colour.push_back({mean(0), mean(1), mean(2)});
      result.opacity.push_back(mean(3));
      clear += mean(3) < 128 ? 1 : 0;
    }
  }
  result.see_through = static_cast<double>(clear) > 0.01 * static_cast<double>(count);
  return result;
}

/// Colour of the ground as a surface of second degree over the picture.
class Ground {
public:
  using Terms = Eigen::Matrix<double, 6, 1>;

  static Terms terms(double x, double y) { return (Terms() << 1, x, y, x * x, x * y, y * y).finished(); }

  /// Least squares over every `step`th pixel that `weight` lets in.
  template <typename Weight> void fit(const Reduced& picture, int step, const Weight& weight) {
    Eigen::Matrix<double, 6, 6> left = Eigen::Matrix<double, 6, 6>::Identity() * 1e-6;
    Eigen::Matrix<double, 6, 3> right = Eigen::Matrix<double, 6, 3>::Zero();
    for (int row = 0; row < picture.height; row += step)
      for (int column = 0; column < picture.width; column += step) {
        const double w = weight(column, row);
        if (w <= 0)
          continue;
        const Terms t = terms(across(picture, column), down(picture, row));
        const Colour& c = at(picture, column, row);
        left += w * t * t.transpose();
        right += w * t * Eigen::RowVector3d(c[0], c[1], c[2]);
      }
    surface_ = left.ldlt().solve(right);
  }

  /// How far the colours of one row are from the ground's, for every `step`th pixel.
  template <typename Act> void each_distance(const Reduced& picture, int row, int step, const Act& act) const {
    const double y = down(picture, row);
    // Along a row the surface is a parabola: c0 + c1 x + c2 x^2.
    const Eigen::RowVector3d c0 = surface_.row(0) + y * surface_.row(2) + y * y * surface_.row(5);
    const Eigen::RowVector3d c1 = surface_.row(1) + y * surface_.row(4), c2 = surface_.row(3);
    for (int column = 0; column < picture.width; column += step) {
      const double x = across(picture, column);
      const Colour& c = at(picture, column, row);
      double squared = 0;
      for (int k = 0; k < 3; ++k) {
        const double off = c[static_cast<std::size_t>(k)] - (c0[k] + x * (c1[k] + x * c2[k]));
        squared += off * off;
      }
      act(column, std::min(255.0, std::sqrt(squared / 3)));
    }
  }

  static const Colour& at(const Reduced& picture, int column, int row) {
    return picture.colour[static_cast<std::size_t>(row) * static_cast<std::size_t>(picture.width) +
                          static_cast<std::size_t>(column)];
  }

private:
  static double across(const Reduced& picture, int column) { return 2.0 * column / picture.width - 1; }
  static double down(const Reduced& picture, int row) { return 2.0 * row / picture.height - 1; }

  Eigen::Matrix<double, 6, 3> surface_ = Eigen::Matrix<double, 6, 3>::Zero();
};

/// The colour that most of the picture's rim has, per channel.
Colour rim_median(const Reduced& picture) {
  Colour median{};
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<float> rim;
    for (int column = 0; column < picture.width; ++column)
      for (const int row : {0, picture.height - 1})
        rim.push_back(Ground::at(picture, column, row)[k]);
    for (int row = 0; row < picture.height; ++row)
      for (const int column : {0, picture.width - 1})
        rim.push_back(Ground::at(picture, column, row)[k]);
    std::nth_element(rim.begin(), rim.begin() + static_cast<std::ptrdiff_t>(rim.size() / 2), rim.end());
    median[k] = rim[rim.size() / 2];
  }
  return median;
}

std::array<double, 256> counts_of(const std::vector<float>& values) {
  std::array<double, 256> counts{};
  for (const float value : values)
    ++counts[static_cast<std::size_t>(std::clamp(std::lround(value), 0L, 255L))];
  return counts;
}

/// Distances from a ground that is fitted to the rim first, then to all that is near it.
std::vector<float> distances(const Reduced& picture) {
  const int step = std::max(1, std::max(picture.width, picture.height) / 250);
  const Colour start = rim_median(picture);
  Ground ground;
  const int rim = std::max(2, std::min(picture.width, picture.height) / 12);
  ground.fit(picture, std::max(1, step / 2), [&](int column, int row) {
    const bool in_rim = std::min({column, row, picture.width - 1 - column, picture.height - 1 - row}) < rim;
    const Colour& c = Ground::at(picture, column, row);
    const double away = std::hypot(c[0] - start[0], c[1] - start[1], c[2] - start[2]);
    return in_rim ? 1 / (1 + away * away / 900) : 0.0;
  });
  for (int round = 0; round < 4; ++round) {
    std::array<double, 256> counts{};
    std::vector<double> away;
    for (int row = 0; row < picture.height; row += step)
      ground.each_distance(picture, row, step, [&](int, double distance) {
        ++counts[static_cast<std::size_t>(distance)];
        away.push_back(distance);
      });
    const double level = 0.7 * parted_at(counts, 0, 256);
    std::size_t next = 0; // in the order in which they are asked for again
    ground.fit(picture, step, [&](int, int) {
      const double distance = away[next++];
      return distance < level ? 1 / (1 + distance * distance / 100) : 0.0;
    });
  }
  std::vector<float> values(picture.colour.size());
  for (int row = 0; row < picture.height; ++row) {
    float* first = values.data() + static_cast<std::size_t>(row) * static_cast<std::size_t>(picture.width);
    ground.each_distance(picture, row, 1,
                         [&](int column, double distance) { first[column] = static_cast<float>(distance); });
  }
  return values;
}

/// Between pixels, `factor` times as many each way.
void enlarge(Contrast& contrast, int factor) {
  const int width = contrast.width * factor, height = contrast.height * factor;
  std::vector<float> larger(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  const auto old = [&](int column, int row) {
    return contrast.value[static_cast<std::size_t>(std::clamp(row, 0, contrast.height - 1)) *
                              static_cast<std::size_t>(contrast.width) +
                          static_cast<std::size_t>(std::clamp(column, 0, contrast.width - 1))];
  };
  for (int row = 0; row < height; ++row)
    for (int column = 0; column < width; ++column) {
      const double x = (column + 0.5) / factor - 0.5, y = (row + 0.5) / factor - 0.5;
      const int x0 = static_cast<int>(std::floor(x)), y0 = static_cast<int>(std::floor(y));
      const double u = x - x0, v = y - y0;
      larger[static_cast<std::size_t>(row) * static_cast<std::size_t>(width) + static_cast<std::size_t>(column)] =
          static_cast<float>((1 - v) * ((1 - u) * old(x0, y0) + u * old(x0 + 1, y0)) +
                             v * ((1 - u) * old(x0, y0 + 1) + u * old(x0 + 1, y0 + 1)));
    }
  contrast.value = std::move(larger);
  contrast.width = width;
  contrast.height = height;
  contrast.pixel /= factor;
}

/// Blurs by thirds along rows and columns: single noisy pixels vanish, straight edges stay where they are.
void soften(Contrast& contrast) {
  const auto pass = [&](int count, int lines, std::size_t along, std::size_t across) {
    std::vector<float> line(static_cast<std::size_t>(count));
    for (int l = 0; l < lines; ++l) {
      float* first = contrast.value.data() + static_cast<std::size_t>(l) * across;
      for (int k = 0; k < count; ++k) {
        const auto value = [&](int i) { return first[static_cast<std::size_t>(std::clamp(i, 0, count - 1)) * along]; };
        line[static_cast<std::size_t>(k)] = 0.25F * value(k - 1) + 0.5F * value(k) + 0.25F * value(k + 1);
      }
      for (int k = 0; k < count; ++k)
        first[static_cast<std::size_t>(k) * along] = line[static_cast<std::size_t>(k)];
    }
  };
  const auto width = static_cast<std::size_t>(contrast.width);
  pass(contrast.width, contrast.height, 1, width);
  pass(contrast.height, contrast.width, width, 1);
}

} // namespace

double parted_at(const std::array<double, 256>& counts, int from, int to) {
  double total = 0, sum = 0;
  for (int k = from; k < to; ++k) {
    total += counts[static_cast<std::size_t>(k)];
    sum += k * counts[static_cast<std::size_t>(k)];
  }
  double below = 0, below_sum = 0, best = -1, middle = from;
  for (int k = from; k + 1 < to; ++k) {
    below += counts[static_cast<std::size_t>(k)];
    below_sum += k * counts[static_cast<std::size_t>(k)];
    const double above = total - below;
    if (below <= 0 || above <= 0)
      continue;
    const double low = below_sum / below, high = (sum - below_sum) / above;
    const double apart = below * above * (high - low) * (high - low);
    if (apart > best) {
      best = apart;
      middle = (low + high) / 2;
    }
  }
  return middle;
}

std::variant<Contrast, std::string> contrast_of(const Picture& picture) {
  constexpr double least_contrast = 12; // of 255; paper and light vary by less
  if (picture.width < 16 || picture.height < 16)
    return "The picture has only " + std::to_string(picture.width) + " x " + std::to_string(picture.height) +
           " pixels; it needs 16 each way at least, and some 1000 for a good outline.";
  const int longer = std::max(picture.width, picture.height);
  const int block = std::max(1, (longer + longest_side - 1) / longest_side);
  const Reduced small = reduced(picture, block);
  Contrast contrast{small.width, small.height, {}, 127.5, static_cast<double>(block)};
  contrast.value = small.see_through ? small.opacity : distances(small);
  if (!small.see_through) {
    soften(contrast);
    contrast.threshold = parted_at(counts_of(contrast.value), 0, 256);
  }
  if (contrast.threshold < least_contrast)
    return std::string("Nothing in the picture stands out from its ground; lay the drawing or the thing on a plain "
                       "ground of another colour, in even light.");
  const int factor = std::clamp((shortest_long_side + longer - 1) / longer, 1, 8);
  if (factor > 1)
    enlarge(contrast, factor);
  return contrast;
}

Bitmap figure_of(const Contrast& contrast) {
  Bitmap bitmap(contrast.width, contrast.height);
  for (std::size_t k = 0; k < bitmap.ink.size(); ++k)
    bitmap.ink[k] = contrast.value[k] > contrast.threshold ? 1 : 0;
  return bitmap;
}

} // namespace fanwright::traced
