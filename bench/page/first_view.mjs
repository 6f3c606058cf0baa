// node bench/page/first_view.mjs [RUNS]: how soon a newly opened page shows the drawing's words, the outline of the
// opened ornament and the ornament in the round, in ms from the start of loading. Medians of RUNS (7) pages on one
// studio, each in a browser context of its own with nothing kept.
import { begin } from '../../tests/web/studio.mjs';

const runs = Number(process.argv[2] ?? 7);
const median = (values) => [...values].sort((a, b) => a - b)[values.length >> 1];

const over = [];
const first = await begin({ after: (close) => over.push(close) }, { file: 'pear.ornament.json' });
const address = first.page.url();
const cookies = await first.context.cookies();
const taken = { painted: [], measured: [], round: [] };
for (let run = 0; run < runs; ++run) {
  const context = await first.context.browser().newContext({ viewport: { width: 1280, height: 720 } });
  await context.addCookies(cookies);
  const page = await context.newPage();
  await page.addInitScript(() => {
    window.seen = {};
    // Timers, as frames wait for graphics that the processor draws.
    const look = () => {
      const place = document.querySelector('.seen');
      if (place?.ariaLabel?.includes('opened:')) window.seen.measured ??= performance.now();
      if (place?.querySelector('svg line')) window.seen.round ??= performance.now();
      setTimeout(look, 5);
    };
    look();
  });
  await page.goto(address);
  await page.waitForFunction(() => window.seen.round !== undefined && window.seen.measured !== undefined, null, { timeout: 60_000 });
  const seen = await page.evaluate(() => ({
    ...window.seen, painted: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN,
  }));
  for (const key of Object.keys(taken)) taken[key].push(seen[key]);
  await context.close();
}
for (const close of over) await close();
console.log(`first view, pear, ${runs} pages, median ms:`);
console.log(`  something is seen                      ${median(taken.painted).toFixed(0)}`);
console.log(`  opened height and diameter are told    ${median(taken.measured).toFixed(0)}   (asked for: 1000)`);
console.log(`  the ornament stands there in the round ${median(taken.round).toFixed(0)}`);
