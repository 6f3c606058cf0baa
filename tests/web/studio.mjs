// A studio of its own for a test: a folder that is thrown away, a port that the system chooses, a browser page.
// Based on Debian's Chromium. WebGL is drawn by the processor, so that it runs anywhere; the page itself is painted as on any
// machine without graphics. Forcing ANGLE onto the processor too (--use-angle=swiftshader) would count as graphics
// hardware, and every frame of the whole page would go through it: fifty times slower than any maker's browser.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after } from 'node:test';

const root = new URL('../../', import.meta.url).pathname;
const { chromium } = createRequire(join(root, 'web/package.json'))('playwright-core');
const program = process.env.FANWRIGHT ?? join(root, 'build/release/src/cli/fanwright');

const flags = [
  '--headless', '--no-sandbox', '--no-first-run', '--disable-quic', '--disable-background-networking',
  '--disable-component-update', '--disable-sync', '--enable-unsafe-swiftshader',
  // No name is ever looked up: what the page needs, it has.
  '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1',
];

/** Starts the program in `folder`; resolves with its address once it is printed. */
export function serve(folder, file) {
  const child = spawn(program, ['studio', ...(file ? [file] : []), '--no-browser'], { cwd: folder });
  let printed = '';
  const url = new Promise((found, failed) => {
    const read = (bytes) => {
      printed += bytes;
      const address = /http:\/\/127\.0\.0\.1:\d+\/\?key=\S+/.exec(printed);
      if (address) found(address[0]);
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    child.on('error', failed);
    child.on('exit', (code) => failed(new Error(`the studio ended with ${code}: ${printed}`)));
  });
  const ended = new Promise((done) => child.on('exit', done));
  return { child, url, ended };
}

/** One browser for all tests of a file that need none of their own; each page has a context to itself. */
let shared = null;
after(async () => (await shared)?.close());

const browser = (more = []) => chromium.launch({ executablePath: '/usr/bin/chromium', args: [...flags, ...more] });

/** An example with the sizes named alone, and as `change` makes it: what is not looked at need not be computed. */
function lessen(file, sizes, change) {
  const design = JSON.parse(readFileSync(file, 'utf8'));
  if (sizes) design.sizes = design.sizes.filter(({ name }) => sizes.includes(name));
  change?.(design);
  writeFileSync(file, `${JSON.stringify(design, null, 2)}\n`);
}

/**
 * A page on a studio of its own, both gone when `test` ends. `empty`: nothing lies in its folder; else a copy of
 * examples/orchard, of `file` the named `sizes` alone, with what `change` does to it. `round`: the ornament is drawn in
 * the round; else its mesh counts as outdated, since graphics take the processor longer than all else. `args`: of a
 * browser of its own. `before` is given the page before it goes anywhere.
 */
export async function begin(test, {
  file, sizes, change, empty = false, theme = 'light', width = 1280, height = 720, touch = false, round = false, args, before,
} = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'fanwright-studio-'));
  if (!empty) cpSync(join(root, 'examples/orchard'), folder, { recursive: true });
  if (file && (sizes || change)) lessen(join(folder, file), sizes, change);
  const studio = serve(folder, file);
  const wrong = [];
  let chrome = null, context = null;
  test.after(async () => {
    await context?.close();
    if (args) await chrome?.close();
    studio.child.kill('SIGINT');
    await studio.ended;
    rmSync(folder, { recursive: true, force: true });
    assert.deepEqual(wrong, []);
  });
  chrome = await (args ? browser(args) : (shared ??= browser()));
  context = await chrome.newContext({ viewport: { width, height }, colorScheme: theme, hasTouch: touch, acceptDownloads: true });
  const page = await context.newPage();
  page.on('pageerror', (error) => wrong.push(`error in the page: ${error.stack ?? error.message}`));
  page.on('request', (request) => {
    const { protocol, hostname } = new URL(request.url());
    if (!['data:', 'blob:'].includes(protocol) && hostname !== '127.0.0.1') wrong.push(`left the machine: ${request.url()}`);
  });
  const url = await studio.url;
  if (!round) await context.route(/\/mesh\?/, (route) => route.fulfill({ status: 410, json: { sentence: 'left out', where: '' } }));
  await before?.(page);
  await page.goto(url);
  return { page, context, url, folder, studio, wrong };
}

/** Waits until the ornament of the design as it stands is on the table; its revision. */
export async function settled(page, after = 0) {
  await page.waitForFunction(
    (least) => Number(document.querySelector('[data-revision]')?.dataset.revision ?? 0) > least, after, { timeout: 60_000 });
  return Number(await page.locator('[data-revision]').getAttribute('data-revision'));
}
