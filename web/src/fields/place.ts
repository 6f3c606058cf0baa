// Where a value of the design lies for the size being looked at, and what it is called in steps.
import type { Json } from '../answers';
import { MM_PER_INCH } from '../drawing/outline';
import { sizeAt } from '../drawing/rows';
import type { Session } from '../document/session.svelte';
import { wishFor } from '../document/wishes';

/** Where `at` holds for the size being looked at: the size's own value where it has one, else the family's. */
export function inForce(session: Session, at: string): string {
  const size = sizeAt(session.value, session.size);
  return size !== '' && session.at(size + at) !== undefined ? size + at : at;
}

export function numberAt(session: Session, at: string, isLength: boolean): number | undefined {
  const value = session.at(at);
  if (typeof value !== 'number') return undefined;
  return isLength && session.units === 'in' ? Number((value * MM_PER_INCH).toPrecision(12)) : value;
}

/** Six digits are finer than any paper is cut, in either unit. */
const asFile = (mm: number, units: 'mm' | 'in'): number => (units === 'in' ? Number((mm / MM_PER_INCH).toPrecision(6)) : mm);

export function setNumber(session: Session, at: string, label: string, value: number | undefined, isLength: boolean): void {
  const after = value === undefined ? undefined : isLength ? asFile(value, session.units) : value;
  set(session, at, label, after);
}

export function set(session: Session, at: string, label: string, after: Json | undefined): void {
  session.apply(label, wishFor(session.kept, at, after));
}

export const textAt = (session: Session, at: string): string => {
  const value = session.at(at);
  return typeof value === 'string' ? value : '';
};

/** What the studio says against the value at `at`, or null. */
export const faultAt = (session: Session, at: string): string | null =>
  session.problem && at !== '' && session.problem.where === at ? session.problem.sentence : null;
