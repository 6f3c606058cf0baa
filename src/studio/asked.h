// What the page asks, read from JSON text. Every reader gives the request or the sentence to refuse it with.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fanwright::studio::asked {

template <typename Asked> using Read = std::variant<Asked, std::string>;

/// One of the four ways to put a design on the bench.
struct Open {
  std::optional<std::string> file, text, starter;
  std::string name; ///< wished for a given text; may be empty
  bool blank = false;
};
Read<Open> open(const std::string& body);

struct Journal {
  std::vector<std::string> lines; ///< JSON values, one line each
  std::optional<std::string> restart;
  std::uint64_t number = 0; ///< running number of the page, for the line a restart writes
};
Read<Journal> journal(const std::string& body);

struct Save {
  std::string text, fingerprint;
  bool even_if_changed = false;
};
Read<Save> save(const std::string& body);

struct Copy {
  std::string name, text;
  bool replace = false;
};
Read<Copy> copy(const std::string& body);

struct Outline {
  std::string path;
  double units_to_mm = 1;
};
Read<Outline> outline(const std::string& body);

struct Shape {
  std::uint64_t revision = 0;
  std::string size; ///< empty: the last
  std::string text;
  bool settle = true;
};
Read<Shape> shape(const std::string& body);

/// A design's text and which of its sizes is meant.
struct OneSize {
  std::string text, size;
};
Read<OneSize> one_size(const std::string& body);

struct Kit {
  std::string text;
  std::optional<std::vector<std::string>> sizes;
  std::map<std::string, double> grammages; ///< g/m2, by size
  double lap_mm = 0; ///< leaves that a sheet does not take are cut in two, with a lap so wide; 0: refused
};
Read<Kit> kit(const std::string& body);

struct Picture {
  std::string text, size, view = "three-quarter", paper, quality = "preview", background = "table";
  int pixels = 0; ///< 0: by quality
};
Read<Picture> picture(const std::string& body);

struct MeshFile {
  std::string text, size, kind;
};
Read<MeshFile> mesh_file(const std::string& body);

/// The sentence of a refusal that told::refusal() wrote.
std::string sentence_in(const std::string& refusal);

/// Whether a text is one JSON value, nested no deeper than requests may be.
/// The title in a design's text, sound or not; empty where it has none.
std::string title_in(const std::string& text);

bool is_json(std::string_view text);

/// The first line of a journal.
struct Base {
  std::string text, fingerprint;
  bool unsaved = false;
  std::uint64_t number = 0;
};
std::optional<Base> journal_base(const std::string& line);

/// The fingerprint in {"saved": fingerprint, ...}; nothing for other lines.
std::optional<std::string> saved_in(const std::string& line);

} // namespace fanwright::studio::asked
