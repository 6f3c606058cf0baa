// Drawings as text, broken in any way.
#include "traced/taken.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fanwright::fuzz::take(data, size);
  return 0;
}
