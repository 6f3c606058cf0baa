import { describe, expect, it } from 'vitest';
import type { Form, Json } from '../answers';
import { seatMarks, seatMoved } from './seats';

const form = { outline: [[40, 0], [40, 60], [10, 80], [20, 100], [0, 110]] } as unknown as Form;
const winged: Json = { fans: [{ name: 'wing', seat: { below_neck: 20 } }, { name: 'tail' }] };

describe('seats on the drawing', () => {
  it('lie below the neck, on the outline that comes out once open', () => {
    const marks = seatMarks(winged, form, 80, 1, 'mm');
    expect(marks).toEqual([{ fan: 0, name: 'wing', below: 20, spot: { x: 40, z: 60 } }]);
  });

  it('are on the scale of the drawing, in the unit of the file', () => {
    // Twice as large as drawn: 0.5 in below is 12.7 mm as drawn, 25.4 mm of the size.
    const inches: Json = { fans: [{ name: 'wing', seat: { below_neck: 0.5 } }] };
    const [mark] = seatMarks(inches, form, 80, 2, 'in');
    expect(mark!.spot.z).toBeCloseTo((80 - 25.4) / 2);
    expect(mark!.spot.x).toBeCloseTo(20);
  });

  it('move in one key of the file, never above the neck', () => {
    const [mark] = seatMarks(winged, form, 80, 1, 'mm');
    expect(seatMoved(winged, mark!, 5, 'mm').wishes).toEqual([{ at: '/fans/0/seat/below_neck', after: 15 }]);
    expect(seatMoved(winged, mark!, 50, 'mm').below).toBe(0);
  });
});
