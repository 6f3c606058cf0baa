// What the studio tells the page, as JSON text.
#pragma once

#include "fit/check.h"
#include "fit/follow.h"
#include "leaf/path_data.h"
#include "opened/spread.h"
#include "studio/folder.h"
#include "studio/http.h"
#include "studio/takes.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fanwright::studio::told {

/// {"sentence", "where"} with a status of 400 and above.
Reply refusal(int status, const std::string& sentence, const std::string& where = {});

/// 200 with a JSON text.
Reply reply(std::string text);

// ---- Designs -------------------------------------------------------------------------------------------------------

/// A design as the page gets it. `lines` are JSON values.
struct Design {
  std::string id;
  std::optional<std::string> name; ///< empty: never saved
  std::string text;
  std::optional<std::string> fingerprint; ///< of the file as it is now
  std::vector<std::string> lines;         ///< of the journal, its base first
  std::uint64_t revision = 0;             ///< the newest a page has asked a shape for
  std::optional<std::string> disk;        ///< text of the file where it has changed since it was last read or saved
};
std::string design(const Design& design);

/// A design to begin from.
struct Starter {
  std::string id, title, text;
  std::vector<leaf::Point> outline;
};

/// An open design in the list.
struct OpenDesign {
  std::string id;
  std::optional<std::string> name;
  std::string title; ///< as its text had it when its gestures began
  bool unsaved = false;
};

struct Bench {
  std::string folder;
  std::vector<Listed> files;
  std::vector<Starter> starters;
  std::vector<OpenDesign> open;
  std::optional<std::string> first;
};
std::string bench(const Bench& bench);

std::string saved(const std::string& fingerprint);
Reply changed_on_disk(const std::string& text, const std::string& fingerprint);
std::string disk(const std::string& text, const std::string& fingerprint);

/// The first line of a journal; `number` is the page's own running number.
std::string journal_base(const std::string& base, const std::string& fingerprint, bool unsaved, std::uint64_t number);
std::string journal_saved(const std::string& fingerprint);

/// Contours in lines and cubics, and the same as path data.
std::string outline(const std::vector<leaf::Subpath>& subpaths);

// ---- Shapes --------------------------------------------------------------------------------------------------------

/// An estimated or settled form, or why there is none.
struct Shape {
  std::uint64_t revision = 0;
  bool settled = false;
  std::string size;
  std::optional<fit::Failure> problem;
  const design::Design* design = nullptr; ///< the rest only where there is a form
  const leaf::Leaf* leaf = nullptr;
  const opened::Panel* panel = nullptr;
  const opened::Form* form = nullptr;
  std::vector<leaf::Point> wanted;
  std::optional<opened::Spread> spread;
  std::string mesh; ///< address; empty: none yet
};
std::string shape(const Shape& shape);

std::string openings(std::uint64_t revision, const std::string& size, const std::vector<double>& shares);

/// A change of the design file that was tried as a remedy.
struct Change {
  std::string at;    ///< JSON pointer
  std::string after; ///< JSON value; empty: the key goes
};
/// `changes` beside the findings, one list each, empty where there is nothing to press.
std::string checks(std::uint64_t revision, const std::string& size, const std::vector<fit::Finding>& findings,
                   const std::vector<std::vector<Change>>& changes);

std::string takes(std::uint64_t revision, const std::vector<Takes>& sizes);

// ---- Jobs ----------------------------------------------------------------------------------------------------------

struct Job {
  std::string id, kind;
  double share = 0; ///< 0..1
  std::string doing;
  bool done = false;
  std::optional<std::string> sentence; ///< why nothing was made
};
std::string job(const Job& job);
std::string job_begun(const std::string& id);

} // namespace fanwright::studio::told
