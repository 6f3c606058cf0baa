// node bench/page/first_view.mjs [RUNS] [round]: how soon a newly opened page shows the drawing's lines, then the opened
// outline with the ornament's height and diameter, in ms from the start of loading. Medians of RUNS (9) pages, each on a
// studio begun for it, that has solved nothing yet, in a browser context with nothing kept. The ornament is drawn in the
// round after that, on graphics that may be far slower here than a maker's: with `round` it is waited for too.
import { test } from 'node:test';
import { begin } from '../../tests/web/studio.mjs';

const runs = Number(process.argv[2] ?? 9), round = process.argv[3] === 'round';
const median = (values) => [...values].sort((a, b) => a - b)[values.length >> 1];
const taken = { painted: [], drawn: [], opened: [], round: [] };

for (let run = 0; run < runs; ++run) {
  test(`page ${run + 1}`, async (t) => {
    const { page } = await begin(t, {
      file: 'pear.ornament.json', round,
      before: (fresh) => fresh.addInitScript(() => {
        window.seen = {};
        const waiting = {
          drawn: () => document.querySelector('[data-knot]'),
          opened: () => document.querySelector('[data-opened]') && document.querySelector('.seen')?.ariaLabel?.includes('opened:'),
          round: () => document.querySelector('.seen svg line'),
        };
        // What is found in one frame's tree is painted when a task begun within that frame runs.
        const look = () => {
          for (const [what, there] of Object.entries(waiting)) {
            if (!there()) continue;
            delete waiting[what];
            setTimeout(() => (window.seen[what] = performance.now()), 0);
          }
          requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
    });
    await page.waitForFunction((last) => window.seen[last] !== undefined, round ? 'round' : 'opened', { timeout: 60_000 });
    const seen = await page.evaluate(() => ({
      ...window.seen, painted: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN,
    }));
    for (const key of Object.keys(taken)) taken[key].push(seen[key] ?? NaN);
  });
}

test('first view', () => {
  console.log(`first view, pear, ${runs} pages, median ms:`);
  console.log(`  something is seen                             ${median(taken.painted).toFixed(0)}`);
  console.log(`  the drawing is on its mat                     ${median(taken.drawn).toFixed(0)}`);
  console.log(`  opened outline, height and diameter are there ${median(taken.opened).toFixed(0)}   (asked for: 1000)`);
  if (round) console.log(`  the ornament stands there in the round        ${median(taken.round).toFixed(0)}`);
});
