#include "making/making.h"

namespace fanwright::making {

namespace {

/// Share of the price left for the cost once fees and margin are taken must be more than this: below it a price would
/// be a thousand times the cost, and rounding of the shares would decide it.
constexpr double least_share_left = 1e-3;

} // namespace

std::variant<double, design::Refusal> price(double cost, const design::Prices& prices) {
  // What comes in, P, pays the fees r P + f, the margin m P and the cost C: P = C + f + r P + m P.
  const double left = 1 - prices.fee_share - prices.margin;
  if (!(left > least_share_left))
    return design::Refusal{"/prices",
                           "Fees and margin together take the whole price, so no price covers the cost; make "
                           "\"fee_share\" and \"margin\" add up to less than 1."};
  return (cost + prices.fee_fixed) / left;
}

std::variant<Cost, design::Refusal> cost(const Materials& materials, double hands_on_min,
                                         const design::Prices& prices) {
  Cost result;
  result.paper = materials.sheets * prices.sheet;
  result.glue = materials.glue_g / 100 * prices.glue_per_100g;
  result.glitter = materials.glitter_g / 100 * prices.glitter_per_100g;
  result.sealer = materials.sealer_g / 100 * prices.sealer_per_100g;
  result.materials = (result.paper + result.glue + result.glitter + result.sealer) * (1 + prices.waste);
  result.hours = hands_on_min / 60;
  result.labour = result.hours * prices.hour;
  result.overhead = prices.overhead;
  result.cost = result.materials + result.labour + result.overhead;
  const auto asked = price(result.cost, prices);
  if (const auto* refusal = std::get_if<design::Refusal>(&asked))
    return *refusal;
  result.price = std::get<double>(asked);
  result.fees = result.price * prices.fee_share + prices.fee_fixed;
  result.kept = result.price - result.fees - result.cost;
  result.wholesale = 2 * result.cost;
  result.retail = 2 * result.wholesale;
  return result;
}

} // namespace fanwright::making
