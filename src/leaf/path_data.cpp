#include "leaf/path_data.h"

#include "leaf/contour.h"
#include "leaf/tolerances.h"

#include <charconv>
#include <cmath>
#include <optional>

namespace fanwright::leaf {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// Reads numbers, flags and separators; remembers the first fault and then yields nothing more.
class Reader {
public:
  explicit Reader(std::string_view text) : text_(text) {}

  bool at_end() const { return at_ >= text_.size(); }
  bool failed() const { return fault_.has_value(); }
  const PathFault& fault() const { return *fault_; }
  char peek() const { return at_end() ? '\0' : text_[at_]; }
  std::size_t position() const { return at_; }
  void skip() { ++at_; }

  void skip_space() {
    while (!at_end() && is_space(peek()))
      ++at_;
  }

  /// comma_wsp: spaces with at most one comma. Returns whether a comma was taken.
  bool skip_separator() {
    skip_space();
    if (peek() != ',')
      return false;
    ++at_;
    skip_space();
    return true;
  }

  bool number_follows() const { return is_digit(peek()) || peek() == '.' || peek() == '-' || peek() == '+'; }

  double number() {
    if (failed())
      return 0;
    const std::size_t begin = at_;
    const std::size_t end = number_end();
    if (end == begin)
      return fail_expecting("a number");
    const bool plus = text_[begin] == '+';
    double value = 0;
    const auto result = std::from_chars(text_.data() + begin + (plus ? 1 : 0), text_.data() + end, value);
    if (result.ec != std::errc{} || std::abs(value) > largest_coordinate)
      return fail(begin, "holds the number " +
                             std::string(text_.substr(begin, std::min<std::size_t>(end - begin, 24))) +
                             "; coordinates must lie within -100000 and 100000");
    at_ = end;
    return value;
  }

  bool flag() {
    if (failed())
      return false;
    if (peek() != '0' && peek() != '1')
      return fail_expecting("an arc flag, 0 or 1,") != 0;
    return text_[at_++] == '1';
  }

  double fail_expecting(std::string_view expected) {
    std::string found = "the text ends";
    if (!at_end()) {
      const char c = peek();
      found = c > ' ' && c < '\x7f' ? std::string("'") + c + "' stands there" : "another character stands there";
    }
    return fail(at_, "needs " + std::string(expected) + " but " + found);
  }

  double fail(std::size_t position, const std::string& what) {
    if (!failed())
      fault_ = PathFault{position + 1, "The path at character " + std::to_string(position + 1) + " " + what + "."};
    return 0;
  }

private:
  /// End of the number that starts here, or here when none does. "1." is a number, "." is not.
  std::size_t number_end() const {
    std::size_t i = at_;
    const auto digits = [&] {
      const std::size_t first = i;
      while (i < text_.size() && is_digit(text_[i]))
        ++i;
      return i > first;
    };
    const auto is_at = [&](char a, char b) { return i < text_.size() && (text_[i] == a || text_[i] == b); };
    if (is_at('+', '-'))
      ++i;
    bool any = digits();
    if (is_at('.', '.')) {
      ++i;
      any = digits() || any;
    }
    if (!any)
      return at_;
    const std::size_t mantissa_end = i;
    if (is_at('e', 'E')) {
      ++i;
      if (is_at('+', '-'))
        ++i;
      if (!digits())
        return mantissa_end;
    }
    return i;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::optional<PathFault> fault_;
};

/// Turns commands into subpaths.
class PathParser {
public:
  explicit PathParser(std::string_view text) : reader_(text) {}

  std::variant<std::vector<Subpath>, PathFault> parse() {
    reader_.skip_space();
    if (reader_.at_end() || lower(reader_.peek()) != 'm')
      reader_.fail_expecting("to begin with M or m");
    while (!reader_.failed() && !reader_.at_end())
      command();
    if (reader_.failed())
      return reader_.fault();
    finish_subpath();
    return std::move(subpaths_);
  }

private:
  void command() {
    letter_ = reader_.peek();
    if (letter_ == '\0' || std::string_view("mzlhvcsqta").find(lower(letter_)) == std::string_view::npos) {
      reader_.fail_expecting("one of the commands M L H V C S Q T A Z");
      return;
    }
    reader_.skip();
    reader_.skip_space();
    if (lower(letter_) == 'z') {
      count();
      close();
      return;
    }
    bool first = true, comma = false;
    do {
      arguments(first);
      first = false;
      comma = reader_.skip_separator();
    } while (!reader_.failed() && reader_.number_follows());
    if (comma)
      reader_.fail_expecting("a number after the comma");
  }

  void count() {
    if (++commands_ > most_path_commands)
      reader_.fail(reader_.position(), "holds more than 20000 commands; draw the silhouette with fewer points");
  }

  void arguments(bool first) {
    count();
    switch (lower(letter_)) {
    case 'm':
      if (first)
        move();
      else
        line(point()); // further pairs after a move are lines (SVG 2, section 9.3.3)
      break;
    case 'l':
      line(point());
      break;
    case 'h':
      line({ordinate(current_.x), current_.z});
      break;
    case 'v':
      line({current_.x, ordinate(current_.z)});
      break;
    case 'c':
    case 's':
      cubic();
      break;
    case 'q':
    case 't':
      quadratic();
      break;
    default:
      arc();
    }
  }

  bool relative() const { return letter_ >= 'a'; }

  double ordinate(double base) {
    const std::size_t begin = reader_.position();
    const double value = reader_.number() + (relative() ? base : 0.0);
    if (std::abs(value) > largest_coordinate)
      reader_.fail(begin, "leads beyond 100000; coordinates must lie within -100000 and 100000");
    return value;
  }

  Point point() {
    const double x = ordinate(current_.x);
    reader_.skip_separator();
    return {x, ordinate(current_.z)};
  }

  Point next_point() {
    reader_.skip_separator();
    return point();
  }

  void move() {
    finish_subpath();
    current_ = point();
    open_ = Subpath{current_, {}, false};
    last_control_.reset();
  }

  void add(const Segment& segment) {
    open_.segments.push_back(segment);
    current_ = end_of(segment);
    last_control_.reset();
  }

  void line(Point to) { add(Line{to}); }

  /// The last control point mirrored in the current point when the last command was of the same family.
  Point reflected(char family) const {
    if (!last_control_ || family_ != family)
      return current_;
    return {2 * current_.x - last_control_->x, 2 * current_.z - last_control_->z};
  }

  void cubic() {
    const bool smooth = lower(letter_) == 's';
    const Point control1 = smooth ? reflected('c') : point();
    const Point control2 = smooth ? point() : next_point();
    add(Cubic{control1, control2, next_point()});
    last_control_ = control2;
    family_ = 'c';
  }

  void quadratic() {
    const bool smooth = lower(letter_) == 't';
    const Point control = smooth ? reflected('q') : point();
    add(Quadratic{control, smooth ? point() : next_point()});
    last_control_ = control;
    family_ = 'q';
  }

  void arc() {
    Arc arc;
    arc.radius_x = std::abs(reader_.number());
    reader_.skip_separator();
    arc.radius_z = std::abs(reader_.number());
    reader_.skip_separator();
    arc.rotation_deg = reader_.number();
    reader_.skip_separator();
    arc.large = reader_.flag();
    reader_.skip_separator();
    arc.sweep = reader_.flag();
    arc.to = next_point();
    if (arc.radius_x == 0 || arc.radius_z == 0)
      line(arc.to);
    else
      add(arc);
  }

  void close() {
    if (!open_.segments.empty() && !(current_ == open_.start))
      line(open_.start);
    open_.closed = true;
    const Point start = open_.start;
    finish_subpath();
    open_ = Subpath{start, {}, false}; // drawing may go on from here without a move
    current_ = start;
    last_control_.reset();
    reader_.skip_space();
  }

  void finish_subpath() {
    if (!open_.segments.empty())
      subpaths_.push_back(std::move(open_));
    open_ = Subpath{};
  }

  Reader reader_;
  char letter_ = 'M';
  char family_ = ' ';
  int commands_ = 0;
  Point current_;
  std::optional<Point> last_control_;
  Subpath open_;
  std::vector<Subpath> subpaths_;
};

} // namespace

std::variant<std::vector<Subpath>, PathFault> parse_path_data(std::string_view text) {
  return PathParser(text).parse();
}

} // namespace fanwright::leaf
