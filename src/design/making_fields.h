// Making, prices and publishing of a design file. Inside src/design only.
#pragma once

#include "design/design.h"
#include "design/fields.h"

namespace fanwright::design {

/// Reads "making"; what it leaves out is as in Making.
Making read_making(const Field& field, const Units& units);

/// Reads "prices". Refuses fees and margin that leave less than a hundredth of the price for the cost.
Prices read_prices(const Field& field);

/// Reads "publishing".
Publishing read_publishing(const Field& field);

} // namespace fanwright::design
