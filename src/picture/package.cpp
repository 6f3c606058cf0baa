#include "picture/package.h"

#include "picture/little_endian.h"

#include <zlib.h>

#include <new>

namespace fanwright::picture {
namespace {

constexpr std::uint16_t version_needed = 20; // 2.0: deflate
constexpr std::uint16_t method_deflate = 8;
constexpr std::uint16_t midnight = 0, first_day = 0x0021; // 1980-01-01

/// Deflated without zlib's own heading, as zip wants it.
std::string deflated(const std::string& bytes) {
  z_stream stream{};
  constexpr int raw_window = -15, memory_level = 8;
  if (deflateInit2(&stream, 6, Z_DEFLATED, raw_window, memory_level, Z_DEFAULT_STRATEGY) != Z_OK)
    throw std::bad_alloc();
  std::string out(deflateBound(&stream, bytes.size()), '\0');
  stream.next_in = const_cast<Bytef*>(reinterpret_cast<const Bytef*>(bytes.data())); // zlib only reads it
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  deflate(&stream, Z_FINISH); // cannot run out of room: deflateBound
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

/// The fields that a part's own heading and its entry in the directory share.
std::string shared_fields(const PackagePart& part, const std::string& packed) {
  std::string fields;
  put_whole(fields, version_needed);
  put_whole(fields, std::uint16_t{0}); // flags
  put_whole(fields, method_deflate);
  put_whole(fields, midnight);
  put_whole(fields, first_day);
  put_whole(fields, static_cast<std::uint32_t>(crc32(0, reinterpret_cast<const Bytef*>(part.bytes.data()),
                                                     static_cast<uInt>(part.bytes.size()))));
  put_whole(fields, static_cast<std::uint32_t>(packed.size()));
  put_whole(fields, static_cast<std::uint32_t>(part.bytes.size()));
  put_whole(fields, static_cast<std::uint16_t>(part.name.size()));
  put_whole(fields, std::uint16_t{0}); // extra field
  return fields;
}

} // namespace

std::string package(const std::vector<PackagePart>& parts) {
  std::string archive, directory;
  for (const PackagePart& part : parts) {
    const std::string packed = deflated(part.bytes), fields = shared_fields(part, packed);
    put_whole(directory, std::uint32_t{0x02014b50});
    put_whole(directory, version_needed); // made by
    directory += fields;
    put_whole(directory, std::uint16_t{0}); // comment
    put_whole(directory, std::uint16_t{0}); // disk
    put_whole(directory, std::uint16_t{0}); // internal attributes
    put_whole(directory, std::uint32_t{0}); // external attributes
    put_whole(directory, static_cast<std::uint32_t>(archive.size()));
    directory += part.name;
    put_whole(archive, std::uint32_t{0x04034b50});
    archive += fields + part.name + packed;
  }
  const auto directory_at = static_cast<std::uint32_t>(archive.size());
  archive += directory;
  put_whole(archive, std::uint32_t{0x06054b50});
  put_whole(archive, std::uint32_t{0}); // this disk, and the directory's
  put_whole(archive, static_cast<std::uint16_t>(parts.size()));
  put_whole(archive, static_cast<std::uint16_t>(parts.size()));
  put_whole(archive, static_cast<std::uint32_t>(directory.size()));
  put_whole(archive, directory_at);
  put_whole(archive, std::uint16_t{0}); // comment
  return archive;
}

} // namespace fanwright::picture
