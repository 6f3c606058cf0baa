// Measures in words, in the unit of the design.

export type Units = 'mm' | 'in';

const mmPerInch = 25.4;

/** A length to the nearest mm or twentieth of an inch: what can be held against a ruler. */
export function lengthIn(mm: number, units: Units): string {
  return units === 'in' ? `${(mm / mmPerInch).toFixed(2)} in` : `${mm < 10 ? mm.toFixed(1) : mm.toFixed(0)} mm`;
}

/** A predicted length with its spread; a spread below half a mm is told as half a mm. */
export function predicted(mm: number, spread: number | null | undefined, units: Units): string {
  if (spread === null || spread === undefined) return lengthIn(mm, units);
  const give = Math.max(0.5, spread);
  if (units === 'in') return `${(mm / mmPerInch).toFixed(2)} ± ${(give / mmPerInch).toFixed(2)} in`;
  return `${mm.toFixed(0)} ± ${give < 1 ? give.toFixed(1) : give.toFixed(0)} mm`;
}
