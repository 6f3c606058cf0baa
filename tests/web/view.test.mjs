// The ornament in the round: it follows the drawing, the viewer stays where she stands, nothing older is ever shown.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { begin, settled } from './studio.mjs';

const look = (page) => page.locator('[data-look]').getAttribute('data-look');

async function change(page, label, value) {
  const field = page.getByLabel(label, { exact: true });
  await field.fill(value);
  await field.press('Enter');
}

test('the view does not move when the ornament changes, and moves when asked', async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json' });
  let revision = await settled(page);
  const seen = page.getByRole('application', { name: /opened:/ });
  await seen.focus();
  for (const key of ['ArrowLeft', 'ArrowLeft', 'ArrowUp', '+', '+']) await page.keyboard.press(key);
  await page.waitForTimeout(400);
  const stood = await look(page);
  await page.getByRole('button', { name: 'large', exact: true }).click();
  revision = await settled(page, revision);
  await page.getByRole('button', { name: 'small', exact: true }).click();
  await settled(page, revision);
  await page.waitForTimeout(400);
  assert.equal(await look(page), stood);
  await page.getByRole('button', { name: 'Show all' }).click();
  await page.waitForTimeout(400);
  assert.notEqual(await look(page), stood);
});

test('what comes late is not shown over what is newer', async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json' });
  const first = await settled(page);
  await page.evaluate(() => {
    const seen = document.querySelector('[data-revision]');
    window.shown = [];
    new MutationObserver(() => window.shown.push(Number(seen.dataset.revision))).observe(seen, { attributeFilter: ['data-revision'] });
  });
  // Every other mesh is held back for longer than the next takes.
  let asked = 0, held = 0;
  await page.route(/\/mesh\?/, async (route) => {
    const answer = await route.fetch();
    if (asked++ % 2 === 0) {
      held += 1;
      await new Promise((go) => setTimeout(go, 4000));
      held -= 1;
    }
    await route.fulfill({ response: answer }).catch(() => {});
  });
  for (const size of ['medium', 'large', 'small', 'medium']) {
    const before = asked;
    await page.getByRole('button', { name: size, exact: true }).click();
    for (let waits = 0; asked === before && waits < 300; ++waits) await page.waitForTimeout(100);
  }
  await page.waitForFunction(() => window.shown.length > 0, null, { timeout: 60_000 });
  while (held > 0) await page.waitForTimeout(200);
  await page.waitForTimeout(2000);
  const shown = await page.evaluate(() => window.shown);
  assert.ok(asked >= 4, `${asked} meshes asked for`);
  assert.ok(shown[0] > first);
  assert.deepEqual(shown, [...shown].sort((a, b) => a - b));
});

test('it opens from a flat stack to the full circle', async (t) => {
  const { page } = await begin(t, { file: 'apple.ornament.json' });
  await settled(page);
  const slider = page.getByLabel('Opened', { exact: true });
  await page.waitForFunction(() => !document.querySelector('#opening-share').disabled, null, { timeout: 60_000 });
  const whole = await page.locator('canvas').screenshot();
  await slider.focus();
  await page.keyboard.press('Home');
  await page.waitForTimeout(3000);
  assert.match(await slider.getAttribute('aria-valuetext'), /flat stack/);
  const stack = await page.locator('canvas').screenshot();
  assert.notDeepEqual(stack, whole);
  await page.keyboard.press('End');
  assert.match(await slider.getAttribute('aria-valuetext'), /360 degrees/);
});

test('all sizes stand side by side, named, to scale', async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json' });
  await settled(page);
  await page.getByRole('button', { name: 'Sizes side by side' }).click();
  const names = page.locator('.seen svg text.name');
  await page.waitForFunction(() => document.querySelectorAll('.seen svg text.name').length === 3, null, { timeout: 60_000 });
  assert.deepEqual(await names.allTextContents(), ['small', 'medium', 'large']);
});

test('without WebGL there is a sentence and a picture instead', async (t) => {
  const { page } = await begin(t, { file: 'apple.ornament.json', args: ['--disable-3d-apis'] });
  await page.getByText('This browser draws nothing in the round').waitFor({ timeout: 30_000 });
  const picture = page.locator('.still img');
  await picture.waitFor({ timeout: 60_000 });
  assert.ok((await picture.evaluate((image) => image.decode().then(() => image.naturalWidth))) > 300);
});
