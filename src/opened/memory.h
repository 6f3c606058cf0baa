// Memory between one solve and the next.
#pragma once

namespace fanwright::opened {

/// Lets the program keep up to 64 MB that solves have given back, for the next ones: asked for anew from the system
/// each time, it takes a third of the time of a form beside another. For a program's main(), once, before other
/// threads; the whole program allocates so from then on.
void keep_memory();

} // namespace fanwright::opened
