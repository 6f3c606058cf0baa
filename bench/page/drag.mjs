// node bench/page/drag.mjs [EVENTS]: from a pointer's event to the opened outline painted, while a point of the pear is
// dragged; median and 95th percentile of EVENTS (400) events, sent at a hand's pace of 60 a second. Measured in the page.
import { test } from 'node:test';
import { middle, point, ready } from '../../tests/web/drawing.mjs';
import { begin } from '../../tests/web/studio.mjs';

const events = Number(process.argv[2] ?? 400);

test('drag', async (t) => {
  const { page, url } = await begin(t, { file: 'pear.ornament.json', round: true });
  await page.goto(new URL('/?bench', url).href);
  await ready(page);
  await page.waitForTimeout(3000);
  const from = await middle(point(page, 3));
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (let i = 1; i <= events; i += 1) {
    const turn = (i / 60) * Math.PI;
    await page.mouse.move(from.x + 14 * Math.sin(turn), from.y + 9 * Math.sin(turn * 1.7));
    await page.waitForTimeout(16);
  }
  await page.mouse.up();
  await page.waitForTimeout(2000);
  const times = (await page.evaluate(() => window.fanwrightTimes)).sort((a, b) => a - b);
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(0);
  console.log(`drag, pear, ${times.length} events, pointer to painted outline, ms:`);
  console.log(`  median            ${at(0.5)}   (asked for: 50)`);
  console.log(`  95th percentile   ${at(0.95)}   (asked for: 120)`);
});
