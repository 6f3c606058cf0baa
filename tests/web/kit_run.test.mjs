// From a starter to a kit that is taken away and opened: by mouse, by keyboard, and stopped half way.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { begin, settled } from './studio.mjs';

const making = (page) => page.locator('section[aria-labelledby="making-heading"]');

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

test('by mouse: sizes and paper chosen, kit made, taken away and opened', { timeout: 300_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json' });
  await settled(page);
  const pane = making(page);
  await pane.getByLabel('medium', { exact: true }).uncheck();
  await pane.getByLabel('large', { exact: true }).uncheck();
  await pane.getByLabel(/^Paper of small/).fill('112,5');
  await listen(page);
  await pane.getByRole('button', { name: 'Make the kit' }).click();
  const link = pane.getByRole('link', { name: /Kit to hand on/ });
  await link.waitFor({ timeout: 240_000 });
  const told = await page.evaluate(() => window.told);
  assert.ok(new Set(told).size >= 4, `true progress, told ${told}`);
  assert.deepEqual(told, [...told].sort((a, b) => a - b));

  const [kit] = await Promise.all([page.waitForEvent('download'), link.click()]);
  assert.match(kit.suggestedFilename(), /^pear-kit\.zip$/i);
  const { files, kept } = lookInto(await kit.path(), ['small']);
  assert.ok(!files.some((name) => name.startsWith('large/')), 'sizes left out are left out');
  assert.match(JSON.stringify(kept), /112\.5/);
  const [own] = await Promise.all([page.waitForEvent('download'), pane.getByRole('link', { name: /for you only/ }).click()]);
  const names = execFileSync('/usr/bin/python3', ['-m', 'zipfile', '-l', await own.path()], { encoding: 'utf8' });
  assert.match(names, /plan-and-price-.*\.pdf/);
});

/** Goes on with Tab until what has the focus is called `name`. */
async function tabTo(page, name) {
  for (let presses = 0; presses < 300; ++presses) {
    await page.keyboard.press('Tab');
    const called = await page.evaluate(() => {
      const on = document.activeElement;
      return on?.getAttribute('aria-label') ?? on?.closest('label')?.textContent?.trim() ?? on?.textContent?.trim() ?? '';
    });
    if (called === name) return;
  }
  assert.fail(`Tab never comes to ${name}`);
}

test('by keyboard alone: from an empty folder to a kit', { timeout: 300_000 }, async (t) => {
  const { page } = await begin(t, { empty: true });
  await settled(page);
  await tabTo(page, 'Make the kit');
  const sizes = await making(page).getByRole('checkbox').count();
  for (let left = sizes; left > 1; --left) {
    await page.keyboard.press('Shift+Tab'); // the paper of a size
    await page.keyboard.press('Shift+Tab'); // its tick
    await page.keyboard.press('Space');
  }
  await tabTo(page, 'Make the kit');
  await page.keyboard.press('Enter');
  await making(page).getByRole('link', { name: /Kit to hand on/ }).waitFor({ timeout: 240_000 });
  await tabTo(page, 'Kit to hand on (zip)');
  const [kit] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  lookInto(await kit.path(), []);
});

test('stopped half way, it leaves nothing and can be made again', { timeout: 120_000 }, async (t) => {
  const { page, folder } = await begin(t, { file: 'pear.ornament.json' });
  await settled(page);
  const pane = making(page), before = readdirSync(folder).filter((name) => !name.startsWith('.'));
  await pane.getByRole('button', { name: 'Make the kit' }).click();
  await pane.getByRole('progressbar').waitFor();
  await pane.getByRole('button', { name: 'Stop' }).click();
  await pane.getByRole('button', { name: 'Make the kit' }).waitFor();
  assert.equal(await pane.getByRole('link', { name: /Kit to hand on/ }).count(), 0);
  assert.deepEqual(readdirSync(folder).filter((name) => !name.startsWith('.')), before);
});

test('a remedy is one button, and one step to undo', { timeout: 120_000 }, async (t) => {
  const finding = {
    id: 'glue.edge', verdict: 'fails', value: -0.3, unit: 'mm', limit: 0, limit_source: 'common practice',
    sentence: 'The glue comes out at the edge.', remedy: 'End the rows 4.5 mm before the edge.', where: '/rows/edge_gap',
    changes: [{ at: '/rows/edge_gap', after: 4.5 }, { at: '/leaves', after: 44 }],
  };
  const found = { revision: 2 ** 52, size: 'small', findings: [finding] };
  const { page } = await begin(t, {
    file: 'pear.ornament.json',
    before: (fresh) => fresh.route(/\/api\/events/, (route) =>
      route.fulfill({ contentType: 'text/event-stream', body: `event: checks\ndata: ${JSON.stringify(found)}\n\n` })),
  });
  const asked = [];
  page.on('request', (request) => {
    if (request.url().endsWith('/shape')) asked.push(JSON.parse(JSON.parse(request.postData()).text));
  });
  const checks = page.locator('section[aria-labelledby="checks-heading"]');
  await checks.getByText('1 thing stands in the way').waitFor();
  const undo = page.getByRole('button', { name: /^Undo/ });
  assert.ok(await undo.isDisabled());
  await checks.getByRole('button', { name: 'Do it: End the rows 4.5 mm before the edge.' }).click();
  const last = async (wanted) => {
    for (let waits = 0; waits < 300 && !wanted(asked.at(-1)); ++waits) await page.waitForTimeout(100);
    return asked.at(-1);
  };
  const mended = await last((design) => design?.leaves === 44);
  assert.deepEqual([mended.rows.edge_gap, mended.leaves], [4.5, 44]);
  await undo.click();
  const back = await last((design) => design?.leaves === 42);
  assert.deepEqual([back.rows.edge_gap, back.leaves], [3, 42]);
  assert.ok(await undo.isDisabled());
});
