// node bench/page/looks.mjs FOLDER [EXAMPLE] [WIDTHxHEIGHT ...]: what a maker sees, as PNG files in FOLDER: the page, all its
// slips and dialogs, the unfolded panes from top to foot, a new ornament from an empty page to its kit, in both themes and each window size (1280x720, 1920x1080, 1024x768).
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { matBox, ready } from '../../tests/web/drawing.mjs';
import { begin } from '../../tests/web/studio.mjs';

const [folder = 'looks', file = 'pear.ornament.json', ...wanted] = process.argv.slice(2);
const windows = wanted.length ? wanted : ['1280x720', '1920x1080', '1024x768'];
mkdirSync(folder, { recursive: true });

async function inBothThemes(page, what) {
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    await page.waitForTimeout(400);
    await page.screenshot({ path: join(folder, `${what}-${colorScheme}.png`) });
  }
}

for (const size of windows) {
  const [width, height] = size.split('x').map(Number);
  test(`window of ${size}`, { timeout: 600_000 }, async (t) => {
    const { page } = await begin(t, { file, round: true, width, height, touch: width < 1100 });
    const both = (what) => inBothThemes(page, `${size}-${what}`);
    await page.getByRole('heading', { name: 'First steps' }).waitFor();
    await both('first');
    await ready(page);
    await page.locator('.seen svg line').first().waitFor({ state: 'attached', timeout: 120_000 });
    await page.getByText(/lies on/).first().waitFor({ timeout: 60_000 });
    await page.waitForTimeout(3000);
    await both('bench');
    for (const tag of await page.locator('[data-tag]').all()) {
      await tag.click();
      await both(`slip-${await tag.getAttribute('data-tag')}`);
    }
    await page.keyboard.press('Escape');
    for (const name of ['Designs', 'Save a copy', 'Paste an outline']) {
      await page.getByRole('button', { name, exact: true }).click();
      await page.locator('dialog[open]').waitFor();
      await both(`dialog-${name.replaceAll(' ', '-')}`);
      await page.keyboard.press('Escape');
    }
    await page.getByRole('button', { name: 'How many leaves, rows, which paper?' }).click();
    await page.getByText(/^Advice for/).waitFor({ timeout: 60_000 });
    await page.evaluate(() => document.querySelectorAll('main details').forEach((fold) => (fold.open = true)));
    for (const [what, share] of [['top', 0], ['middle', 0.33], ['lower', 0.66], ['foot', 1]]) {
      await page.evaluate((part) => {
        for (const one of document.querySelectorAll('html, main, main *'))
          if (one.scrollHeight > one.clientHeight + 50 && (one === document.documentElement || getComputedStyle(one).overflowY !== 'visible'))
            one.scrollTop = part * (one.scrollHeight - one.clientHeight);
      }, share);
      await both(`pane-${what}`);
    }
  });
  test(`a new ornament in a window of ${size}`, { timeout: 600_000 }, async (t) => {
    const { page } = await begin(t, { empty: true, round: true, width, height, touch: width < 1100 });
    const both = (what) => inBothThemes(page, `${size}-new-${what}`);
    await page.getByRole('button', { name: 'Begin on an empty page' }).click();
    await page.getByText('Press on the mat, point after point').waitFor();
    await both('1-empty');
    const box = await matBox(page);
    for (const [out, up] of [[0, 0], [60, 0], [75, 110], [25, 190]])
      await page.mouse.click(box.x + box.width / 2 + out, box.y + box.height - 50 - up);
    await both('2-drawing');
    await page.mouse.click(box.x + box.width / 2 + 3, box.y + box.height - 250);
    await page.locator('.seen svg line').first().waitFor({ state: 'attached', timeout: 120_000 });
    await page.waitForTimeout(3000);
    await both('3-drawn');
    await page.getByRole('button', { name: 'Make the kit' }).click();
    await page.locator('progress').first().waitFor();
    await both('4-kit-under-way');
    await page.getByRole('link', { name: /Kit to hand on/ }).waitFor({ timeout: 240_000 });
    await page.getByRole('link', { name: /Kit to hand on/ }).scrollIntoViewIfNeeded();
    await both('5-kit');
  });
}
