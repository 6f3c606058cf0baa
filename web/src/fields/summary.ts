// The design in a few words a tag can carry.
import { unitsShown } from '../bench/likings.svelte';
import type { Session } from '../document/session.svelte';
import { inForce, numberAt, textAt } from './place';
import { degrees, grammage, lengthIn, writeQuantity } from './quantity';

const number = (session: Session, at: string, otherwise: number, isLength = false): number =>
  numberAt(session, inForce(session, at), isLength) ?? otherwise;

export function ornamentWords(session: Session): string {
  const opening = number(session, '/opening', 360);
  return `${number(session, '/leaves', 46)} leaves${opening === 360 ? '' : `, ${writeQuantity(opening, degrees)}`}`;
}

export function rowWords(session: Session): string {
  const rows = session.at(inForce(session, '/rows'));
  if (Array.isArray(rows)) return `${rows.length}, one by one`;
  const placed = rows === 'auto' || session.at(inForce(session, '/rows/count')) === 'auto' || session.at(inForce(session, '/rows/look')) !== undefined;
  if (placed) return session.form ? `${session.form.rows.length}, placed` : 'placed';
  const width = writeQuantity(number(session, '/rows/width', 3, true), lengthIn(unitsShown(session.units)));
  return `${number(session, '/rows/count', 11)} of ${width}`;
}

export function paperWords(session: Session): string {
  const across = textAt(session, inForce(session, '/paper/grain')) === 'across spine';
  return `${writeQuantity(number(session, '/paper/grammage', 160), grammage)}${across ? ', grain across' : ''}`;
}

export function sheetWords(session: Session): string {
  const size = session.at(inForce(session, '/sheet/size')) ?? 'A4';
  if (typeof size === 'string') return size === '12x12in' ? '12 × 12 in' : size;
  const units = lengthIn(unitsShown(session.units));
  const at = inForce(session, '/sheet/size');
  const side = (key: string) => writeQuantity(numberAt(session, `${at}/${key}`, true) ?? 0, units);
  return `${side('width')} × ${side('height')}`;
}

export function sizeWords(session: Session): string {
  const names = session.sizes;
  return names.length === 0 ? 'as drawn' : names.length === 1 ? (names[0] as string) : `${session.size}, of ${names.length}`;
}

export function makingWords(session: Session): string {
  const cut = textAt(session, '/making/cutting') === 'by machine' ? 'by machine' : 'by hand';
  return `${cut}, ${textAt(session, '/making/display') === 'hangs' ? 'hangs' : 'stands'}`;
}

export function priceWords(session: Session): string {
  const prices = session.at('/prices');
  if (typeof prices !== 'object' || prices === null || Object.keys(prices).length === 0) return 'none yet';
  return `${textAt(session, '/prices/currency')} ${number(session, '/prices/hour', 0)} an hour`.trim();
}

export function fanWords(session: Session): string {
  const fans = session.at('/fans');
  const count = Array.isArray(fans) ? fans.length : 0;
  return count === 0 ? 'none' : count === 1 ? textAt(session, '/fans/0/name') : `${count} fans`;
}

export const publishingWords = (session: Session): string => textAt(session, '/publishing/maker') || 'not filled in';
