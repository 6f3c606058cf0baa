import { describe, expect, it } from 'vitest';
import { readFans } from './fans';

/** One fan of a single triangle, as the server writes it. */
function sent(corner = 2): ArrayBuffer {
  const head = JSON.stringify({ from_mm: 90, neck: true, problems: [], figure: null, seats: [], fans: [{ name: 'wing', points: 3, triangles: 1 }] });
  const padded = head.padEnd(Math.ceil(head.length / 4) * 4);
  const bytes = new ArrayBuffer(8 + padded.length + 36 + 4 + 12);
  const view = new DataView(bytes);
  new Uint8Array(bytes).set(new TextEncoder().encode('FWF1'));
  view.setUint32(4, padded.length, true);
  new Uint8Array(bytes).set(new TextEncoder().encode(padded), 8);
  const at = 8 + padded.length;
  [0, 0, 5, 10, 0, 5, 0, 20, 5].forEach((value, k) => view.setFloat32(at + 4 * k, value, true));
  [0, 255, 51].forEach((value, k) => view.setUint8(at + 36 + k, value));
  [0, 1, corner].forEach((value, k) => view.setUint32(at + 40 + 4 * k, value, true));
  return bytes;
}

describe('fans', () => {
  it('are read with their paper', () => {
    const fans = readFans(sent());
    expect(fans.from_mm).toBe(90);
    expect(fans.papers).toHaveLength(1);
    expect([...fans.papers[0]!.positions]).toEqual([0, 0, 5, 10, 0, 5, 0, 20, 5]);
    expect([...fans.papers[0]!.openness].map((share) => Number(share.toFixed(2)))).toEqual([0, 1, 0.2]);
    expect([...fans.papers[0]!.index]).toEqual([0, 1, 2]);
  });

  it('that are cut short, or something else, are refused', () => {
    expect(() => readFans(sent().slice(0, -4))).toThrow('cut short');
    expect(() => readFans(sent(3))).toThrow('cut short');
    expect(() => readFans(new ArrayBuffer(40))).toThrow('no fans');
  });
});
