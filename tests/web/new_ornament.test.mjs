// A new ornament, from an empty page to a kit that is taken away and opened: by mouse, and by keyboard.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { design, matBox, placeOf, point, points, redo, undo } from './drawing.mjs';
import { begin } from './studio.mjs';

const making = (page) => page.locator('section[aria-labelledby="making-heading"]');
const unfold = (page, name) => page.getByRole('button', { name: new RegExp(`^${name}`), expanded: false }).click();

async function write(page, label, text) {
  await page.getByLabel(label, { exact: true }).fill(text);
  await page.keyboard.press('Enter');
}

/** All that the page is told of work under way. */
async function listen(page) {
  await page.evaluate(() => {
    window.told = [];
    const look = () => {
      const bar = document.querySelector('progress');
      if (bar && window.told.at(-1) !== bar.value) window.told.push(bar.value);
    };
    new MutationObserver(look).observe(document.body, { subtree: true, childList: true, attributes: true });
  });
}

/** Opens a kit with readers that are not ours, and looks for what a maker needs. */
function lookInto(zip, sizes) {
  const folder = mkdtempSync(join(tmpdir(), 'fanwright-kit-'));
  execFileSync('/usr/bin/python3', ['-m', 'zipfile', '-t', zip]);
  execFileSync('/usr/bin/python3', ['-m', 'zipfile', '-e', zip, folder]);
  const files = readdirSync(folder, { recursive: true }).filter((name) => statSync(join(folder, name)).isFile());
  const text = (ending) => readFileSync(join(folder, files.find((name) => name.endsWith(ending))), 'utf8');
  assert.match(text('README.txt'), /cut/i);
  JSON.parse(text('kit.json'));
  const kept = JSON.parse(text('.ornament.json'));
  for (const size of sizes) {
    assert.ok(files.some((name) => name.includes(`${size}/cut/leaf.svg`)), `a cutting file of ${size}`);
    assert.ok(files.some((name) => name.includes(`${size}/print-`)), `a printing file of ${size}`);
  }
  assert.ok(!files.some((name) => /price|for-you-only/i.test(name)), 'plan and price stay with the maker');
  const booklet = files.find((name) => /booklet-en.*\.pdf$/.test(name));
  execFileSync('qpdf', ['--check', join(folder, booklet)]);
  const image = files.find((name) => name.endsWith('opened.png'));
  assert.equal(readFileSync(join(folder, image)).toString('latin1', 1, 4), 'PNG');
  rmSync(folder, { recursive: true });
  return { files, kept };
}

/** Goes on with Tab until what has the focus is called `name`, a text or an expression. */
async function tabTo(page, name) {
  for (let presses = 0; presses < 300; ++presses) {
    await page.keyboard.press('Tab');
    const called = await page.evaluate(() => {
      const on = document.activeElement;
      return (on?.getAttribute('aria-label') ?? on?.labels?.[0]?.textContent ?? on?.textContent ?? '').trim();
    });
    if (name instanceof RegExp ? name.test(called) : called === name) return;
  }
  assert.fail(`Tab never comes to ${name}`);
}

test('a new ornament, from an empty page, to a kit, by mouse', { timeout: 180_000 }, async (t) => {
  const { page } = await begin(t, { empty: true });
  await page.getByRole('button', { name: 'Begin on an empty page' }).click();
  await page.getByText('Press on the mat, point after point').waitFor();
  const box = await matBox(page);
  const at = (out, up) => [box.x + box.width / 2 + out, box.y + box.height - 50 - up];
  await page.mouse.click(...at(0, 0));
  await page.mouse.click(...at(60, 0));
  // Pulling while laying a point bends the line there.
  await page.mouse.move(...at(75, 90));
  await page.mouse.down();
  await page.mouse.move(...at(75, 110));
  await page.mouse.move(...at(75, 130));
  await page.mouse.up();
  await page.mouse.click(...at(25, 190));
  assert.equal(await points(page), 4);
  await page.mouse.click(...at(3, 200));
  await page.getByText('Drag a point, or press on the line').or(page.getByText('Point 5 of 5')).first().waitFor();
  const drawn = await design(page);
  assert.match(drawn.silhouette.path, /^M 0 0 L [\d.]+ -?[\d.]+ C .* L 0 [\d.]+$/);
  assert.deepEqual(await placeOf(point(page, 1)), [0, 0]);
  assert.match(await point(page, 3).getAttribute('aria-label'), /^point 3 of 5, .*, smooth$/);
  // Each point was one step.
  for (let left = 4; left >= 1; left -= 1) {
    await undo(page);
    assert.equal(await points(page), left);
  }
  for (let i = 0; i < 4; i += 1) await redo(page);
  assert.deepEqual(await design(page), drawn);

  await unfold(page, 'Ornament');
  await write(page, 'Name', 'Poppy head');
  await write(page, 'Leaves', '24');
  await unfold(page, 'Paper');
  await page.getByLabel('Weight of the paper').fill('112,5');
  await page.getByText('= 112.5 g/m²').waitFor();
  await write(page, 'Thickness', '0.16');
  await unfold(page, 'Sizes');
  await page.getByRole('button', { name: 'Add a size' }).click();
  await page.getByRole('button', { name: 'Put away' }).click();

  const pane = making(page);
  await pane.getByLabel('as drawn', { exact: true }).uncheck();
  await pane.getByLabel(/^Paper of small/).fill('102,5');
  await listen(page);
  await pane.getByRole('button', { name: 'Make the kit' }).click();
  const link = pane.getByRole('link', { name: /Kit to hand on/ });
  await link.waitFor({ timeout: 240_000 });
  const told = await page.evaluate(() => window.told);
  assert.ok(new Set(told).size >= 4, `true progress, told ${told}`);
  assert.deepEqual(told, [...told].sort((a, b) => a - b));
  const [kit] = await Promise.all([page.waitForEvent('download'), link.click()]);
  assert.match(kit.suggestedFilename(), /^poppy-head-kit\.zip$/i);
  const { files, kept } = lookInto(await kit.path(), ['small']);
  assert.ok(!files.some((name) => name.startsWith('as drawn/')), 'sizes left out are left out');
  assert.deepEqual(kept.silhouette, drawn.silhouette);
  assert.deepEqual([kept.title, kept.leaves, kept.paper.grammage, kept.paper.caliper], ['Poppy head', 24, 112.5, 0.16]);
  assert.match(JSON.stringify(kept.sizes), /102\.5/);
  const [own] = await Promise.all([page.waitForEvent('download'), pane.getByRole('link', { name: /for you only/ }).click()]);
  const names = execFileSync('/usr/bin/python3', ['-m', 'zipfile', '-l', await own.path()], { encoding: 'utf8' });
  assert.match(names, /plan-and-price-.*\.pdf/);
});

test('a new ornament, from an empty page, to a kit, by keyboard', { timeout: 180_000 }, async (t) => {
  const { page } = await begin(t, { empty: true });
  await page.getByRole('button', { name: 'Begin on an empty page' }).focus();
  await page.keyboard.press('Enter');
  const pen = page.getByRole('button', { name: /^pen,/ });
  await pen.focus();
  const tens = async (key, count) => {
    for (let i = 0; i < count; i += 1) await page.keyboard.press(`Shift+${key}`);
  };
  await page.keyboard.press('Enter'); // the foot
  await tens('ArrowRight', 2);
  await page.keyboard.press('Enter');
  await tens('ArrowUp', 8);
  await page.keyboard.press('Enter');
  await tens('ArrowLeft', 3);
  await tens('ArrowUp', 4);
  await page.keyboard.press('Enter');
  await tens('ArrowLeft', 9);
  await page.keyboard.press('Enter'); // back on the spine
  assert.equal(await points(page), 5);
  const [out] = await placeOf(point(page, 3));
  // The focus is on the last point; going back by Tab reaches the third.
  await point(page, 3).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Alt+ArrowRight');
  await page.keyboard.press('Shift+ArrowUp');
  assert.deepEqual(await placeOf(point(page, 3)), [Number((out + 1.1).toFixed(2)), 90]);
  await page.keyboard.press('s');
  assert.match(await point(page, 3).getAttribute('aria-label'), /smooth$/);
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement.getAttribute('data-handle')), 'before');
  await page.keyboard.press('ArrowLeft');
  await point(page, 3).focus();
  await page.keyboard.press('a');
  assert.equal(await points(page), 6);
  await page.keyboard.press('Delete');
  assert.equal(await points(page), 5);
  for (let i = 0; i < 7; i += 1) await undo(page);
  assert.deepEqual(await placeOf(point(page, 3)), [out, 80]);
  assert.match(await point(page, 3).getAttribute('aria-label'), /corner$/);

  // On to the fields and the kit; Tab goes round by the end of the page.
  await tabTo(page, /^Ornament/);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Seed head');
  await tabTo(page, 'Leaves');
  await page.keyboard.type('24');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Escape');
  await tabTo(page, 'Make the kit');
  await page.keyboard.press('Enter');
  await making(page).getByRole('link', { name: /Kit to hand on/ }).waitFor({ timeout: 240_000 });
  await tabTo(page, 'Kit to hand on (zip)');
  const [kit] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  const { kept } = lookInto(await kit.path(), []);
  assert.deepEqual([kept.title, kept.leaves], ['Seed head', 24]);
});
