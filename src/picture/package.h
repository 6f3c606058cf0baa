// Files joined to one, as a zip archive: what Open Packaging Conventions (ISO/IEC 29500-2) call a package.
// Based on PKWARE's .ZIP File Format Specification (APPNOTE 6.3.10), sections 4.3 and 4.4.
#pragma once

#include <string>
#include <vector>

namespace fanwright::picture {

struct PackagePart {
  std::string name; ///< path inside the package, without a leading slash
  std::string bytes;
};

/// The archive's bytes; parts are deflated, every date is the format's first day. Less than 4 GiB in all.
std::string package(const std::vector<PackagePart>& parts);

} // namespace fanwright::picture
