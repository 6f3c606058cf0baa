import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { count, degrees, grammage, inches, millimetres, minutes, outOfBounds, readQuantity, share, thickness, writeQuantity } from './quantity';

const value = (text: string, quantity = millimetres) => {
  const reading = readQuantity(text, quantity);
  return 'value' in reading ? reading.value : reading.sentence;
};

describe('numbers with units', () => {
  it('reads both decimal signs and the units of the trade', () => {
    expect(value('76,2')).toBe(76.2);
    expect(value('76.2 mm')).toBe(76.2);
    expect(value('3 in')).toBe(76.2);
    expect(value('3in')).toBe(76.2);
    expect(value('3"')).toBe(76.2);
    expect(value('1 1/2 in')).toBe(38.1);
    expect(value('1/8', inches)).toBe(3.175);
    expect(value('7,5 cm')).toBe(75);
    expect(value(' .5 ')).toBe(0.5);
    expect(value('200 µm', thickness)).toBe(0.2);
    expect(value('10 %', share)).toBe(0.1);
    expect(value('12,5', share)).toBe(0.125);
    expect(value('1,5 h', minutes)).toBe(90);
    expect(value('180°', degrees)).toBe(180);
    expect(value('160 GSM', grammage)).toBe(160);
  });

  it('says in one sentence what it cannot read', () => {
    for (const text of ['', 'pear', '1.2.3', '1,000,5', '3 lb', '1/0', '--2', '3 in in', '1e3'])
      expect(value(text)).toMatch(/^[A-Z“].*[^.]\.$/);
    expect(value('4,5', count)).toBe('This must be a whole number.');
    expect(value('46 mm', count)).toBe('This is a plain number, without “mm”.');
  });

  it('bounds are told in the unit shown', () => {
    expect(outOfBounds(0.1, 0.2, 100, inches)).toBe('At least 0.008 in.');
    expect(outOfBounds(600, 0, 500, millimetres)).toBe('At most 500 mm.');
    expect(outOfBounds(3, 0, 500, millimetres)).toBeNull();
  });

  it('what is written is read back to within its digits', () => {
    for (const quantity of [millimetres, inches, degrees, grammage, minutes, share, thickness])
      fc.assert(
        fc.property(fc.double({ min: 0, max: 2000, noNaN: true }), (number) => {
          const back = value(writeQuantity(number, quantity), quantity) as number;
          const worth = quantity.units[quantity.shown] ?? 1;
          expect(Math.abs(back - number)).toBeLessThanOrEqual(0.500001 * worth * 10 ** -quantity.digits);
        }),
        { seed: 1 },
      );
  });
});
