// POST /api/import: a drawing, a scan or a photo becomes designs to choose from.
#pragma once

#include "studio/http.h"

namespace fanwright::studio {

/// The body is the file itself. Asked for by `height` or `width` (mm) or `between` (x1,y1,x2,y2=mm), `what` (whole,
/// half), `side` (left, right, mean), `shows` (opened, flat), `tolerance` (mm) and `name` (of the file); all may be
/// missing. Answers {kind, notes, figures: [{title, text, outline, cut_outs, size_mm, what, tilt_deg, asymmetry_mm,
/// tolerance_mm, changed, marks, overlay}]}, largest first; 400 with the sentence when nothing can be taken over.
Reply taken_over(const Request& request);

} // namespace fanwright::studio
