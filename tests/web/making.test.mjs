// A kit that is stopped half way, and a check that fails until its remedy is taken.
import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { test } from 'node:test';
import { design } from './drawing.mjs';
import { begin } from './studio.mjs';

const pane = (page, heading) => page.locator(`section[aria-labelledby="${heading}"]`);

test('stopped half way, it leaves nothing and can be made again', { timeout: 120_000 }, async (t) => {
  const { page, folder } = await begin(t, { file: 'pear.ornament.json', sizes: ['small'] });
  const making = pane(page, 'making-heading'), before = readdirSync(folder).filter((name) => !name.startsWith('.'));
  await making.getByRole('button', { name: 'Make the kit' }).click();
  await making.getByRole('progressbar').waitFor();
  await making.getByRole('button', { name: 'Stop' }).click();
  await making.getByRole('button', { name: 'Make the kit' }).waitFor();
  assert.equal(await making.getByRole('link', { name: /Kit to hand on/ }).count(), 0);
  assert.deepEqual(readdirSync(folder).filter((name) => !name.startsWith('.')), before);
});

test('a check fails, its remedy is one button and one step to undo, and then it passes', { timeout: 120_000 }, async (t) => {
  const { page } = await begin(t, {
    file: 'pear.ornament.json', sizes: ['small'],
    change: ({ sizes: [small] }) => (small.rows.edge_gap = 0.5),
  });
  const checks = pane(page, 'checks-heading'), undo = page.getByRole('button', { name: /^Undo/ });
  await checks.getByText('1 thing stands in the way').waitFor({ timeout: 60_000 });
  const fault = checks.locator('li.fails', { hasText: 'towards the nearest cut edge' });
  const before = await design(page);
  await fault.getByRole('button', { name: /^Do it: Keep the rows/ }).click();
  await checks.getByText(/^Looking again/).waitFor();
  await checks.locator('[aria-busy=false]').waitFor({ timeout: 60_000 });
  assert.equal(await checks.locator('li.fails').count(), 0);
  await checks.getByText(/things are good/).click();
  await checks.locator('li.good', { hasText: 'nearest cut edge' }).waitFor();
  assert.ok((await design(page)).sizes[0].rows.edge_gap > 1);
  await undo.click();
  assert.deepEqual(await design(page), before);
  assert.ok(await undo.isDisabled());
  await checks.getByText('1 thing stands in the way').waitFor({ timeout: 60_000 });
});
