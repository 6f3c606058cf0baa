// Pictures behind drawings, to draw over: one a design, on this machine only. They are no part of the design and its file.
import type { Placing } from '../answers';
import type { Picture } from './picture';
import { forgotten, kept, remembered, type Kept } from './backdrop_store';

export interface Backdrop extends Kept {
  address: string;
}

class Backdrops {
  #of = $state.raw<Record<string, Backdrop>>({});
  /** Whose picture is being placed: what is dragged is the picture then, not the drawing. */
  placing = $state<string | null>(null);

  of(id: string): Backdrop | null {
    return this.#of[id] ?? null;
  }

  async lay(id: string, { blob, width, height }: Picture, placing: Placing): Promise<void> {
    this.takeAway(id);
    this.#put(id, { blob, width, height, placing, strength: 0.6, hidden: false });
    await remembered(id, this.#of[id] ?? null);
  }

  /** After a reload. */
  async back(id: string): Promise<void> {
    const found = await kept(id);
    if (found && !this.#of[id]) this.#put(id, found);
  }

  change(id: string, change: Partial<Pick<Kept, 'placing' | 'strength' | 'hidden'>>): void {
    const now = this.#of[id];
    if (!now) return;
    const next = { ...now, ...change };
    this.#of = { ...this.#of, [id]: next };
    void remembered(id, next);
  }

  takeAway(id: string): void {
    const now = this.#of[id];
    if (!now) return;
    const { [id]: _, ...others } = this.#of;
    this.#of = others;
    if (this.placing === id) this.placing = null;
    URL.revokeObjectURL(now.address);
    void forgotten(id);
  }

  #put(id: string, what: Kept): void {
    this.#of = { ...this.#of, [id]: { ...what, address: URL.createObjectURL(what.blob) } };
  }
}

export const backdrops = new Backdrops();
