// The scenes one by one; sketch() chooses among them.
#pragma once

#include "booklet/sketch_easel.h"
#include "booklet/sketch_leaf.h"

#include <vector>

namespace fanwright::booklet {

std::vector<Panel> sheet_and_cut(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> joining(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> score_and_fold(const DrawnLeaf& leaf);
std::vector<Panel> stencil_use(const DrawnLeaf& leaf);
std::vector<Panel> inside_rows(const DrawnLeaf& leaf);
std::vector<Panel> between_rows(const DrawnLeaf& leaf);
std::vector<Panel> packets(const Subject& subject, double width_mm, double height_mm);
std::vector<Panel> press(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> opening(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> seam(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> backing(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> stuck_cells(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> fan_pleating(const fan::SizedFan& fan);
std::vector<Panel> fan_spreading(const Subject& subject);
std::vector<Panel> foot(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> hanger(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> finishing(const Subject& subject, const DrawnLeaf& leaf);
std::vector<Panel> storing(const DrawnLeaf& leaf);

} // namespace fanwright::booklet
