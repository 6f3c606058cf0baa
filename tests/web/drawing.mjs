// What the tests of the drawing share: places on the mat, and the design as the page would save it.
import assert from 'node:assert/strict';

export const mat = (page) => page.locator('.drawing svg[role=application]');

/** The point with this number, from 1, of the silhouette. */
export const point = (page, number) => page.locator(`[data-knot="0-${number - 1}"]`);

export const points = (page) => page.locator('[data-knot^="0-"]').count();

/** Middle of an element on screen. */
export async function middle(locator) {
  const { x, y, width, height } = await locator.boundingBox();
  return { x: x + width / 2, y: y + height / 2 };
}

/** Where the mat lies once the page has found its layout: the same in five looks, two frames apart. */
export async function matBox(page) {
  let box = null;
  for (let alike = 0; alike < 5; ) {
    await page.waitForTimeout(100);
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    const now = await mat(page).boundingBox();
    alike = JSON.stringify(now) === JSON.stringify(box) ? alike + 1 : 0;
    box = now;
  }
  return box;
}

/** [out, up] in mm, read off a point's name for screen readers. */
export async function placeOf(locator) {
  const name = await locator.getAttribute('aria-label');
  const [, out, up] = /(-?[\d.]+) mm out, (-?[\d.]+) mm up/.exec(name) ?? assert.fail(`no place in "${name}"`);
  return [Number(out), Number(up)];
}

/** Drags what lies at `from` by so many pixels, in steps; `held` is done before the button is let go. */
export async function drag(page, from, right, down, held = async () => {}) {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (let i = 1; i <= 8; i += 1) await page.mouse.move(from.x + (right * i) / 8, from.y + (down * i) / 8);
  await held();
  await page.mouse.up();
}

/** The design as it stands: what Download writes. */
export async function design(page) {
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download', exact: true }).click();
  const download = await waiting;
  const { readFileSync } = await import('node:fs');
  return JSON.parse(readFileSync(await download.path(), 'utf8'));
}

export const undo = (page) => page.keyboard.press('Control+z');
export const redo = (page) => page.keyboard.press('Control+Shift+z');

/** First steps are put away, so that nothing lies over the bench. */
export async function ready(page) {
  await page.locator('[data-opened]').waitFor({ state: 'attached', timeout: 60_000 });
  const away = page.getByRole('button', { name: 'Put this away' });
  if (await away.isVisible()) await away.click();
}
