// The drawing under the maker's hand: what is chosen, what is being dragged, and what each gesture means for the document.
import type { Wish } from '../document/change';
import type { Session } from '../document/session.svelte';
import { times } from '../document/times';
import { wishFor } from '../document/wishes';
import { likings, unitsShown } from '../bench/likings.svelte';
import {
  canRemove, cornered, isOnSpine, isSmooth, isUnfinished, laidKnot, movedContour, movedHandle, movedKnot, neighbours, removedKnot, smoothed,
  withCutOut, withoutContour, type HandleSide, type KnotPlace,
} from './edits';
import { boxOf, flattened, reachAt, readOutline, withKnotOn, writeOutline, type Knot, type OnContour, type Outline, type Spot } from './outline';
import { asListed, countPulled, countWishes, heightOfRow, pulledEvenly, risen, rowsOf, turned, withRow, type Row } from './rows';
import { edgeOf, seatMarks, seatMoved } from './seats';
import { length } from './words';
import { fitted, framed, gridStep, snapped, type View } from './view';

export type Chosen = ({ kind: 'knot' } & KnotPlace) | { kind: 'row'; row: number } | { kind: 'cut-out'; contour: number } | { kind: 'seat'; fan: number };

export interface Held {
  /** Along one axis only. */
  straight: boolean;
  /** Off the grid. */
  free: boolean;
  /** The other handle stays. */
  breaking: boolean;
}

const NOTHING_HELD: Held = { straight: false, free: false, breaking: false };

interface Gesture {
  start: Spot;
  label: string;
  to: (by: Spot, held: Held) => { wishes: Wish[]; label?: string; said?: string };
  last: { wishes: Wish[]; label?: string; said?: string } | null;
}

export class Drafting {
  readonly session: Session;
  chosen = $state.raw<Chosen | null>(null);
  /** Rows that are dragged move all together, evenly, rather than one by one. */
  together = $state(true);
  /** For the status line, read out by screen readers. */
  said = $state('');
  view = $state.raw<View>(fitted(null, 600, 400));
  dragging = $state(false);
  #gesture: Gesture | null = null;

  constructor(session: Session) {
    this.session = session;
  }

  /** The fan whose edge is drawn; null: the leaf. */
  #asked = $state<number | null>(null);
  readonly fan = $derived.by(() => (this.#asked !== null && edgeOf(this.session.value, this.#asked) !== null ? this.#asked : null));
  readonly #at = $derived.by(() => (this.fan === null ? '/silhouette/path' : `/fans/${this.fan}/outline`));
  readonly leaf: Outline = $derived.by(() => {
    const path = this.session.at('/silhouette/path');
    return (typeof path === 'string' ? readOutline(path, this.session.units) : null) ?? [];
  });
  /** The line that is edited. */
  readonly outline: Outline = $derived.by(() => {
    const path = this.fan === null ? null : edgeOf(this.session.value, this.fan);
    return path === null ? this.leaf : (readOutline(path, this.session.units, true) ?? []);
  });
  readonly unfinished = $derived.by(() => isUnfinished(this.outline));
  readonly rows = $derived.by(() => rowsOf(this.session.value, this.session.size, this.session.form, this.leaf, this.session.units));
  /** Where fans sit, as far as it is known from where their height is measured. */
  readonly seats = $derived.by(() => {
    const { form, seating, value, units } = this.session;
    return form && seating.told && this.fan === null ? seatMarks(value, form, seating.told.from_mm, this.rows.scale, units) : [];
  });
  readonly hasNeck = $derived.by(() => this.session.seating.told?.neck !== false);
  readonly units = $derived.by(() => unitsShown(this.session.units));
  readonly grid = $derived.by(() => gridStep(this.view, this.units));
  readonly opened = $derived.by(() => this.session.at('/silhouette/shows') === 'opened');

  fit(): void {
    const { width, height } = this.view;
    const spots = this.outline[0] ? flattened(this.outline[0]) : [];
    const withCentre = boxOf([...spots, { x: 0, z: 0 }]);
    if (this.fan !== null && withCentre) this.view = framed(withCentre, width, height);
    else this.view = fitted(boxOf(spots), width, height);
  }

  /** Turns to a fan's edge, or back to the leaf. */
  draw(fan: number | null): void {
    this.letGo();
    this.chosen = null;
    this.said = '';
    this.#asked = fan;
    this.fit();
  }

  #pathWish = (outline: Outline): Wish[] => [{ at: this.#at, after: writeOutline(outline, this.session.units) }];

  redraw(label: string, outline: Outline): void {
    this.session.apply(label, this.#pathWish(outline));
  }

  // Gestures with a pointer.

  #begin(start: Spot, label: string, to: Gesture['to']): void {
    this.#gesture = { start, label, to, last: null };
  }

  #place(from: Spot, by: Spot, held: Held): Spot {
    const sideways = Math.abs(by.x) >= Math.abs(by.z);
    const along = held.straight ? (sideways ? { x: by.x, z: 0 } : { x: 0, z: by.z }) : by;
    const to = { x: from.x + along.x, z: from.z + along.z };
    if (!likings.snap || held.free) return to;
    const on = snapped(to, this.grid.fine);
    return held.straight ? (sideways ? { x: on.x, z: from.z } : { x: from.x, z: on.z }) : on;
  }

  grabKnot(at: KnotPlace, start: Spot): void {
    const base = this.outline;
    const knot = base[at.contour]?.knots[at.knot];
    this.chosen = { kind: 'knot', ...at };
    if (!knot) return;
    this.#begin(start, 'move a point', (by, held) => ({ wishes: this.#pathWish(movedKnot(base, at, this.#place(knot, by, held))) }));
  }

  grabHandle(at: KnotPlace, side: HandleSide, start: Spot): void {
    const base = this.outline;
    const handle = base[at.contour]?.knots[at.knot]?.[side];
    if (!handle) return;
    this.#begin(start, 'bend the line', (by, held) => ({
      wishes: this.#pathWish(movedHandle(base, at, side, this.#place(handle, by, { ...held, free: true }), held.breaking)),
    }));
  }

  grabCutOut(contour: number, start: Spot): void {
    const base = this.outline;
    const first = base[contour]?.knots[0];
    this.chosen = { kind: 'cut-out', contour };
    if (!first) return;
    this.#begin(start, 'move a cut-out', (by, held) => {
      const to = this.#place(first, by, held);
      return { wishes: this.#pathWish(movedContour(base, contour, { x: to.x - first.x, z: to.z - first.z })) };
    });
  }

  grabRow(row: number, start: Spot): void {
    this.chosen = { kind: 'row', row };
    const { rows, listed, at, scale } = this.rows;
    const moving = rows[row];
    if (!moving) return;
    const [outline, document] = [this.outline, this.session.kept];
    const list = (next: Row[]): Wish[] => wishFor(document, at, asListed(next, this.session.units, scale));
    this.#begin(start, 'move a glue row', (by, held) => {
      const rise = this.#place({ x: 0, z: heightOfRow(moving) }, { x: 0, z: by.z }, held).z - heightOfRow(moving);
      if (this.together && !listed) {
        const count = countPulled(rows, row, rise);
        return { wishes: countWishes(document, at, count), label: `${count} glue rows`, said: `${count} rows, evenly spaced.` };
      }
      if (this.together) return { wishes: list(pulledEvenly(rows, row, rise, outline)), label: 'move all glue rows' };
      const next = rows.map((old, i) => (i === row ? risen(old, rise, outline) : old));
      return { wishes: list(next), ...(listed ? {} : { said: NOW_LISTED }) };
    });
  }

  grabSeat(fan: number, start: Spot): void {
    this.chosen = { kind: 'seat', fan };
    const mark = this.seats.find((one) => one.fan === fan);
    if (!mark) return;
    const document = this.session.kept;
    this.#begin(start, `seat of the ${mark.name}`, (by) => {
      const { below, wishes } = seatMoved(document, mark, by.z, this.session.units);
      return { wishes, said: `${length(below, this.units)} below the ${this.hasNeck ? 'neck' : 'top'}.` };
    });
  }

  drag(to: Spot, held: Held, since: number): void {
    const gesture = this.#gesture;
    if (!gesture) return;
    this.dragging = true;
    gesture.last = gesture.to({ x: to.x - gesture.start.x, z: to.z - gesture.start.z }, held);
    this.session.preview(gesture.last.wishes);
    times.moved(this.session.revision, since);
    if (gesture.last.said) this.said = gesture.last.said;
  }

  /** The gesture is done: one step to undo. */
  drop(): void {
    const gesture = this.#gesture;
    this.#gesture = null;
    this.dragging = false;
    if (gesture?.last) this.session.apply(gesture.last.label ?? gesture.label, gesture.last.wishes);
  }

  /** The gesture never was. */
  letGo(): boolean {
    const had = this.#gesture !== null;
    this.#gesture = null;
    this.dragging = false;
    if (had) {
      this.session.cancel();
      this.said = 'Put back.';
    }
    return had;
  }

  // Gestures with keys: held arrows are one gesture, done when the key is released.

  nudge(what: Chosen | ({ kind: 'handle'; side: HandleSide } & KnotPlace), by: Spot): void {
    if (!this.#gesture) {
      if (what.kind === 'knot') this.grabKnot(what, { x: 0, z: 0 });
      else if (what.kind === 'handle') this.grabHandle(what, what.side, { x: 0, z: 0 });
      else if (what.kind === 'row') this.grabRow(what.row, { x: 0, z: 0 });
      else if (what.kind === 'seat') this.grabSeat(what.fan, { x: 0, z: 0 });
      else this.grabCutOut(what.contour, { x: 0, z: 0 });
      this.#nudged = { x: 0, z: 0 };
    }
    this.#nudged = { x: this.#nudged.x + by.x, z: this.#nudged.z + by.z };
    this.drag(this.#nudged, { ...NOTHING_HELD, free: true }, performance.now());
  }
  #nudged: Spot = { x: 0, z: 0 };

  // What is done at once.

  addOn(on: Pick<OnContour, 'contour' | 'segment' | 't'>): void {
    const { outline, knot } = withKnotOn(this.outline, on);
    this.redraw('add a point', outline);
    this.chosen = { kind: 'knot', contour: on.contour, knot };
    this.said = 'A point was added.';
  }

  addAfter(at: KnotPlace): void {
    const contour = this.outline[at.contour];
    if (!contour) return;
    const last = !contour.closed && at.knot === contour.knots.length - 1;
    this.addOn({ contour: at.contour, segment: last ? at.knot - 1 : at.knot, t: 0.5 });
  }

  removeChosen(): void {
    const { chosen, outline } = this;
    if (chosen?.kind === 'row') return this.removeRow(chosen.row);
    if (chosen?.kind === 'seat') return;
    if (chosen?.kind === 'cut-out') this.redraw('take a cut-out away', withoutContour(outline, chosen.contour));
    else if (chosen && canRemove(outline, chosen)) this.redraw('take a point away', removedKnot(outline, chosen));
    else {
      if (chosen) this.said = isOnSpine(outline, chosen)
        ? 'Foot and top stay: the leaf is folded between them.'
        : `${this.fan === null ? 'A cut-out' : 'An edge that goes round'} needs three points.`;
      return;
    }
    this.chosen = null;
  }

  turnSmooth(at: KnotPlace): void {
    const knot = this.outline[at.contour]?.knots[at.knot];
    if (!knot || isOnSpine(this.outline, at)) return;
    const smooth = isSmooth(knot);
    this.redraw(smooth ? 'make a corner' : 'make it smooth', smooth ? cornered(this.outline, at) : smoothed(this.outline, at));
    this.said = smooth ? 'A corner now.' : 'Smooth now.';
  }

  canTurn(at: KnotPlace): boolean {
    const { before, after } = neighbours(this.outline, at);
    return !!before && !!after;
  }

  moveSeat(fan: number, below: number): void {
    const mark = this.seats.find((one) => one.fan === fan);
    if (mark) this.session.apply(`seat of the ${mark.name}`, seatMoved(this.session.kept, mark, mark.below - below, this.session.units).wishes);
  }

  moveKnot(at: KnotPlace, to: Spot): void {
    this.redraw('move a point', movedKnot(this.outline, at, to));
  }

  addCutOut(): void {
    const box = this.outline[0] ? boxOf(flattened(this.outline[0])) : null;
    if (!box) return;
    const z = (box.low + box.high) / 2;
    const reach = reachAt(this.outline, 0, z) ?? box.right;
    const wide = Math.min(reach / 3, (box.high - box.low) / 6);
    this.redraw('add a cut-out', withCutOut(this.outline, { x: reach / 2, z }, wide, wide));
    this.chosen = { kind: 'cut-out', contour: this.outline.length - 1 };
    this.said = 'A cut-out was added.';
  }

  // Glue rows.

  #listRows(label: string, rows: Row[]): void {
    const { listed, at, scale } = this.rows;
    this.session.apply(label, wishFor(this.session.kept, at, asListed(rows, this.session.units, scale)));
    if (!listed) this.said = NOW_LISTED;
  }

  addRow(): void {
    const { rows, listed, at } = this.rows;
    const above = this.chosen?.kind === 'row' ? this.chosen.row : null;
    if (listed || !this.together) this.#listRows('add a glue row', withRow(rows, this.outline, above));
    else this.session.apply(`${rows.length + 1} glue rows`, countWishes(this.session.kept, at, Math.min(200, rows.length + 1)));
  }

  removeRow(row: number): void {
    const { rows, listed, at } = this.rows;
    if (rows.length <= 2) {
      this.said = 'An ornament needs two glue rows at least.';
      return;
    }
    if (listed || !this.together) this.#listRows('take a glue row away', rows.filter((_, i) => i !== row));
    else this.session.apply(`${rows.length - 1} glue rows`, countWishes(this.session.kept, at, rows.length - 1));
    this.chosen = null;
  }

  turnRow(row: number): void {
    this.#listRows('glue on the other side', this.rows.rows.map((old, i) => (i === row ? turned(old) : old)));
  }

  moveRow(row: number, height: number): void {
    const { rows } = this.rows;
    this.#listRows('move a glue row', rows.map((old, i) => (i === row ? risen(old, height - heightOfRow(old), this.outline) : old)));
  }

  widenRow(row: number, width: number): void {
    const { rows, scale } = this.rows;
    this.#listRows('width of a glue row', rows.map((old, i) => (i === row ? { ...old, width: width / scale } : old)));
  }

  // Drawing from an empty page: spot after spot, from the foot to the top.

  /** Where the next spot would go: the first one and the last one on the spine. */
  layingSpot(spot: Spot, held: Held = NOTHING_HELD): Spot {
    const to = likings.snap && !held.free ? snapped(spot, this.grid.fine) : spot;
    const first = this.outline[0]?.knots[0];
    if (!first) return { x: 0, z: 0 };
    return { x: to.x * this.view.scale < 10 ? 0 : to.x, z: to.z };
  }

  /** Lays the next spot; pulling on lays a smooth bend there. */
  grabLaying(start: Spot, held: Held): void {
    const base = this.#withBend();
    const spot = this.layingSpot(start, held);
    if (!this.#fits(spot)) return;
    const count = base[0]?.knots.length ?? 0;
    const knot = (by: Spot): Knot =>
      spot.x === 0 || Math.hypot(by.x, by.z) * this.view.scale < 6
        ? spot
        : { ...spot, before: { x: spot.x - by.x, z: spot.z - by.z }, after: { x: spot.x + by.x, z: spot.z + by.z } };
    this.#begin(start, `lay point ${count + 1}`, (by) => {
      this.#bend = knot(by);
      return { wishes: this.#pathWish(laidKnot(base, this.#bend)) };
    });
    this.drag(start, held, performance.now());
  }

  /** The last point laid, with its bend onward: path data cannot hold that before there is a next point. */
  #bend: Knot | null = null;

  #withBend(): Outline {
    const [first, ...others] = this.outline;
    const last = first?.knots.at(-1);
    const bend = this.#bend;
    if (!first || !last || !bend?.after || Math.hypot(last.x - bend.x, last.z - bend.z) > 0.01) return this.outline;
    return [{ ...first, knots: [...first.knots.slice(0, -1), { ...last, after: bend.after }] }, ...others];
  }

  lay(spot: Spot): void {
    if (!this.#fits(spot)) return;
    const count = this.outline[0]?.knots.length ?? 0;
    this.redraw(`lay point ${count + 1}`, laidKnot(this.#withBend(), spot));
    this.said = spot.x === 0 && count > 0 ? 'The silhouette is complete.' : `Point ${count + 1} is laid.`;
  }

  #fits(spot: Spot): boolean {
    const knots = this.outline[0]?.knots ?? [];
    const last = knots.at(-1);
    if (!last) return true;
    if (Math.hypot(spot.x - last.x, spot.z - last.z) < 0.01) return false;
    if (spot.x > 0 || knots.length > 1) return true;
    this.said = 'The first points lie beside the spine; the last one comes back to it.';
    return false;
  }
}

const NOW_LISTED =
  'The rows are listed one by one now, so that each can lie where you want it. Undo brings the even rows back.';
