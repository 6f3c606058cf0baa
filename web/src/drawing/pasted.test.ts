import { describe, expect, it } from 'vitest';
import { writeOutline } from './outline';
import { pathDataIn, placedOutline } from './pasted';

const written = (path: string, placing: Partial<Parameters<typeof placedOutline>[2]> = {}) => {
  const placed = placedOutline(path, 'mm', { downwards: false, left: false, height: null, ...placing });
  return 'sentence' in placed ? placed.sentence : writeOutline(placed, 'mm');
};

describe('pasted path data', () => {
  it('is taken out of SVG text', () => {
    expect(pathDataIn(' M 0 0 L 1 1 ')).toBe('M 0 0 L 1 1');
    expect(pathDataIn('<svg><path id="d" d="M 0 0 L 1 1"/><path d=\'M 2 2\'></path></svg>')).toBe('M 0 0 L 1 1 M 2 2');
  });

  it('is put on the spine, the right way up, to the height asked for', () => {
    expect(written('M 100 50 L 140 50 L 100 -50')).toBe('M 0 0 L 40 100 L 0 100');
    expect(written('M 100 50 L 140 50 L 100 -50', { downwards: true })).toBe('M 0 0 L 40 0 L 0 100');
    expect(written('M 100 50 L 60 50 L 100 -50', { downwards: true, left: true, height: 200 })).toBe('M 0 0 L 80 0 L 0 200');
  });

  it('takes further lines as cut-outs', () => {
    expect(written('M 0 0 L 40 0 L 40 90 L 0 90 M 10 20 L 20 20 L 15 30')).toBe(
      'M 0 0 L 40 0 L 40 90 L 0 90 M 10 20 L 20 20 L 15 30 Z',
    );
  });

  it('refuses what does not come back to the spine', () => {
    expect(written('M 0 0 L 40 0 L 40 90')).toMatch(/begins and ends on the spine/);
    expect(written('M 0 0 L 40 0')).toMatch(/no height/);
    expect(written('nothing')).toMatch(/no line/);
  });
});
