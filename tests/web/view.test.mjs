// The ornament in the round: it follows the drawing, the viewer stays where she stands, nothing older is ever shown.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { begin, settled } from './studio.mjs';

const look = (page) => page.locator('[data-look]').getAttribute('data-look');

const pear = { file: 'pear.ornament.json', sizes: ['small', 'medium'], round: true };

/** Two frames on; the viewer stands where she was asked to by then. */
const frames = (page) => page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));

test('the view does not move when the ornament changes, and moves when asked', { timeout: 180_000 }, async (t) => {
  const { page } = await begin(t, pear);
  let revision = await settled(page);
  const seen = page.getByRole('application', { name: /opened:/ });
  await seen.focus();
  const first = await look(page);
  for (const key of ['ArrowLeft', 'ArrowLeft', 'ArrowUp', '+', '+']) await page.keyboard.press(key);
  await frames(page);
  const stood = await look(page);
  assert.notEqual(stood, first);
  for (const size of ['medium', 'small']) {
    await page.getByRole('button', { name: size, exact: true }).click();
    revision = await settled(page, revision);
  }
  await frames(page);
  assert.equal(await look(page), stood);
  await page.getByRole('button', { name: 'Show all' }).click();
  await frames(page);
  assert.notEqual(await look(page), stood);
});

test('what comes late is not shown over what is newer', { timeout: 180_000 }, async (t) => {
  const { page } = await begin(t, pear);
  const first = await settled(page);
  await page.evaluate(() => {
    const seen = document.querySelector('[data-revision]');
    window.shown = [];
    new MutationObserver(() => window.shown.push(Number(seen.dataset.revision))).observe(seen, { attributeFilter: ['data-revision'] });
  });
  // Every other mesh is held back until the one after it has been shown.
  let asked = 0, answered = 0;
  let letGo = () => {};
  await page.route(/\/mesh\?/, async (route) => {
    const late = asked++ % 2 === 0;
    const answer = await route.fetch();
    if (late) await new Promise((go) => (letGo = go));
    await route.fulfill({ response: answer }).catch(() => {});
    answered += 1;
  });
  for (const size of ['medium', 'small']) {
    const [before, shown] = [asked, await page.evaluate(() => window.shown.length)];
    await page.getByRole('button', { name: size, exact: true }).click();
    for (let waits = 0; asked === before && waits < 600; ++waits) await page.waitForTimeout(50);
    if (size === 'small') await page.waitForFunction((count) => window.shown.length > count, shown, { timeout: 60_000 });
  }
  letGo();
  for (let waits = 0; answered < asked && waits < 600; ++waits) await page.waitForTimeout(50);
  await page.waitForTimeout(300);
  const shown = await page.evaluate(() => window.shown);
  assert.ok(asked >= 2 && answered === asked, `${asked} meshes asked for, ${answered} answered`);
  assert.ok(shown[0] > first);
  assert.deepEqual(shown, [...shown].sort((a, b) => a - b));
  assert.equal(shown.length, new Set(shown).size);
});

test('a page that can listen only late misses nothing of what is computed', { timeout: 120_000 }, async (t) => {
  let heard = () => {};
  const listening = new Promise((yes) => (heard = yes));
  const { page } = await begin(t, {
    file: 'moth.ornament.json',
    sizes: ['small'],
    before: (fresh) =>
      fresh.route(/\/api\/events\?/, async (route) => {
        await new Promise((go) => setTimeout(go, 3_000));
        await route.continue();
        heard();
      }),
  });
  await listening;
  // Fans are asked for once the form has settled, which is told to those who listen.
  await page.locator('[data-seat="0"]').waitFor({ timeout: 30_000 });
});

test('it opens from a flat stack to the full circle', { timeout: 180_000 }, async (t) => {
  const { page } = await begin(t, { file: 'apple.ornament.json', sizes: ['small'], round: true });
  await settled(page);
  // Its blossom sits on it, as far as it is wholly open.
  await page.waitForFunction(() => document.querySelector('[data-fans]')?.dataset.fans === 'blossom', null, { timeout: 60_000 });
  const slider = page.getByLabel('Opened', { exact: true });
  await page.waitForFunction(() => !document.querySelector('#opening-share').disabled, null, { timeout: 60_000 });
  const whole = await page.locator('canvas').screenshot();
  await slider.focus();
  await page.keyboard.press('Home');
  assert.match(await slider.getAttribute('aria-valuetext'), /flat stack/);
  let stack = whole;
  for (let waits = 0; stack.equals(whole) && waits < 60; ++waits) {
    await page.waitForTimeout(200);
    stack = await page.locator('canvas').screenshot();
  }
  assert.notDeepEqual(stack, whole);
  await page.keyboard.press('End');
  assert.match(await slider.getAttribute('aria-valuetext'), /360 degrees/);
});

test('all sizes stand side by side, named, to scale', { timeout: 180_000 }, async (t) => {
  const { page } = await begin(t, pear);
  await settled(page);
  await page.getByRole('button', { name: 'Sizes side by side' }).click();
  const names = page.locator('.seen svg text.name');
  await page.waitForFunction(() => document.querySelectorAll('.seen svg text.name').length === 2, null, { timeout: 60_000 });
  assert.deepEqual(await names.allTextContents(), ['small', 'medium']);
});

test('without WebGL there is a sentence and a picture instead', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'apple.ornament.json', sizes: ['small'], round: true, args: ['--disable-3d-apis'] });
  await page.getByText('This browser draws nothing in the round').waitFor({ timeout: 30_000 });
  const picture = page.locator('.still img');
  await picture.waitFor({ timeout: 60_000 });
  assert.ok((await picture.evaluate((image) => image.decode().then(() => image.naturalWidth))) > 300);
});
