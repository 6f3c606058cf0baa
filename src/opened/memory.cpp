#include "opened/memory.h"

#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace fanwright::opened {

void keep_memory() {
#ifdef __GLIBC__
  constexpr int megabyte = 1 << 20;
  mallopt(M_MMAP_THRESHOLD, 16 * megabyte);
  mallopt(M_TRIM_THRESHOLD, 64 * megabyte);
  mallopt(M_TOP_PAD, 8 * megabyte);
#endif
}

} // namespace fanwright::opened
