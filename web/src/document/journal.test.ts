import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { Json } from '../answers';
import { changesOf } from './change';
import { begun, done, redone, undone } from './history';
import { JournalSender, replayed } from './journal';

const base = JSON.stringify({ fanwright: 1, leaves: 46 });
const step = (leaves: number, before = 46) => ({ do: { label: 'leaves', changes: [{ at: '/leaves', before, after: leaves }] } });

describe('replay', () => {
  it('follows steps, undo and redo, and knows where the file was written', () => {
    const lines: Json[] = [{ n: 0, ...step(40) }, { n: 1, ...step(38, 40) }, { saved: 'f2' }, { n: 2, undo: 1 }];
    const replay = replayed(base, 'f1', lines);
    expect(replay).toMatchObject({ savedAt: 2, fingerprint: 'f2', next: 3, history: { at: 1, value: { leaves: 40 } } });
    expect(redone(replay.history).value).toMatchObject({ leaves: 38 });
  });

  it('knows that what stands on disk was taken over', () => {
    const lines: Json[] = [{ n: 0, ...step(40) }, { n: 1, saved: 'f9' }, { n: 2, undo: 1 }];
    expect(replayed(base, 'f1', lines)).toMatchObject({ savedAt: 1, fingerprint: 'f9', next: 3, history: { at: 0 } });
  });

  it('cannot come back to a saved state that was undone and then drawn over', () => {
    const lines: Json[] = [{ n: 0, ...step(40) }, { saved: 'f2' }, { n: 1, undo: 1 }, { n: 2, ...step(30) }];
    expect(replayed(base, 'f1', lines)).toMatchObject({ savedAt: null, history: { value: { leaves: 30 } } });
  });

  it('takes lines that were sent twice once, and ones that overtook in their order', () => {
    const [a, b, c]: Json[] = [{ n: 4, ...step(40) }, { n: 5, ...step(38, 40) }, { n: 6, undo: 1 }];
    for (const lines of [[a, b, c], [a, a, b, c, b], [a, c, b], [c, b, a]] as Json[][])
      expect(replayed(base, null, lines)).toMatchObject({ next: 7, history: { at: 1, value: { leaves: 40 } } });
  });

  it('ends at a line that does not fit', () => {
    const lines: Json[] = [{ n: 0, ...step(40) }, { n: 1, do: { label: '', changes: [{ at: '/rows/9/from', after: 1 }] } }, { n: 2, undo: 1 }];
    expect(replayed(base, null, lines)).toMatchObject({ next: 1, history: { at: 1, value: { leaves: 40 } } });
  });

  it('comes to the page’s own document, whatever was done', () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.nat(99), fc.constant('undo'), fc.constant('redo')), { maxLength: 60 }), (deeds) => {
        let page = begun(JSON.parse(base) as Json);
        const lines = deeds.map((deed, n): Json => {
          if (deed === 'undo' || deed === 'redo') {
            page = deed === 'undo' ? undone(page) : redone(page);
            return { n, [deed]: 1 };
          }
          const made = { label: '', changes: changesOf(page.value, [{ at: '/leaves', after: deed as number }]) };
          page = done(page, made);
          return { n, do: made as unknown as Json };
        });
        expect(replayed(base, null, lines).history).toEqual(page);
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});

const idle = { waiting: () => {}, restart: () => Promise.resolve() };

describe('sending', () => {
  it('begins a full journal anew, with the lines that wait taken up in its base', async () => {
    const got: number[] = [];
    let restarts = 0;
    const send = (lines: Json[]) => {
      const full = restarts === 0;
      if (!full) got.push(...lines.map((line) => (line as { n: number }).n));
      return Promise.resolve(full ? ('full' as const) : ('kept' as const));
    };
    const sender = new JournalSender(0, send, { ...idle, restart: () => Promise.resolve((restarts += 1)) });
    sender.add(step(40));
    sender.add({ undo: 1 });
    await vi.waitFor(() => expect(sender.waiting).toBe(0));
    sender.add({ redo: 1 });
    await vi.waitFor(() => expect(got).toEqual([2]));
    expect(restarts).toBe(1);
  });

  it('sends at once and keeps order while a batch is on its way', async () => {
    const batches: number[][] = [];
    const confirm: (() => void)[] = [];
    const send = (lines: Json[]) =>
      new Promise<'kept'>((resolve) => {
        batches.push(lines.map((line) => (line as { n: number }).n));
        confirm.push(() => resolve('kept'));
      });
    const sender = new JournalSender(3, send, idle);
    sender.add(step(40));
    sender.add({ undo: 1 });
    sender.add({ redo: 1 });
    expect(batches).toEqual([[3]]);
    confirm[0]?.();
    await vi.waitFor(() => expect(batches).toEqual([[3], [4, 5]]));
    confirm[1]?.();
    await vi.waitFor(() => expect(sender.waiting).toBe(0));
  });

  it('keeps lines the server did not confirm and tries them again; leaving sends them all', async () => {
    const got: [Json[], boolean][] = [];
    let broken = true;
    const states: number[] = [];
    const send = (lines: Json[], leaving: boolean) => {
      got.push([lines.slice(), leaving]);
      return broken ? Promise.reject(new Error('gone')) : Promise.resolve('kept' as const);
    };
    const sender = new JournalSender(0, send, { ...idle, waiting: (count) => states.push(count) }, 5);
    sender.add(step(40));
    await vi.waitFor(() => expect(got.length).toBeGreaterThan(1));
    expect(sender.waiting).toBe(1);
    sender.leave();
    expect(got.at(-1)).toEqual([[{ n: 0, ...step(40) }], true]);
    broken = false;
    await vi.waitFor(() => expect(sender.waiting).toBe(0));
    expect(states.at(-1)).toBe(0);
  });
});
