// Fit for people: axe-core finds nothing serious in any pane, slip or dialog, in both themes and all window sizes, and
// nothing is wider than the window.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { ready } from './drawing.mjs';
import { begin } from './studio.mjs';

const axe = readFileSync(new URL('../../web/node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');
const pear = { file: 'pear.ornament.json', sizes: ['small'] };

/** Opens everything in the panes that can be opened, so that it is looked at too. */
async function unfold(page) {
  await page.getByRole('button', { name: 'How many leaves, rows, which paper?' }).click();
  await page.getByText(/^Advice for/).waitFor({ timeout: 60_000 });
  await page.evaluate(() => document.querySelectorAll('main details').forEach((fold) => (fold.open = true)));
}

/** In both themes; `within`: a selector. */
async function nothingSerious(page, where, within = 'html') {
  for (const theme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme: theme });
    const { violations } = await page.evaluate((part) => window.axe.run(part), within);
    const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
    assert.deepEqual(serious.map(({ id, nodes }) => [id, nodes.map((node) => node.html.slice(0, 200))]), [], `${where}, ${theme}`);
  }
}

test('nothing serious found by axe-core in the panes, at any window size', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, pear);
  await page.getByText('How small lies on').waitFor({ timeout: 60_000 });
  await unfold(page);
  // Evaluated by the browser's own door, as the page's rules allow no script from elsewhere.
  await page.evaluate(axe);
  for (const [width, height] of [[1280, 720], [1920, 1080], [1024, 768]]) {
    await page.setViewportSize({ width, height });
    const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    assert.ok(over <= 0, `${over} pixels wider than a window of ${width}`);
    await nothingSerious(page, `window of ${width} x ${height}`);
  }
});

test('nor in what is unfolded, in dialogs, and in what is told of a changed file', { timeout: 120_000 }, async (t) => {
  const { page, folder } = await begin(t, pear);
  await page.evaluate(axe);
  await page.getByRole('heading', { name: 'First steps' }).waitFor();
  await nothingSerious(page, 'first steps', 'aside');
  await ready(page);
  const tags = await page.locator('[data-tag]').all();
  assert.equal(tags.length, 9);
  for (const tag of tags) {
    await tag.click();
    await nothingSerious(page, await tag.textContent(), '.slip[role=region]');
  }
  await page.keyboard.press('Escape');
  for (const name of ['Designs', 'Save a copy', 'Paste outline']) {
    await page.getByRole('button', { name, exact: true }).click();
    await page.locator('dialog[open]').waitFor();
    await nothingSerious(page, name, 'dialog[open]');
    await page.keyboard.press('Escape');
    await page.locator('dialog[open]').waitFor({ state: 'detached' });
  }
  const file = join(folder, pear.file);
  writeFileSync(file, readFileSync(file, 'utf8').replace('"Pear"', '"Her pear"'));
  await page.getByRole('button', { name: /^Take the disk’s/ }).waitFor();
  await nothingSerious(page, 'a changed file', '.notice');
});

test('on a tablet, what is touched is large enough', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { ...pear, width: 1024, height: 768, touch: true });
  await ready(page);
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
