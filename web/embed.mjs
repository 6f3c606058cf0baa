// Writes the built page as one C++ source: node embed.mjs DIST OUT_DIRECTORY. Bytes go into OUT_DIRECTORY/page.bin, which
// the assembler takes in whole; a list of numbers of that length would take the compiler many seconds.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { extname, join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';

const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
  '.wasm': 'application/wasm',
};

const filesOf = (folder, below) =>
  readdirSync(folder, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) =>
      entry.isDirectory()
        ? filesOf(join(folder, entry.name), `${below}${entry.name}/`)
        : [{ path: `${below}${entry.name}`, bytes: readFileSync(join(folder, entry.name)) }],
    );

const [dist, out] = process.argv.slice(2);
const parts = [];
let end = 0;
const placed = (bytes) => {
  parts.push(bytes);
  end += bytes.length;
  return `part(${end - bytes.length}, ${bytes.length})`;
};
const entries = filesOf(dist, '/').map(({ path, bytes }) => {
  const type = types[extname(path)];
  if (!type) throw new Error(`web/embed.mjs knows no media type for ${path}`);
  return `    PageFile{"${path}", "${type}", ${placed(bytes)}, ${placed(gzipSync(bytes, { level: 9 }))}},`;
});

const blob = resolve(out, 'page.bin');
const bytes = Buffer.concat(parts);
writeFileSync(blob, bytes);
// A name of its own for each content, since compiler caches do not look into page.bin.
const symbol = `fanwright_page_${createHash('sha256').update(bytes).digest('hex').slice(0, 16)}`;
writeFileSync(
  join(out, 'page_files.cpp'),
  `#include "studio/page.h"

#include <array>
#include <cstddef>

__asm__(R"(
  .section .rodata
  .balign 16
  .global ${symbol}
  .hidden ${symbol}
${symbol}:
  .incbin "${blob}"
  .previous
)");

extern "C" const char ${symbol}[];

namespace fanwright::studio {
namespace {

std::string_view part(std::size_t begin, std::size_t size) { return {${symbol} + begin, size}; }

} // namespace

std::span<const PageFile> page_files() {
  static const std::array<PageFile, ${entries.length}> files{
${entries.join('\n')}
  };
  return files;
}

} // namespace fanwright::studio
`,
);
