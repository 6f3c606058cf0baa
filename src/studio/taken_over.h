// POST /api/import: a drawing, a scan or a photo becomes designs to choose from.
#pragma once

#include "studio/http.h"

namespace fanwright::studio {

/// The body is the file itself. Asked for by `height` or `width` (mm) or `between` (x1,y1,x2,y2=mm), `what` (whole,
/// half), `side` (left, right, mean), `shows` (opened, flat), `tolerance` (mm), `name` (of the file) and `figure` (that
/// one alone, from 1; a leaf that opens into it is looked for, else it becomes the flat leaf); all may be missing.
/// Answers as docs/studio.md says; 400 with the sentence when nothing can be taken over.
Reply taken_over(const Request& request);

} // namespace fanwright::studio
