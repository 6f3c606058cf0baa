// Numbers as makers write them: "76,2", "76.2 mm", "3 in", "1 1/2 in", "10 %".

/** A kind of number: the units it may be written in, each with its worth in the unit values are kept in. */
export interface Quantity {
  units: Readonly<Record<string, number>>;
  /** Unit that is written, and meant when none is given; '' for plain numbers. */
  shown: string;
  /** Digits after the decimal sign, at most. */
  digits: number;
  whole?: true;
}

const lengths = { mm: 1, cm: 10, m: 1000, in: 25.4, inch: 25.4, inches: 25.4, '"': 25.4, '″': 25.4 };

export const millimetres: Quantity = { units: lengths, shown: 'mm', digits: 2 };
export const inches: Quantity = { units: lengths, shown: 'in', digits: 3 };
export const lengthIn = (units: 'mm' | 'in'): Quantity => (units === 'in' ? inches : millimetres);
export const thickness: Quantity = { units: { ...lengths, um: 0.001, 'µm': 0.001, micron: 0.001, microns: 0.001 }, shown: 'mm', digits: 3 };
export const degrees: Quantity = { units: { '°': 1, deg: 1, degrees: 1 }, shown: '°', digits: 1 };
export const grammage: Quantity = { units: { 'g/m²': 1, 'g/m2': 1, g: 1, gsm: 1 }, shown: 'g/m²', digits: 1 };
export const minutes: Quantity = { units: { min: 1, minutes: 1, h: 60, hours: 60, hour: 60 }, shown: 'min', digits: 1 };
export const share: Quantity = { units: { '%': 0.01, percent: 0.01 }, shown: '%', digits: 2 };
export const amount: Quantity = { units: {}, shown: '', digits: 2 };
export const count: Quantity = { units: {}, shown: '', digits: 0, whole: true };

export type Reading = { value: number } | { sentence: string };

const number = String.raw`[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)`;
const written = new RegExp(String.raw`^(?:(${number})|(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+))\s*([^\d\s+\-.,/][^\s]*)?$`, 'u');

const unitsOf = (quantity: Quantity): string[] => Object.keys(quantity.units);

function unknownUnit(unit: string, quantity: Quantity): string {
  const known = unitsOf(quantity);
  return known.length === 0 ? `This is a plain number, without “${unit}”.` : `“${unit}” is not a unit for this; write ${known[0]}${known.includes('in') ? ' or in' : ''}.`;
}

/** Reads what was typed; values come in the unit the quantity is kept in. */
export function readQuantity(text: string, quantity: Quantity): Reading {
  const found = written.exec(text.trim());
  if (!found) return { sentence: text.trim() === '' ? 'A number is needed here.' : `“${text.trim()}” is not a number.` };
  const [, plain, wholes, over, under, unit] = found;
  if (over !== undefined && Number(under) === 0) return { sentence: 'Nothing can be divided by 0.' };
  const value = plain !== undefined ? Number(plain.replace(',', '.')) : Number(wholes ?? 0) + Number(over) / Number(under);
  const worth = unit === undefined ? (quantity.units[quantity.shown] ?? 1) : worthOf(unit, quantity);
  if (worth === undefined) return { sentence: unknownUnit(unit ?? '', quantity) };
  if (quantity.whole && !Number.isInteger(value)) return { sentence: 'This must be a whole number.' };
  return { value: Number((value * worth).toPrecision(12)) };
}

function worthOf(unit: string, quantity: Quantity): number | undefined {
  const name = unitsOf(quantity).find((known) => known.toLowerCase() === unit.toLowerCase());
  return name === undefined ? undefined : quantity.units[name];
}

/** As short as its digits allow: 76.2, not 76.20. */
export function plainNumber(value: number, quantity: Quantity): string {
  const worth = quantity.units[quantity.shown] ?? 1;
  return String(Number((value / worth).toFixed(quantity.digits)) + 0);
}

export function writeQuantity(value: number, quantity: Quantity): string {
  const unit = quantity.shown;
  return `${plainNumber(value, quantity)}${unit === '' || unit === '°' ? unit : ` ${unit}`}`;
}

/** Why a value is refused, or null. Bounds are in the unit the quantity is kept in. */
export function outOfBounds(value: number, least: number, most: number, quantity: Quantity): string | null {
  if (value >= least && value <= most) return null;
  if (value < least) return `At least ${writeQuantity(least, quantity)}.`;
  return `At most ${writeQuantity(most, quantity)}.`;
}
