// From her own drawing: dropped on the page, figures offered, taken over as one step, and from the drop to a kit with one button.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { ready } from './drawing.mjs';
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
