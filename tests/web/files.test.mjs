// Work is never lost: a crash of the studio, a closed tab, a file that somebody else changed.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { design, placeOf, point, points, ready, undo } from './drawing.mjs';
import { begin, serve } from './studio.mjs';

const nudge = async (page, key, times) => {
  await point(page, 3).focus();
  for (let i = 0; i < times; i += 1) await page.keyboard.press(key);
};

test('kill -9 of the studio while drawing loses nothing that is older than a second', { timeout: 180_000 }, async (t) => {
  const { page, folder, studio } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  await nudge(page, 'ArrowRight', 5);
  await page.waitForTimeout(1000);
  studio.child.kill('SIGKILL');
  await studio.ended;
  // Gestures after that are shown as not kept, and the page says why.
  await nudge(page, 'ArrowUp', 1);
  await page.getByText('steps are not on disk yet').waitFor();
  const file = join(folder, 'pear.ornament.json');
  writeFileSync(file, readFileSync(file, 'utf8').replace('"Pear"', '"Her pear"'));
  const again = serve(folder, 'pear.ornament.json');
  t.after(async () => {
    again.child.kill('SIGINT');
    await again.ended;
  });
  await page.goto(await again.url);
  await ready(page);
  assert.deepEqual(await placeOf(point(page, 3)), [91, 74]);
  await page.getByRole('button', { name: /^Take the disk’s/ }).waitFor();
  for (let i = 0; i < 5; i += 1) await undo(page);
  assert.deepEqual(await placeOf(point(page, 3)), [86, 74]);
});

test('after kill -9 a design that was never saved lies among the designs, with its steps', { timeout: 180_000 }, async (t) => {
  const { page, folder, studio } = await begin(t, { empty: true });
  await page.getByRole('button', { name: 'Begin on an empty page' }).click();
  const pen = page.getByRole('button', { name: /^pen,/ });
  await pen.focus();
  for (const key of ['Enter', 'Shift+ArrowUp', 'Enter']) await page.keyboard.press(key);
  assert.equal(await points(page), 2);
  const before = await design(page);
  await page.waitForTimeout(1000);
  studio.child.kill('SIGKILL');
  await studio.ended;
  const again = serve(folder);
  t.after(async () => {
    again.child.kill('SIGINT');
    await again.ended;
  });
  await page.goto(await again.url);
  await page.getByRole('button', { name: 'Designs' }).click();
  await page.getByRole('button', { name: 'New ornament not saved, 1' }).click();
  await page.locator('dialog[open]').waitFor({ state: 'detached' });
  assert.deepEqual(await design(page), before);
  await undo(page);
  assert.equal(await points(page), 1);
});

test('a reload right after a gesture brings it back, with all steps', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  await nudge(page, 'Shift+ArrowUp', 2);
  const before = await design(page);
  await page.reload();
  await ready(page);
  assert.deepEqual(await design(page), before);
  await undo(page);
  assert.deepEqual(await placeOf(point(page, 3)), [86, 84]);
});

test('saving writes the file; undoing afterwards still works', { timeout: 120_000 }, async (t) => {
  const { page, folder } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  const file = join(folder, 'pear.ornament.json');
  const first = JSON.parse(readFileSync(file, 'utf8'));
  await nudge(page, 'ArrowRight', 1);
  await page.keyboard.press('Control+s');
  await page.locator('[data-keeping]', { hasText: /^saved$/ }).waitFor();
  assert.deepEqual(JSON.parse(readFileSync(file, 'utf8')), await design(page));
  await undo(page);
  assert.deepEqual(await design(page), first);
  await page.locator('[data-keeping]', { hasText: 'kept, not saved' }).waitFor();
});

test('a copy gets a name of its own, and never that of another file unasked', { timeout: 120_000 }, async (t) => {
  const { page, folder } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  await nudge(page, 'ArrowRight', 1);
  await page.getByRole('button', { name: 'Save a copy' }).click();
  const name = page.getByLabel('Name of the file');
  await name.fill('apple');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Write over that file' }).waitFor();
  await name.fill('../pear');
  await page.keyboard.press('Enter');
  await page.locator('dialog .fault').waitFor();
  await name.fill('winter pear');
  await page.keyboard.press('Enter');
  await page.locator('dialog[open]').waitFor({ state: 'detached' });
  await page.locator('.file', { hasText: 'winter pear.ornament.json' }).waitFor();
  assert.deepEqual(JSON.parse(readFileSync(join(folder, 'winter pear.ornament.json'), 'utf8')), await design(page));
});

test('a file that somebody else changed: hers can be taken, and undone, or mine kept', { timeout: 180_000 }, async (t) => {
  const { page, folder } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  const file = join(folder, 'pear.ornament.json');
  const hers = JSON.parse(readFileSync(file, 'utf8'));
  await nudge(page, 'ArrowRight', 3);
  writeFileSync(file, JSON.stringify({ ...hers, title: 'Her pear' }));
  await page.getByRole('button', { name: /^Take the disk’s/ }).click();
  await page.getByRole('heading', { name: 'Her pear' }).waitFor();
  await undo(page);
  assert.deepEqual(await placeOf(point(page, 3)), [89, 74]);
  writeFileSync(file, JSON.stringify({ ...hers, title: 'Her other pear' }));
  await page.getByRole('button', { name: 'Keep mine, write over it' }).click();
  await page.locator('[data-keeping]', { hasText: /^saved$/ }).waitFor();
  assert.deepEqual(JSON.parse(readFileSync(file, 'utf8')), await design(page));
});

test('two tabs do not write into one journal', { timeout: 120_000 }, async (t) => {
  const { page, context, url } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  const second = await context.newPage();
  await second.goto(new URL('/', url).href);
  await second.getByText('This design is in hand in another tab').waitFor();
  await nudge(page, 'ArrowRight', 2);
  await page.waitForTimeout(500);
  await second.getByRole('button', { name: 'work on it here' }).click();
  await second.getByText('This design is in hand in another tab').waitFor({ state: 'detached' });
  assert.deepEqual(await placeOf(point(second, 3)), [88, 74]);
  await page.getByText('This design is in hand in another tab').waitFor();
});
