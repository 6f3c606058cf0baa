import { describe, expect, it } from 'vitest';
import type { Form, Json } from '../answers';
import { appliedAll, changesOf } from '../document/change';
import { readOutline, type Outline } from './outline';
import { asListed, countPulled, countWishes, heightOfRow, pulledEvenly, risen, rowsOf, withRow, type Row } from './rows';

const cone = readOutline('M 0 0 L 60 0 L 0 120', 'mm') as Outline;
const row = (z: number, x = 60 - z / 2 - 3): Row => ({ side: 'inside', from: { x: 3, z }, to: { x, z }, width: 3 });
const even = [10, 30, 50, 70].map((z) => row(z));
const after = (document: Json, wishes: Parameters<typeof changesOf>[1]) => appliedAll(document, changesOf(document, wishes));

describe('rows', () => {
  it('a row that is raised keeps its distance from the edge', () => {
    expect(risen(row(20), 10, cone).to).toEqual({ x: 42, z: 30 });
  });

  it('pulling the third row twice as high halves the number of spaces', () => {
    expect(countPulled(even, 2, 40)).toBe(3);
    expect(countPulled(even, 2, -20)).toBe(7);
    expect(countPulled(even, 2, -1000)).toBe(121);
  });

  it('listed rows move evenly about the lowest', () => {
    expect(pulledEvenly(even, 3, 30, cone).map(heightOfRow)).toEqual([10, 40, 70, 100]);
    expect(pulledEvenly(even, 0, 5, cone).map(heightOfRow)).toEqual([15, 35, 55, 75]);
  });

  it('a row is added in the widest space, on the other side', () => {
    const more = withRow([row(10), row(20), row(60)], cone, null);
    expect(more.map(heightOfRow)).toEqual([10, 20, 40, 60]);
    expect(more[2]?.side).toBe('between');
    expect(withRow([row(10), row(20), row(60)], cone, 0).map(heightOfRow)).toEqual([10, 15, 20, 60]);
  });

  it('counting rows that placed themselves leaves no word of their look', () => {
    expect(after({ rows: 'auto' }, countWishes({ rows: 'auto' }, '/rows', 9))).toEqual({ rows: { count: 9 } });
    const dense = { rows: { count: 'auto', look: 'dense', width: 4 } };
    expect(after(dense, countWishes(dense, '/rows', 9))).toEqual({ rows: { count: 9, width: 4 } });
    expect(after({ leaves: 9 }, countWishes({ leaves: 9 }, '/rows', 9))).toEqual({ leaves: 9, rows: { count: 9 } });
  });

  it('places of a larger size are brought back to the drawing, and widths are not scaled in the file', () => {
    const document = { units: 'in', sizes: [{ name: 'large', height: 240 / 25.4 }], rows: { count: 2 } };
    const form = { shows: 'flat', rows: [{ index: 0, side: 'between', flat: [[6, 40], [80, 40]], width: 3, opened: [[6, 40], [78, 41]] }] };
    const rows = rowsOf(document, 'large', form as unknown as Form, cone, 'in');
    expect(rows.scale).toBeCloseTo(2, 9);
    expect(rows.rows[0]?.to).toEqual({ x: 40, z: 20 });
    expect(asListed(rows.rows, 'in', rows.scale)).toEqual([
      { side: 'between', from: [0.1181, 0.7874], to: [1.5748, 0.7874], width: 0.1181 },
    ]);
  });

  it('reads the rows a size lists for itself', () => {
    const document = { rows: { count: 9 }, sizes: [{ name: 'small', rows: [{ side: 'inside', from: [3, 10], to: [30, 11], width: 2 }] }] };
    expect(rowsOf(document, 'small', null, cone, 'mm')).toMatchObject({ listed: true, at: '/sizes/0/rows', rows: [{ width: 2, to: { x: 30, z: 11 } }] });
  });
});
