// Amounts as a maker says them.
import type { TakesOfSize } from '../answers';

/** "5 h 55 min", "40 min". */
export function hoursInWords(hours: number): string {
  const minutes = Math.round(hours * 60);
  const whole = Math.floor(minutes / 60), rest = minutes % 60;
  if (whole === 0) return `${rest} min`;
  return rest === 0 ? `${whole} h` : `${whole} h ${rest} min`;
}

/** Grams, kilograms from a thousand on. */
export function weightInWords(grams: number): string {
  if (grams >= 1000) return `${(grams / 1000).toFixed(2)} kg`;
  return `${grams < 10 ? grams.toFixed(1) : grams.toFixed(0)} g`;
}

export function money(amount: number, currency: string): string {
  return `${amount.toFixed(2)} ${currency}`.trim();
}

export function sheetsInWords(of: TakesOfSize): string {
  return of.sheets > 0 ? `${of.sheets} × ${of.sheet}` : '–';
}

export interface Line {
  what: string;
  of: (size: TakesOfSize) => string;
}

const costLine = (what: string, of: (cost: NonNullable<TakesOfSize['cost']>) => number | null): Line => ({
  what,
  of: ({ cost }) => {
    const amount = cost === null ? null : of(cost);
    return amount === null || cost === null ? '–' : money(amount, cost.currency);
  },
});

/** The lines of the table; those on money only where a size has a cost. */
export function linesFor(sizes: TakesOfSize[]): Line[] {
  const lines: Line[] = [
    { what: 'Leaves', of: (size) => String(size.leaves) },
    { what: 'Paper', of: (size) => `${size.grammage.toFixed(0)} g/m²` },
    { what: 'Sheets', of: sheetsInWords },
    { what: 'On a sheet', of: (size) => (size.per_sheet > 0 ? String(size.per_sheet) : '–') },
    { what: 'Joints', of: (size) => String(size.joints) },
    { what: 'Glue', of: (size) => weightInWords(size.glue_g) },
    { what: 'Hands', of: (size) => hoursInWords(size.hours) },
    { what: 'Weighs', of: (size) => weightInWords(size.weight_g) },
  ];
  if (sizes.some((size) => size.cost !== null)) {
    lines.push(costLine('Materials', (cost) => cost.materials), costLine('With work', (cost) => cost.total));
  }
  if (sizes.some((size) => size.cost?.price != null)) lines.push(costLine('Price', (cost) => cost.price));
  return lines;
}

/**
 * A layout (SVG with the classes sheet, margin and leaves) in the colour of its paper, as the address of a picture. As
 * a picture it can run nothing and fetch nothing.
 */
export function pictureOf(svg: string, colour: string): string {
  const paper = /^#[0-9a-f]{6}$/i.test(colour) ? colour : '#c8b48c';
  const style =
    `<style>.sheet{fill:#fffdf7}.margin{fill:none;stroke:#a99f8c;stroke-width:.7;stroke-dasharray:4 3}` +
    `.leaves{fill:${paper};stroke:#2b251c;stroke-width:.9;stroke-linejoin:round}</style>`;
  const open = svg.indexOf('>') + 1;
  return `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg.slice(0, open) + style + svg.slice(open))}`;
}
