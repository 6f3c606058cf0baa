// The pairs of group code and value that DXF is made of. For the DXF files of this folder only.
#pragma once

#include "drawing/drawing.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace fanwright::drawing {

/// "1F"
std::string hexadecimal(std::uint64_t number);

/// Words as one DXF string: plain ASCII, everything else as \U+XXXX; letters beyond that notation are white squares.
std::string dxf_words(std::string_view words);

/// A growing piece of a DXF file.
class Tags {
public:
  Tags& text(int code, std::string_view value);
  Tags& whole(int code, long value);
  Tags& real(int code, double value);
  /// x under `code`, y under `code` + 10.
  Tags& point(int code, const Point& point);
  /// As point(), with z = 0 under `code` + 20.
  Tags& point3(int code, const Point& where);
  Tags& append(const Tags& other);

  const std::string& bytes() const { return bytes_; }

private:
  std::string bytes_;
};

/// Gives every object of a file its own number.
class Handles {
public:
  std::string next() { return hexadecimal(++last_); }
  /// The first that is still free.
  std::string seed() const { return hexadecimal(last_ + 1); }

private:
  std::uint64_t last_ = 0;
};

} // namespace fanwright::drawing
