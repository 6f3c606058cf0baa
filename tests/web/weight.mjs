// node weight.mjs DIST LIMIT: the page's files gzip'ed, in bytes, must not weigh more than LIMIT in all.
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

const [dist, limit] = process.argv.slice(2);
const files = readdirSync(dist, { recursive: true }).filter((name) => statSync(join(dist, name)).isFile());
const weights = files.map((name) => [name, gzipSync(readFileSync(join(dist, name)), { level: 9 }).length]);
const total = weights.reduce((sum, [, weight]) => sum + weight, 0);
for (const [name, weight] of weights) console.log(`${String(weight).padStart(8)}  ${name}`);
console.log(`${String(total).padStart(8)}  in all, allowed ${limit}`);
if (!files.includes('index.html') || total > Number(limit)) process.exit(1);
