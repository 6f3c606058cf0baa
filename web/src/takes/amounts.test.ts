import { describe, expect, it } from 'vitest';
import type { TakesOfSize } from '../answers';
import { fileName } from '../making/entries';
import { hoursInWords, linesFor, money, pictureOf, weightInWords } from './amounts';

const size: TakesOfSize = {
  name: 'small', leaves: 36, grammage: 120, height_mm: 122, diameter_mm: 86, sheets: 9, per_sheet: 4, sheet: 'A4',
  layouts: [], glue_g: 4.12, joints: 396, hours: 3.4, cost: null, weight_g: 22.4,
};

describe('amounts', () => {
  it('are said as a maker says them', () => {
    expect(hoursInWords(5.92)).toBe('5 h 55 min');
    expect(hoursInWords(0.66)).toBe('40 min');
    expect(hoursInWords(1.999)).toBe('2 h');
    expect(weightInWords(4.12)).toBe('4.1 g');
    expect(weightInWords(1234)).toBe('1.23 kg');
    expect(money(7.3, 'EUR')).toBe('7.30 EUR');
  });

  it('tell of money only where there are prices', () => {
    expect(linesFor([size]).map((line) => line.what)).not.toContain('Price');
    const priced = { ...size, cost: { currency: 'EUR', materials: 1.9, labour: 54, total: 57.8, price: 69.5 } };
    const price = linesFor([size, priced]).find((line) => line.what === 'Price')!;
    expect([price.of(size), price.of(priced)]).toEqual(['–', '69.50 EUR']);
    expect(linesFor([{ ...priced, cost: { ...priced.cost, price: null } }]).map((line) => line.what)).not.toContain('Price');
  });

  it('put a drawing into an address that cannot be left', () => {
    const address = pictureOf('<svg xmlns="http://www.w3.org/2000/svg"><text>"#%<script></text></svg>', '#c9a227');
    expect(decodeURIComponent(address)).toContain('fill:#c9a227');
    expect(decodeURIComponent(pictureOf('<svg></svg>', 'red}</style><script>'))).not.toContain('script');
    expect(address).toMatch(/^data:image\/svg\+xml;charset=utf-8,[A-Za-z0-9%!'()*._~-]+$/);
  });
});

describe('names of files', () => {
  it('are made from titles', () => {
    expect(fileName('Crème Pear, large!')).toBe('creme-pear-large');
    expect(fileName('梨')).toBe('ornament');
  });
});
