import { describe, expect, it } from 'vitest';
import type { Finding } from '../answers';
import { adviceIn, rowsAreCounted, wishFor } from './advice';
import { inWords, measured, sorted, summary } from './findings';

const finding = (verdict: Finding['verdict'], more: Partial<Finding> = {}): Finding => ({
  id: 'glue.edge', verdict, value: 0.789, unit: 'mm', limit: 1, limit_source: 'common practice', sentence: '', remedy: '',
  where: '', changes: null, ...more,
});

describe('findings', () => {
  it('stand worst first, equal ones in their order', () => {
    const found = [finding('good'), finding('note', { id: 'a' }), finding('fails'), finding('note', { id: 'b' }), finding('warning')];
    expect(sorted(found).map((one) => one.verdict)).toEqual(['fails', 'warning', 'note', 'note', 'good']);
    expect(sorted(found).filter((one) => one.verdict === 'note').map((one) => one.id)).toEqual(['a', 'b']);
  });

  it('are summed up in one line', () => {
    expect(summary([finding('good')])).toBe('It can be made.');
    expect(summary([finding('warning')])).toBe('It can be made; 1 thing asks for care.');
    expect(summary([finding('fails'), finding('fails'), finding('warning'), finding('warning')])).toBe(
      'Not like this: 2 things stand in the way; 2 things ask for care.',
    );
  });

  it('are told without the keys of the file', () => {
    expect(inWords('Keep the rows 2.5 mm away ("spine_gap"), or hang it (making, "display": "hangs").')).toBe(
      'Keep the rows 2.5 mm away, or hang it.',
    );
    expect(inWords('Paper of 120 g/m2 (or less) will do.')).toBe('Paper of 120 g/m² (or less) will do.');
  });

  it('tell what was measured against its limit', () => {
    expect(measured(finding('warning'))).toBe('0.789 mm, limit 1 mm');
    expect(measured(finding('note', { limit: null, value: 120, unit: 'g/m2' }))).toBe('120 g/m²');
    expect(measured(finding('fails', { id: 'opens.form' }))).toBe('');
    expect(measured(finding('note', { value: null }))).toBe('');
  });
});

describe('advice', () => {
  const design = { leaves: 42, rows: { count: 15 }, sizes: [{ name: 'small', rows: { count: 11 } }, { name: 'large' }] };

  it('changes the size it was given for, and no other', () => {
    expect(wishFor(design, 'large', 'leaves', 48)).toEqual({ at: '/sizes/1/leaves', after: 48 });
    expect(wishFor(design, 'small', 'rows/count', 12)).toEqual({ at: '/sizes/0/rows/count', after: 12 });
    expect(wishFor(design, 'large', 'rows/count', 12)).toEqual({ at: '/sizes/1/rows', after: { count: 12 } });
    expect(wishFor({ leaves: 42 }, 'as drawn', 'leaves', 48)).toEqual({ at: '/leaves', after: 48 });
  });

  it('sets the number of rows only where rows are counted', () => {
    expect(rowsAreCounted(design, 'large')).toBe(true);
    expect(rowsAreCounted({ rows: [{ from: [0, 1], to: [2, 1] }] }, 'as drawn')).toBe(false);
  });

  it('is found alone or in a list of sizes', () => {
    const one = { name: 'large', leaves: { usual: 48 } };
    expect(adviceIn(one, 'large').leaves.usual).toBe(48);
    expect(adviceIn({ sizes: [{ name: 'small', leaves: { usual: 36 } }, one] }, 'large').leaves.usual).toBe(48);
    expect(() => adviceIn({}, 'large')).toThrow('no advice');
  });
});
