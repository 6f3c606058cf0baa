// From her own drawing: dropped, pasted or chosen; figures offered, taken over as one step; from the drop to a kit with one button; a
// picture behind the drawing.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { drag, middle, ready } from './drawing.mjs';
import { begin } from './studio.mjs';

/** Two figures; the larger one has a cut-out on its right side only. */
const drawing = `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="70mm" viewBox="0 0 80 70">
<path d="M10 65C15 60 16 50 17 35C18 15 22 5 30 5C38 5 42 15 43 35C44 50 45 60 50 65Z"/>
<circle cx="36" cy="45" r="3" fill="white"/><circle cx="68" cy="12" r="8"/></svg>`;

/** As a hand drops it: the page takes it from the event. */
async function drop(page, name, text) {
  const transfer = await page.evaluateHandle(([name, text]) => {
    const made = new DataTransfer();
    made.items.add(new File([text], name));
    return made;
  }, [name, text]);
  await page.dispatchEvent('main', 'dragover', { dataTransfer: transfer });
  await page.dispatchEvent('main', 'drop', { dataTransfer: transfer });
}

/** Keeps what the page listens to, so that a test can tell it something. */
function keepListeners() {
  window.listening = [];
  window.EventSource = class extends EventSource {
    constructor(address) {
      super(address);
      window.listening.push(this);
    }
  };
}

const slip = (page) => page.getByRole('dialog', { name: /^Take over/ });

test('dropped, chosen, taken over as one step, and to a kit with one button', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { empty: true, before: (fresh) => fresh.addInitScript(keepListeners) });
  await ready(page);
  const before = await page.getByRole('heading', { level: 1 }).textContent();

  await drop(page, 'words.svg', 'a bell, please');
  await slip(page).getByRole('alert').getByText('The file is no drawing').waitFor();
  await page.keyboard.press('Escape');
  await slip(page).waitFor({ state: 'detached' });

  await drop(page, 'my_bell.svg', drawing);
  const figures = slip(page).getByRole('radiogroup', { name: '2 figures, the largest first' }).getByRole('radio');
  await figures.nth(1).waitFor({ state: 'attached' });
  assert.equal(await figures.count(), 2);
  const lost = slip(page).getByRole('listitem').getByText('A cut-out on the right side only was lost');
  await lost.waitFor();
  await slip(page).getByText('the right side', { exact: true }).click();
  await lost.waitFor({ state: 'detached' });
  await slip(page).getByText('by its height').click();
  await slip(page).getByLabel('Height', { exact: true }).fill('5 cm');
  await slip(page).getByLabel('Height', { exact: true }).press('Enter');
  await slip(page).getByText(/^50 mm high, 33\.3 mm wide/).last().waitFor();

  await slip(page).getByRole('button', { name: 'Put it on the mat', exact: true }).click();
  await page.getByRole('heading', { level: 1, name: 'My bell' }).waitFor();
  assert.equal(await page.locator('[data-cut-out]').count(), 1);
  await page.locator('.mat img').waitFor({ state: 'attached' });
  await page.keyboard.press('Control+z');
  await page.getByRole('heading', { level: 1, name: before }).waitFor();
  assert.ok(await page.getByRole('button', { name: /^Undo/ }).isDisabled(), 'one step');

  // The kit itself is made in kit_run.test.mjs; here its end is told, so that the page hands it out.
  const asked = page.waitForRequest(/\/kit$/);
  await page.route(/\/kit$/, (route) => route.fulfill({ json: { id: 'bells' } }));
  await page.route(/\/jobs\/bells\/kit.zip$/, (route) =>
    route.fulfill({ body: 'PK', headers: { 'content-type': 'application/zip', 'content-disposition': 'attachment' } }));
  await drop(page, 'my_bell.svg', drawing);
  await slip(page).getByRole('button', { name: 'Put it on the mat and make the kit' }).click();
  const design = JSON.parse(JSON.parse((await asked).postData()).text);
  assert.deepEqual([design.title, design.silhouette.shows], ['My bell', 'opened']);
  const [kit] = await Promise.all([
    page.waitForEvent('download'),
    page.evaluate(() => window.listening.at(-1).dispatchEvent(new MessageEvent('job', {
      data: JSON.stringify({ id: 'bells', kind: 'kit', share: 1, doing: '', done: true }),
    }))),
  ]);
  assert.equal(kit.suggestedFilename(), 'my-bell-kit.zip');
});

/** As a browser hands over what is pasted; `make`, run in the page, fills what is carried. */
async function paste(page, make, what) {
  const carried = await page.evaluateHandle(make, what);
  await page.evaluate((clipboardData) =>
    document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true })), carried);
}

function written(text) {
  const carried = new DataTransfer();
  carried.setData('text/plain', text);
  return carried;
}

/** A dark pear on cream. */
async function photographed() {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [300, 400];
  const pen = canvas.getContext('2d');
  for (const [colour, ...ellipse] of [['#f0ece0', 150, 200, 400, 400], ['#20304a', 150, 250, 100, 120], ['#20304a', 150, 120, 50, 80]]) {
    pen.fillStyle = colour;
    pen.beginPath();
    pen.ellipse(...ellipse, 0, 0, 7);
    pen.fill();
  }
  const blob = await new Promise((done) => canvas.toBlob(done, 'image/png'));
  const carried = new DataTransfer();
  carried.items.add(new File([blob], 'image.png', { type: 'image/png' }));
  return carried;
}

/** axe-core, in both themes. */
async function nothingSerious(page, where, within) {
  await page.evaluate(readFileSync(new URL('../../web/node_modules/axe-core/axe.min.js', import.meta.url), 'utf8'));
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    const { violations } = await page.evaluate((part) => window.axe.run(part), within);
    const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
    assert.deepEqual(serious.map(({ id, nodes }) => [id, nodes.map(({ html }) => html.slice(0, 200))]), [], `${where}, ${colorScheme}`);
  }
}

/** The picture's place on the mat. */
const place = (page) => page.locator('.mat img').evaluate((image) => {
  const { a, b, c, d, e, f } = new DOMMatrix(image.style.transform);
  return [a, b, c, d, e, f];
});

async function chosenByKey(page, button) {
  await button.waitFor();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), button.press('Enter')]);
  await chooser.setFiles({ name: 'my_bell.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(drawing) });
  await slip(page).getByRole('button', { name: 'Put it on the mat', exact: true }).waitFor();
}

test('pasted, laid behind the drawing, placed, kept over a reload; chosen by keyboard', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { empty: true });
  await ready(page);
  const tops = await page.locator('.foot > button').evaluateAll((buttons) => buttons.map((one) => one.getBoundingClientRect().top));
  assert.equal(new Set(tops).size, 1, `one line of words under the mat at 1280 pixels, not ${tops}`);

  await paste(page, written, drawing);
  await slip(page).getByRole('heading', { name: 'Take over pasted drawing.svg' }).waitFor();
  await slip(page).locator('image').waitFor();
  await page.keyboard.press('Escape');
  await slip(page).waitFor({ state: 'detached' });

  await paste(page, photographed);
  await slip(page).getByText('by two points').click();
  await slip(page).locator('[data-measured="2"]').waitFor();
  await slip(page).locator('image').waitFor();
  await slip(page).locator('[aria-busy=false]').waitFor();
  await nothingSerious(page, 'a picture', 'dialog[open]');
  await slip(page).getByRole('button', { name: 'Only lay it behind the drawing' }).click();
  await page.getByRole('button', { name: 'Place it' }).click();
  const frame = page.locator('[data-backdrop]');
  await frame.waitFor();
  const laid = await place(page);
  await drag(page, await middle(frame), 30, -20);
  const moved = await place(page);
  assert.deepEqual(moved.map((value, i) => Math.round(value - laid[i])), [0, 0, 0, 0, 30, -20]);
  await page.locator('[data-corner="2"]').press('Shift+ArrowLeft');
  const reduced = await place(page);
  assert.ok(reduced[0] < moved[0] && Math.abs(reduced[4] - moved[4]) < 0.01, 'the upper left corner stays');
  await frame.press('ArrowRight');
  assert.ok((await place(page))[4] > reduced[4]);
  await page.getByLabel('Strength').fill('0.3');
  await page.getByRole('button', { name: 'Two points' }).click();
  await nothingSerious(page, 'placing', '.drawing');
  const kept = await place(page);
  await page.waitForTimeout(200); // the browser's store is written
  await page.reload();
  await ready(page);
  await page.locator('.mat img').waitFor();
  await page.waitForFunction((shift) => Math.abs(new DOMMatrix(document.querySelector('.mat img').style.transform).e - shift) < 0.01, kept[4]);
  assert.deepEqual(await place(page), kept);
  assert.equal(await page.locator('.mat img').evaluate((image) => image.style.opacity), '0.3');
  await page.getByRole('button', { name: 'Hide it' }).click();
  await page.locator('.mat img').waitFor({ state: 'detached' });

  await chosenByKey(page, page.getByRole('button', { name: 'From a drawing', exact: true }));
  await page.keyboard.press('Escape');
  await slip(page).waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Designs', exact: true }).click();
  await page.locator('dialog[open] :focus').waitFor();
  await chosenByKey(page, page.getByRole('button', { name: 'From your own drawing or photo' }));
  await slip(page).getByRole('button', { name: 'Put it on the mat', exact: true }).click();
  await page.getByRole('heading', { level: 1, name: 'My bell' }).waitFor();
});
