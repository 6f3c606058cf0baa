#include "opened/opening.h"

#include "opened/panels.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <thread>
#include <utility>

namespace fanwright::opened {
namespace {

std::vector<Stage> stages_of(const Panel& panel, int count) {
  auto stages = opening_sequence(panel, count);
  if (const auto* failure = std::get_if<Failure>(&stages)) {
    ADD_FAILURE() << failure->sentence;
    return {};
  }
  return std::get<std::vector<Stage>>(std::move(stages));
}

TEST(opened, a_sequence_ends_at_the_opened_form) {
  const std::vector<Stage> stages = stages_of(small_panel(), 8);
  ASSERT_EQ(stages.size(), 8u);
  EXPECT_EQ(stages.back().opening_deg, 360);
  const Form form = std::get<Form>(open(small_panel()));
  EXPECT_NEAR(stages.back().height_mm, form.height_mm, 2e-4 * form.diameter_mm);
  EXPECT_NEAR(stages.back().moment_nmm / form.holding_moment_nmm, 1, 2e-3);
  for (std::size_t k = 1; k < stages.size(); ++k) {
    EXPECT_GT(stages[k].moment_nmm, stages[k - 1].moment_nmm);
    EXPECT_EQ(stages[k].opening_deg, 45.0 * static_cast<double>(k + 1));
  }
}

TEST(opened, the_moment_over_the_opening_is_the_energy_stored) {
  // Work of the moment from flat to full, by the trapezoid rule: 12 stages of a curve that is nearly a parabola leave
  // 1 % and the energy of contact, left out, less.
  Panel panel = small_panel();
  panel.opening_deg = 180;
  const std::vector<Stage> stages = stages_of(panel, 12);
  ASSERT_EQ(stages.size(), 12u);
  const double step = 15 * std::numbers::pi / 180 / (2 * panel.leaves);
  double work = -0.5 * step * stages.back().moment_nmm;
  for (const Stage& stage : stages) {
    work += step * stage.moment_nmm;
  }
  const Form form = std::get<Form>(open(panel));
  EXPECT_NEAR(work / form.energy_nmm(), 1, 0.03);
}

TEST(opened, the_pull_on_the_rows_balances_the_moment) {
  // Two rows of each side from 3 to 37 mm: lever 2 (37^2 - 3^2) / 2 = 1360 mm2.
  EXPECT_NEAR(row_pull(small_panel(), 1360), 1, 1e-12);
  Panel lopsided = small_panel();
  lopsided.rows[1].to.x = 20;
  EXPECT_NEAR(row_pull(lopsided, 1), 1 / (680 + (20.0 * 20 - 9) / 2), 1e-12);
}

TEST(opened, the_most_stretched_place_lies_on_the_leaf) {
  const leaf::Point place = most_stretched(std::get<Form>(open(small_panel())));
  EXPECT_GT(place.x, 0);
  EXPECT_LT(place.x, 40);
  EXPECT_GT(place.z, 0);
  EXPECT_LT(place.z, 60);
}

TEST(opened, the_same_bits_beside_other_solves_in_other_threads) {
  const Form first = std::get<Form>(open(sloped_panel()));
  std::vector<Form> forms(3);
  std::vector<std::thread> threads;
  for (Form& form : forms) {
    threads.emplace_back([&form] { form = std::get<Form>(open(sloped_panel())); });
  }
  for (std::thread& thread : threads) {
    thread.join();
  }
  for (const Form& form : forms) {
    EXPECT_EQ(form.holding_moment_nmm, first.holding_moment_nmm);
    EXPECT_EQ(form.height_mm, first.height_mm);
    EXPECT_EQ(form.peak_strain, first.peak_strain);
  }
}

} // namespace
} // namespace fanwright::opened
