// The opened ornament as the bytes of mesh files. Same body, same bytes: no dates, no names of machines.
#pragma once

#include "picture/solid.h"

#include <string>

namespace fanwright::picture {

/// Binary glTF 2.0 (.glb): metres, Y up; a right-hand and a left-hand mesh, placed by one node for each half-panel.
std::string gltf(const Body& body);

/// Binary STL: mm, Z up, one closed solid after the other.
std::string stl(const Body& body);

/// Wavefront OBJ: mm, Z up, one object for each half-panel; no colour.
std::string obj(const Body& body);

/// 3MF: mm, Z up, shifted so that nothing lies at negative X or Y; a right-hand and a left-hand object, placed by the
/// components of a third.
std::string three_mf(const Body& body);

} // namespace fanwright::picture
