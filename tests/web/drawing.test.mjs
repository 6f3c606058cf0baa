// Drawing on the mat: one gesture is one step, Escape puts back, and everything can be undone.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { design, drag, mat, matBox, middle, placeOf, point, points, ready, redo, undo } from './drawing.mjs';
import { begin } from './studio.mjs';

test('dragging a point follows the pointer, is one step, and Escape puts it back', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'], round: true });
  await ready(page);
  const before = await design(page);
  const third = point(page, 3);
  const from = await middle(third);
  await drag(page, from, 40, 0, async () => {
    const now = await middle(third);
    assert.ok(Math.abs(now.x - from.x - 40) < 6, `the point is ${now.x - from.x} px away, the pointer 40`);
    await page.keyboard.press('Escape');
  });
  assert.deepEqual(await design(page), before);
  assert.ok(await page.getByRole('button', { name: /^Undo/ }).isDisabled());
  await drag(page, from, 40, -20);
  const moved = await design(page);
  assert.notEqual(moved.silhouette.path, before.silhouette.path);
  await undo(page);
  assert.deepEqual(await design(page), before);
  await redo(page);
  assert.deepEqual(await design(page), moved);
});

test('points hold on to the grid unless Ctrl is held, and to an axis with Shift', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  const third = point(page, 3);
  await drag(page, await middle(third), 33, 17);
  const [out, up] = await placeOf(third);
  assert.ok(out % 5 === 0 && up % 5 === 0, `${out}, ${up} is not on the grid`);
  await page.keyboard.down('Control');
  await drag(page, await middle(third), 7, 6);
  await page.keyboard.up('Control');
  const [freeOut, freeUp] = await placeOf(third);
  assert.ok(freeOut % 5 !== 0 || freeUp % 5 !== 0, `${freeOut}, ${freeUp} is on the grid`);
  await page.keyboard.down('Shift');
  await drag(page, await middle(third), 6, -50);
  await page.keyboard.up('Shift');
  assert.equal((await placeOf(third))[0], freeOut);
});

test('pressing on the line adds a point there and leaves the line where it is', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'beehive.ornament.json', sizes: ['small'] });
  await ready(page);
  const [a, b] = [await middle(point(page, 1)), await middle(point(page, 2))];
  await page.mouse.click((a.x + b.x) / 2, (a.y + b.y) / 2);
  assert.match(await point(page, 2).getAttribute('aria-label'), /^point 2 of 8, 26(\.\d+)? mm out, 0 mm up/);
  await undo(page);
  assert.equal(await points(page), 7);
});

test('the wheel, two fingers and keys enlarge and shift; nothing else does', { timeout: 120_000 }, async (t) => {
  const { page, context } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'], width: 1024, height: 768, touch: true });
  await ready(page);
  const wide = async () => (await middle(point(page, 3))).x - (await middle(point(page, 1))).x;
  await mat(page).focus();
  await page.keyboard.press('0');
  const start = await wide();
  const at = await middle(point(page, 1));
  await page.mouse.move(at.x, at.y);
  await page.mouse.wheel(0, -300);
  const wheeled = await wide();
  assert.ok(wheeled > start * 1.3);
  assert.ok(Math.abs((await middle(point(page, 1))).x - at.x) < 1, 'what lies under the pointer stays there');
  const touch = await context.newCDPSession(page);
  const fingers = (apart) => [{ x: at.x - 110 - apart, y: at.y - 150, id: 1 }, { x: at.x - 110 + apart, y: at.y - 150, id: 2 }];
  await touch.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: fingers(60) });
  for (let apart = 55; apart >= 30; apart -= 5)
    await touch.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: fingers(apart) });
  await touch.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  const pinched = await wide();
  assert.ok(Math.abs(pinched / wheeled - 0.5) < 0.1, `two fingers at half the distance gave ${pinched / wheeled}`);
  await mat(page).focus();
  await page.keyboard.press('+');
  assert.ok(Math.abs((await wide()) / pinched - 1.25) < 0.01);
  await page.keyboard.press('0');
  const whole = await wide();
  assert.ok(Math.abs(whole - start) < 0.5, `all of it: ${whole} px, at first ${start}, chosen ${await page.locator(".slip h3").allTextContents()}, mat ${JSON.stringify(await mat(page).boundingBox())}`);
  const still = await middle(point(page, 1));
  await drag(page, await middle(point(page, 3)), 30, 0);
  await undo(page);
  assert.deepEqual(await middle(point(page, 1)), still);
  assert.ok(await page.getByRole('button', { name: /^Undo/ }).isDisabled(), 'looking leaves no steps behind');
});

test('pasted path data becomes the outline, in one step', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  const before = await design(page);
  const paste = (text) =>
    page.evaluate((words) => {
      const data = new DataTransfer();
      data.setData('text/plain', words);
      document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true }));
    }, text);
  await paste('M 0 0 L 40 0 L 40');
  await page.locator('#pasted-said.fault').waitFor();
  assert.ok(await page.getByRole('button', { name: 'Put it on the mat' }).isDisabled());
  await page.getByLabel('Path data').fill('<path d="M 10 100 H 50 Q 60 50 10 20"/>');
  await page.getByLabel('Its y runs down').check();
  await page.getByLabel('Scale it to a height').fill('6 in');
  await page.keyboard.press('Tab');
  await page.getByRole('button', { name: 'Put it on the mat' }).click();
  const pasted = await design(page);
  assert.match(pasted.silhouette.path, /^M 0 0 L 76\.2 0 C .* 0 152\.4$/);
  await undo(page);
  assert.deepEqual(await design(page), before);
});

test('a row dragged moves all evenly, or itself alone, and keeps its distance from the edge', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  const before = await design(page);
  const rows = page.locator('[data-row]'), count = await rows.count();
  // The name tells the middle of the row.
  const heights = async () =>
    Promise.all((await rows.all()).map(async (row) => Number(/([\d.]+) mm up/.exec(await row.getAttribute('aria-label'))[1])));
  const even = await heights();
  const steps = even.slice(1).map((height, k) => height - even[k]);
  assert.ok(Math.max(...steps) - Math.min(...steps) < 0.5, `not even: ${steps}`);
  // Pulled up by about a step, fewer rows fit.
  const apart = (await middle(rows.nth(4))).y - (await middle(rows.nth(5))).y;
  await drag(page, await middle(rows.nth(5)), 0, -apart);
  assert.ok((await rows.count()) < count, `${await rows.count()} rows of ${count}`);
  assert.equal((await design(page)).sizes[0].rows.count, await rows.count());
  await undo(page);
  assert.deepEqual(await design(page), before);
  await page.getByRole('button', { name: 'Rows together' }).click();
  await page.keyboard.down('Control');
  await drag(page, await middle(rows.nth(5)), 0, -apart / 3);
  await page.keyboard.up('Control');
  const alone = await heights();
  assert.ok(alone[5] > even[5] + 1, `row 6 went from ${even[5]} to ${alone[5]}`);
  alone.forEach((height, k) => k === 5 || assert.ok(Math.abs(height - even[k]) < 0.02, `row ${k + 1}: ${even[k]}, now ${height}`));
  const listed = (await design(page)).sizes[0].rows;
  assert.ok(Array.isArray(listed) && listed.length === count);
  await undo(page);
  assert.deepEqual(await design(page), before);
  assert.ok(await page.getByRole('button', { name: /^Undo/ }).isDisabled());
});

test('a cut-out is added, moved by mouse and by keys, taken away, and undone step by step', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  const path = async () => (await design(page)).silhouette.path;
  const paths = [await path()];
  const does = async (act) => {
    await act();
    const now = await path();
    assert.notEqual(now, paths.at(-1));
    paths.push(now);
  };
  const corner = page.locator('[data-knot="1-0"]');
  await does(() => page.getByRole('button', { name: 'Add a cut-out' }).click());
  assert.match(paths[1], /Z$/);
  const [out, up] = await placeOf(corner);
  const hold = await middle(page.locator('[data-cut-out="1"]'));
  await does(() => drag(page, hold, 0, -30));
  const [movedOut, movedUp] = await placeOf(corner);
  assert.ok(movedUp > up + 4 && Math.abs(movedOut - out) < 5, `${out}, ${up} went to ${movedOut}, ${movedUp}`);
  const press = async (key) => {
    await page.locator('[data-cut-out="1"]').focus();
    await page.keyboard.press(key);
  };
  await does(() => press('ArrowDown'));
  assert.deepEqual(await placeOf(corner), [movedOut, Number((movedUp - 1).toFixed(2))]);
  await does(() => press('Delete'));
  assert.equal(await page.locator('[data-cut-out]').count(), 0);
  for (const was of paths.slice(0, -1).reverse()) {
    await undo(page);
    assert.equal(await path(), was);
  }
});

test('number fields take both decimal signs and units, and keep what they cannot read', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  await ready(page);
  await point(page, 3).focus();
  const field = page.getByLabel('out', { exact: true });
  for (const [typed, out] of [['76,5', 76.5], ['77.25', 77.25], ['3 in', 76.2], ['3 1/4 in', 82.55], ['7,5 cm', 75]]) {
    await field.fill(typed);
    await field.press('Enter');
    assert.deepEqual(await placeOf(point(page, 3)), [out, 74], typed);
  }
  const before = await design(page);
  for (const [typed, said] of [['7,5,1', 'is not a number'], ['3 ft', 'is not a unit'], ['-4', 'At least 0']]) {
    await field.fill(typed);
    await field.press('Enter');
    await page.getByText(said).waitFor();
    assert.equal(await field.inputValue(), typed);
    assert.equal(await field.getAttribute('aria-invalid'), 'true');
  }
  assert.deepEqual(await design(page), before);
});

test('a fan is seated by its mark, and its edge is drawn like the leaf’s', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, { file: 'moth.ornament.json', sizes: ['small'] });
  await ready(page);
  const wing = async () => (await design(page)).fans[0];
  const before = await wing();
  const mark = page.locator('[data-seat="0"]');
  await mark.waitFor({ timeout: 60_000 });
  await mark.focus();
  await page.keyboard.press('ArrowDown');
  assert.equal((await wing()).seat.below_neck, before.seat.below_neck + 1);
  assert.match(await mark.getAttribute('aria-label'), new RegExp(`^seat of wing, ${before.seat.below_neck + 1} mm below the neck$`));
  await matBox(page);
  await drag(page, await middle(mark.locator('.reach')), 0, 24);
  assert.ok((await wing()).seat.below_neck > before.seat.below_neck + 2);
  await undo(page);
  await undo(page);
  assert.deepEqual(await wing(), before);
  // Too near the head it cannot spread; what was tried and lets it sit is one button.
  await page.locator('[data-tag="fans"]').click();
  await page.getByRole('textbox', { name: 'Below the neck', exact: true }).fill('1');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Let it sit' }).click({ timeout: 60_000 });
  assert.ok((await wing()).seat.below_neck > 2);
  await page.keyboard.press('Escape');
  await undo(page);
  await undo(page);
  // Its edge has points on both sides of the centre, and no foot or top.
  const silhouette = (await design(page)).silhouette.path;
  await page.getByRole('button', { name: 'wing', exact: true }).click();
  assert.equal(await page.locator('[data-row]').count(), 0);
  const knot = point(page, 2);
  const [out, up] = await placeOf(knot);
  assert.ok(out < 0, `the second point of the wing lies at ${out}, ${up}`);
  await knot.focus();
  await page.keyboard.press('ArrowLeft');
  assert.deepEqual(await placeOf(knot), [out - 1, up]);
  const drawn = await design(page);
  assert.notEqual(drawn.fans[0].outline, before.outline);
  assert.equal(drawn.silhouette.path, silhouette);
  await undo(page);
  assert.deepEqual(await placeOf(knot), [out, up]);
  await page.getByRole('button', { name: 'Leaf', exact: true }).click();
  assert.ok((await page.locator('[data-row]').count()) > 2);
});
