// Opened forms of many leaves drawn at random: all that open well must be found, and none may bring the solver down.
#pragma once

#include <cstdint>

namespace fanwright::bench {

/// Opens `count` leaves whose rows leave room (lock ratio up to 0.7), and as many that do not open: too few leaves,
/// rows too near each other, card far too thick. Prints what was found and what it took. Returns 1 when a leaf that
/// opens was not found or a number is not finite.
int bench_random_designs(std::uint64_t seed, int count);

} // namespace fanwright::bench
