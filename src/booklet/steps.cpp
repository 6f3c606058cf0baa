// The steps in the order of the work, each for this design.
#include "booklet/fan_steps.h"

#include <algorithm>

namespace fanwright::booklet {

namespace {

/// Paper above this cracks along an unscored fold: printers' advice is 150 to 170 g/m2 (common practice, no source).
constexpr double cracks_above_gsm = 150;

class Steps {
public:
  explicit Steps(const Edition& edition) : edition_(edition), making_(edition.design().making) {}

  std::vector<StepWords> list() const {
    using enum Message;
    std::vector<StepWords> steps = {
        {say(step_print), {say(step_print_scale), say(step_print_pages)}, {}},
        {say(step_stencil), {say(step_stencil_cut), say(step_stencil_use) + marks()}, Scene::stencil_use},
        cutting()};
    add_joining(steps);
    const std::vector<StepWords> gluing = {
        folding(),
        {say(step_inside),
         {say(step_inside_glue, {{"rows", strips(design::Side::inside)}}), say(step_inside_thin),
          say(step_inside_press, {{"drying", drying()}})},
         Scene::inside_rows},
        {say(step_first_round),
         {say(step_first_round_face, {{"rows", strips(design::Side::between)}}), say(step_first_round_lay)},
         Scene::between_rows},
        {say(step_later_rounds), {say(step_later_rounds_join), say(step_later_rounds_level)}, Scene::packets},
        {say(step_press),
         {say(step_press_weight, {{"drying", drying()}}), say(step_press_last, {{"last", last_drying()}})},
         Scene::press},
        {say(step_test),
         {say(step_test_open, {{"before", say(some_close() ? step_test_before_seam : step_test_before_fixing)}}),
          say(step_test_level)},
         Scene::opening},
        {say(step_free), {say(step_free_blade), say(step_free_before)}, Scene::stuck_cells}};
    steps.insert(steps.end(), gluing.begin(), gluing.end());
    add_closing(steps);
    add_fan_steps(edition_, steps);
    add_finish(steps);
    std::vector<std::string> store = {say(step_store_flat)};
    if (some_close())
      store.insert(store.begin(), say(step_store_open));
    steps.push_back({say(step_store), store, Scene::storing});
    return steps;
  }

private:
  std::string say(Message message, const Values& values = {}) const { return edition_.say(message, values); }
  std::string drying() const { return edition_.language.duration(making_.drying_min); }
  std::string last_drying() const { return edition_.language.duration(making_.last_drying_min); }
  std::string mm(double value, int places = 0) const { return edition_.language.measure(value, places, "mm"); }

  static bool closes(const SizeFacts& facts) { return facts.size->opening_deg >= 360; }
  bool some_close() const {
    return std::any_of(edition_.contents.sizes.begin(), edition_.contents.sizes.end(), closes);
  }

  std::string strips(design::Side side) const {
    return for_each_size(edition_, [&](const SizeFacts& facts) {
      return say(Message::strip_count, {{"count", rows_on(*facts.leaf, side)}});
    });
  }

  std::string marks() const {
    switch (making_.marks) {
    case design::MarkStyle::printed:
      return " " + say(Message::step_stencil_printed);
    case design::MarkStyle::nicks:
      return " " + say(Message::step_stencil_nicks);
    case design::MarkStyle::none:
      break;
    }
    return {};
  }

  StepWords cutting() const {
    using enum Message;
    const SizeFacts& shown = edition_.contents.sizes.front();
    const std::string by_machine = say(step_cut_by_machine, {{"size", shown.size->name},
                                                             {"width", mm(shown.flat_width_mm, 1)},
                                                             {"height", mm(shown.flat_height_mm, 1)},
                                                             {"grain", say(grain_of(shown.size->paper))}});
    const std::string by_hand = say(step_cut_by_hand) + " " + say(step_cut_master);
    const bool machine_first = making_.cutting == design::Cutting::by_machine;
    const std::string leaves = for_each_size(edition_, [&](const SizeFacts& facts) {
      return say(leaf_count, {{"count", facts.size->leaves}});
    });
    return {say(step_cut),
            {say(step_cut_count, {{"leaves", leaves}}), machine_first ? by_machine : by_hand,
             machine_first ? by_hand : by_machine},
            Scene::sheet_and_cut};
  }

  /// Nothing where all leaves are cut whole.
  void add_joining(std::vector<StepWords>& steps) const {
    using enum Message;
    std::string sizes;
    double lap_mm = 0;
    for (const SizeFacts& facts : edition_.contents.sizes)
      if (facts.lap_mm > 0) {
        sizes += (sizes.empty() ? "" : ", ") + facts.size->name;
        lap_mm = facts.lap_mm;
      }
    if (lap_mm > 0)
      steps.push_back({say(step_join),
                       {say(step_join_which, {{"sizes", sizes}, {"lap", mm(lap_mm)}}), say(step_join_score),
                        say(step_join_glue, {{"drying", drying()}})},
                       Scene::joining});
  }

  StepWords folding() const {
    using enum Message;
    const auto& sizes = edition_.contents.sizes;
    const double heaviest = std::max_element(sizes.begin(), sizes.end(), [](const auto& a, const auto& b) {
                              return a.size->paper.grammage_gsm < b.size->paper.grammage_gsm;
                            })->size->paper.grammage_gsm;
    std::string score = say(step_fold_score) + " ";
    score += heaviest > cracks_above_gsm
                 ? say(step_fold_heavy, {{"grammage", edition_.language.measure(heaviest, 0, "g/m²")}})
                 : say(step_fold_light);
    if (making_.score == design::ScoreStyle::dashes)
      score +=
          " " + say(step_fold_dashed, {{"dash", mm(making_.score_dash_mm, 1)}, {"gap", mm(making_.score_gap_mm, 1)}});
    return {say(step_fold), {score, say(step_fold_fold)}, Scene::score_and_fold};
  }

  void add_closing(std::vector<StepWords>& steps) const {
    using enum Message;
    const auto& sizes = edition_.contents.sizes;
    if (some_close()) {
      const std::string clips = for_each_size(edition_, [&](const SizeFacts& facts) {
        return say(clip_count, {{"count", facts.materials.clips}});
      });
      steps.push_back({say(step_seam),
                       {say(step_seam_glue), say(step_seam_clips, {{"clips", clips}, {"last", last_drying()}})},
                       Scene::seam});
    }
    const auto open = std::find_if_not(sizes.begin(), sizes.end(), closes);
    if (open != sizes.end())
      steps.push_back({say(step_fix),
                       {say(step_fix_backing, {{"angle", edition_.language.number(open->size->opening_deg) + "°"},
                                               {"last", last_drying()}})},
                       Scene::backing});
  }

  void add_finish(std::vector<StepWords>& steps) const {
    using enum Message;
    if (making_.display == design::Display::hangs)
      steps.push_back({say(step_hang), {say(step_hang_thread), say(step_hang_check)}, Scene::hanger});
    else
      steps.push_back({say(step_stand), {say(step_stand_check), say(step_stand_disc)}, Scene::foot});
    std::vector<std::string> finish;
    if (making_.glitter)
      finish.push_back(say(step_glitter_edge));
    if (making_.sealer)
      finish.push_back(say(step_sealer_coats));
    if (!finish.empty())
      steps.push_back({say(making_.glitter ? step_glitter : step_sealer), finish, Scene::finishing});
  }

  const Edition& edition_;
  const design::Making& making_;
};

} // namespace

Blocks step_blocks(const Edition& edition) {
  Blocks blocks = {section_heading(edition.look, edition.say(Message::heading_steps))};
  int number = 0;
  for (const StepWords& step : Steps(edition).list())
    blocks.push_back(step_block(edition, ++number, step));
  return blocks;
}

} // namespace fanwright::booklet
