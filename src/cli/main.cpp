// The command line: which command, which options; everything else is in the commands' own files.
#include "cli/advise_command.h"
#include "cli/check_command.h"
#include "cli/compare_command.h"
#include "cli/droop_command.h"
#include "cli/family_command.h"
#include "cli/kit_command.h"
#include "cli/new_command.h"
#include "cli/open_command.h"
#include "cli/picture_command.h"
#include "cli/sheets_command.h"
#include "cli/studio_command.h"
#include "cli/terminal.h"
#include "opened/memory.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <exception>
#include <functional>
#include <memory>
#include <new>
#include <string>
#include <vector>

namespace fanwright::cli {
namespace {

CLI::App* add_advise(CLI::App& app, AdviseRequest& request) {
  CLI::App* advise = app.add_subcommand("advise", "How many leaves and glue rows, which paper, and how they look");
  advise->add_option("FILE", request.file, "design file (*.ornament.json)")->required();
  advise->add_option("--size", request.size, "only the size of this name");
  advise->add_flag("--json", request.json, "write JSON for a program to read");
  return advise;
}

/// A number from `low` to `high`; CLI::Range lets through what is no number, which is neither below nor above.
std::function<std::string(const std::string&)> measured(double low, double high) {
  return [low, high](const std::string& text) {
    double value = 0;
    const bool is_within = CLI::detail::lexical_cast(text, value) && value >= low && value <= high;
    return is_within ? std::string() : fmt::format("{} is not a number from {} to {}", text, low, high);
  };
}

CLI::App* add_compare(CLI::App& app, CompareRequest& request) {
  CLI::App* compare = app.add_subcommand("compare", "Hold a finished piece against its prediction, find what differs");
  compare->add_option("FILE", request.file, "design file (*.ornament.json)")->required();
  compare->add_option("--height", request.height, "of the finished piece, as it stands")
      ->required()
      ->check(measured(0.1, 1e4));
  compare->add_option("--diameter", request.diameter, "of the finished piece where it is widest")
      ->required()
      ->check(measured(0.1, 1e4));
  compare->add_option("--size", request.size, "the size of this name; otherwise the last in the file");
  compare->add_option("--units", request.units, "of all lengths given here: mm (otherwise) or in")
      ->check(CLI::IsMember({"mm", "in"}));
  compare->add_option("--ruler", request.uncertainty, "how far each reading may be off; otherwise 0.5 mm")
      ->check(measured(0.001, 100.0));
  CLI::Option* height =
      compare
          ->add_option("--want-height", request.wanted_height, "correct the size so that the next piece is this high")
          ->check(measured(0.1, 1e4));
  compare->add_option("--want-diameter", request.wanted_diameter, "or this wide")
      ->check(measured(0.1, 1e4))
      ->excludes(height);
  compare->add_option("--out", request.out, "write a copy of the design file with the corrected height");
  compare->add_flag("--json", request.json, "write JSON for a program to read");
  compare->footer(
      "Measure with two set squares against a table: height from the table to the highest place, diameter "
      "at the widest.\nExample: fanwright compare pear.ornament.json --size medium --height 166.5 --diameter "
      "115.9");
  return compare;
}

CLI::App* add_family(CLI::App& app, FamilyRequest& request) {
  CLI::App* family = app.add_subcommand("family", "Propose other sizes: leaves, glue rows and paper for each");
  family->add_option("FILE", request.file, "design file (*.ornament.json)")->required();
  family->add_option("--heights", request.heights, "heights of the sizes, like 120,180,260")
      ->required()
      ->delimiter(',');
  family->add_option("--size", request.size, "go by the size of this name; otherwise the last in the file");
  family->add_option("--units", request.units, "of the heights: mm (otherwise) or in")
      ->check(CLI::IsMember({"mm", "in"}));
  family->add_option("--out", request.out, "write a copy of the design file with these sizes");
  family->add_flag("--json", request.json, "write JSON for a program to read");
  return family;
}

CLI::App* add_new(CLI::App& app, NewRequest& request) {
  CLI::App* command = app.add_subcommand("new", "Make a design file from a drawing, a scan, a photo or a starter");
  CLI::Option* from = command->add_option("--from", request.from, "SVG drawing, or PNG or JPEG picture");
  command->add_option("--starter", request.starter, "one of our designs: apple, beehive, cypress, moth, pear")
      ->excludes(from);
  CLI::Option* height = command->add_option("--height", request.height, "of the figure")->type_name("LENGTH");
  CLI::Option* width =
      command->add_option("--width", request.width, "or its width, both sides")->type_name("LENGTH")->excludes(height);
  command
      ->add_option("--between", request.between,
                   "or two places in the file and their distance: 120,80,120,960=150 (pixels, from the upper left)")
      ->type_name("X,Y,X,Y=LENGTH")
      ->excludes(height)
      ->excludes(width);
  command->add_option("--units", request.units, "of all lengths given here: mm (otherwise) or in")
      ->check(CLI::IsMember({"mm", "in"}));
  command->add_option("--drawn", request.drawn, "the file shows the whole figure or half of it; otherwise found out")
      ->check(CLI::IsMember({"whole", "half"}));
  command->add_option("--side", request.side, "of a whole figure take left, right or their mean (otherwise)")
      ->check(CLI::IsMember({"left", "right", "mean"}));
  command->add_option("--shows", request.shows, "the drawing is the ornament once opened (otherwise) or the flat leaf")
      ->check(CLI::IsMember({"opened", "flat"}));
  command->add_option("--tolerance", request.tolerance, "curves keep within this of the drawing; otherwise 0.2 mm")
      ->type_name("LENGTH");
  command->add_option("--figure", request.figure, "which figure, by size from 1, where the file shows several")
      ->check(CLI::Range(1, 24));
  command->add_option("--title", request.title, "of the ornament; otherwise after the file")->type_name("TEXT");
  command->add_option("--out", request.out, "design file to write; otherwise NAME.ornament.json here")
      ->type_name("FILE");
  command->add_option("--picture", request.picture, "also write an SVG that shows what was changed over the original")
      ->type_name("FILE");
  command->add_flag("--replace", request.replace, "write over a file of that name");
  command->add_flag("--json", request.json, "write JSON for a program to read");
  command->footer("Example: fanwright new --from vase.jpg --height 180");
  return command;
}

CLI::App* add_picture(CLI::App& app, PictureRequest& request) {
  CLI::App* picture = app.add_subcommand("picture", "Draw the opened ornament in paper and light");
  picture->add_option("FILE", request.file, "design file (*.ornament.json)")->required();
  picture->add_option("--out", request.out, "PNG file to write; for --view opening also a folder of frames")
      ->required();
  picture->add_option("--view", request.view, "three-quarter, front, top, close-up, family (all sizes) or opening")
      ->check(CLI::IsMember({"three-quarter", "front", "top", "close-up", "family", "opening"}));
  picture->add_option("--size", request.size, "the size of this name; otherwise the last in the file");
  picture->add_option("--paper", request.paper, "a paper's name or a colour #rrggbb; otherwise the design's colour");
  picture->add_option("--quality", request.quality, "preview or final")->check(CLI::IsMember({"preview", "final"}));
  picture->add_option("--background", request.background, "table, wall, plain or transparent")
      ->check(CLI::IsMember({"table", "wall", "plain", "transparent"}));
  picture->add_option("--pixels", request.pixels, "width and height; otherwise 1200, or 480 for a preview")
      ->check(CLI::Range(16, 4096));
  picture->add_option("--frames", request.frames, "pictures of the opening")->check(CLI::Range(2, 60));
  picture->add_option("--seed", request.seed, "of all chance: the same seed gives the same bytes");
  return picture;
}

CLI::App* add_droop(CLI::App& app, DroopRequest& request) {
  CLI::App* droop = app.add_subcommand("droop", "Measure your paper with a ruler and a table edge");
  droop->add_option("--grammage", request.grammage, "weight of the paper in g/m2 (gsm), from its label")
      ->type_name("G/M2");
  droop
      ->add_option("--weigh", request.weigh,
                   "instead, from a kitchen scale: 50:A4:10 for ten sheets of A4 that weigh 50 g")
      ->type_name("MASS:SHEET:COUNT");
  droop
      ->add_option("--along", request.along,
                   "a reading of a strip cut along the grain, like 200:68, or 200:20deg for the angle; up to four")
      ->type_name("OVERHANG:DROP");
  droop->add_option("--across", request.across, "the same for a strip cut across the grain")
      ->type_name("OVERHANG:DROP");
  droop->add_option("--stack", request.stack, "height of a stack of ten sheets, for the thickness")
      ->type_name("HEIGHT");
  droop->add_option("--sheets", request.sheets, "sheets in the stack, if not ten")->type_name("COUNT");
  droop->add_option("--ruler", request.ruler, "how far overhang and drop may each be off; otherwise 1 mm")
      ->type_name("LENGTH");
  droop->add_option("--units", request.units, "of lengths written without a unit: mm (otherwise) or in")
      ->check(CLI::IsMember({"mm", "in"}));
  droop->add_option("--paper-into", request.paper_into, "design file (*.ornament.json) to write the paper into")
      ->type_name("FILE");
  droop->add_option("--size", request.size, "only into the size of this name")->type_name("NAME");
  droop->add_option("--out", request.out, "write a copy of the design file with the paper, and leave the file as it is")
      ->type_name("FILE");
  droop->add_flag("--json", request.json, "write JSON for a program to read");
  droop->footer(droop_how_to);
  return droop;
}

CLI::App* add_check(CLI::App& app, CheckRequest& request) {
  CLI::App* check = app.add_subcommand("check", "Say whether the ornament can be made, and what to change if not");
  check->add_option("FILE", request.file, "design file (*.ornament.json)")->required();
  check->add_option("--size", request.size, "only the size of this name");
  check->add_flag("--brief", request.brief, "only what fails or warns");
  check->add_flag("--json", request.json, "write JSON for a program to read");
  return check;
}

CLI::App* add_open(CLI::App& app, OpenRequest& request) {
  CLI::App* open = app.add_subcommand("open", "Predict the shape and size of the opened ornament");
  open->add_option("FILE", request.file, "design file (*.ornament.json)")->required();
  open->add_option("--size", request.size, "only the size of this name");
  open->add_option(
      "--mesh", request.files.mesh,
      "also write a mesh of all leaves with thickness: .glb (metres, Y up), .stl, .obj or .3mf (mm, Z up)");
  open->add_option("--opening-sequence", request.stages,
                   "also the measures, moment and pull on the glue at this many stages from the flat stack on")
      ->check(CLI::Range(2, 60));
  open->add_option("--lines", request.files.lines, "also write a line drawing, hidden lines left out: .svg");
  open->add_option("--view", request.files.view, "of the line drawing: three-quarter, front or top")
      ->check(CLI::IsMember(line_views()));
  open->add_flag("--json", request.json, "write JSON for a program to read");
  return open;
}

CLI::App* add_kit(CLI::App& app, KitRequest& request) {
  CLI::App* kit = app.add_subcommand("kit", "Write templates, pictures and numbers to a folder");
  kit->add_option("FILE", request.file, "design file (*.ornament.json)")->required();
  kit->add_option("--out", request.out, "folder to write; an older kit there is replaced")->required();
  kit->add_option("--lap", request.lap_mm,
                  "cut leaves too large for their sheet as two halves, with a lap at the spine, mm")
      ->check(measured(5.0, 100.0));
  return kit;
}

CLI::App* add_sheets(CLI::App& app, SheetsRequest& request) {
  CLI::App* sheets = app.add_subcommand("sheets", "Lay the leaves on as few sheets as can be");
  sheets->add_option("FILE", request.file, "design file (*.ornament.json)")->required();
  sheets->add_option("--size", request.size, "only the size of this name");
  sheets->add_option("--stock", request.stocks,
                     "paper at hand: A4, letter, 305x305, roll:610 ..., with price and number: A3@0.40#10; may be "
                     "repeated; otherwise the sheets of the design");
  sheets->add_flag("--any-turn", request.any_turn, "the grain does not matter: leaves may be turned by 90 degrees");
  sheets->add_flag("--both-faces", request.both_faces, "both faces are alike: leaves may be laid face down");
  sheets->add_option("--lap", request.lap_mm, "split leaves too large for the paper at the spine, with a lap, mm")
      ->check(measured(5.0, 100.0));
  sheets
      ->add_option("--work", request.work,
                   "places to look at; otherwise 8000000 a size, about two seconds, or twice as many")
      ->check(CLI::Range(std::int64_t{1}, std::int64_t{1'000'000'000'000}));
  sheets->add_option("--seed", request.seed, "of all chance: the same seed gives the same layout")
      ->check(CLI::NonNegativeNumber);
  sheets->add_flag("--json", request.json, "write JSON for a program to read");
  return sheets;
}

CLI::App* add_studio(CLI::App& app, StudioRequest& request) {
  CLI::App* studio = app.add_subcommand("studio", "Draw an ornament and see it open, in the browser on this machine");
  studio->add_option("FILE", request.file, "design file (*.ornament.json) to open first; its folder is worked in");
  studio->add_option("--port", request.port, "where the page is served; 0, or without it, any free port")
      ->check(CLI::Range(0, 65535));
  studio->add_flag("--no-browser", request.no_browser, "only print the address, open no browser");
  studio->footer("Nothing leaves this machine. The address holds a key that is new each time; Ctrl+C ends the studio.");
  return studio;
}

/// The commands of an application, each with the request that its options fill.
class Commands {
public:
  explicit Commands(CLI::App& app) : app_(app) {}

  template <typename Request> void add(CLI::App* (*options)(CLI::App&, Request&), int (*runs)(const Request&)) {
    const auto request = std::make_shared<Request>();
    commands_.push_back({options(app_, *request), [request, runs] { return runs(*request); }});
  }

  /// Runs the one that was asked for and gives its exit code.
  int run_asked() const {
    const auto asked =
        std::find_if(commands_.begin(), commands_.end(), [](const Command& command) { return command.app->parsed(); });
    return asked->run();
  }

private:
  struct Command {
    const CLI::App* app;
    std::function<int()> run;
  };

  CLI::App& app_;
  std::vector<Command> commands_;
};

int run(int argc, char** argv) {
  CLI::App app("Fanwright: design and make expanding accordion paper ornaments.", "fanwright");
  app.set_version_flag("--version", "fanwright " FANWRIGHT_VERSION);
  app.require_subcommand(1);
  app.footer("Exit: 0 good, 1 the design fails a check, 2 the command or the file is wrong.");

  Commands commands(app);
  commands.add(add_new, run_new);
  commands.add(add_open, run_open);
  commands.add(add_check, run_check);
  commands.add(add_advise, run_advise);
  commands.add(add_family, run_family);
  commands.add(add_picture, run_picture);
  commands.add(add_kit, run_kit);
  commands.add(add_sheets, run_sheets);
  commands.add(add_studio, run_studio);
  commands.add(add_droop, run_droop);
  commands.add(add_compare, run_compare);

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == static_cast<int>(CLI::ExitCodes::Success)) {
      app.exit(error); // --help and --version: prints what was asked for
      return finish_output() ? Exit::good : Exit::refused;
    }
    complain(std::string(error.what()) + "; see fanwright --help.");
    return Exit::refused;
  }
  return commands.run_asked();
}

} // namespace
} // namespace fanwright::cli

int main(int argc, char** argv) {
  fanwright::opened::keep_memory();
  try {
    return fanwright::cli::run(argc, argv);
  } catch (const std::bad_alloc&) {
    fanwright::cli::complain("There is not enough memory for this design; use fewer rows or a simpler outline.");
  } catch (const std::exception& error) {
    fanwright::cli::complain(std::string("Something unforeseen went wrong: ") + error.what() + ".");
  }
  return fanwright::cli::Exit::refused;
}
