// Fit for people: axe-core finds nothing serious in any pane, theme or window size, and nothing is wider than the window.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { begin, settled } from './studio.mjs';

const axe = readFileSync(new URL('../../web/node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');

/** Opens everything that can be opened, so that it is looked at too. */
async function unfold(page) {
  await page.getByRole('button', { name: 'How many leaves, rows, which paper?' }).click();
  await page.getByText(/^Advice for/).waitFor({ timeout: 60_000 });
  await page.evaluate(() => document.querySelectorAll('main details').forEach((fold) => (fold.open = true)));
}

for (const theme of ['light', 'dark']) {
  test(`nothing serious found by axe-core, ${theme}`, { timeout: 240_000 }, async (t) => {
    const { page } = await begin(t, { file: 'pear.ornament.json', theme });
    await settled(page);
    await page.getByText('How small lies on').waitFor({ timeout: 60_000 });
    await unfold(page);
    // Evaluated by the browser's own door, as the page's rules allow no script from elsewhere.
    await page.evaluate(axe);
    for (const [width, height] of [[1280, 720], [1920, 1080], [1024, 768]]) {
      await page.setViewportSize({ width, height });
      const { violations } = await page.evaluate(() => window.axe.run());
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
      assert.deepEqual(serious.map(({ id, nodes }) => [id, nodes.map((node) => node.html.slice(0, 200))]), []);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(over <= 0, `${over} pixels wider than a window of ${width}`);
    }
  });
}

test('on a tablet, what is touched is large enough', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json', width: 1024, height: 768, touch: true });
  await settled(page);
  await unfold(page);
  // WCAG 2.2, 2.5.8: targets of at least 24 by 24 CSS pixels.
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('main button, main select, main summary, main a[href]')]
      .filter((one) => one.checkVisibility())
      .map((one) => [one.textContent.trim(), one.getBoundingClientRect()])
      .filter(([, { width, height }]) => width < 24 || height < 24)
      .map(([words, { width, height }]) => `${words}: ${width} x ${height}`));
  assert.deepEqual(small, []);
});
