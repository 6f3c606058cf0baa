// A drawing, scan or photo on its way to the mat: the file, what is asked of it, what the studio finds in it. The last
// wish wins: an answer to an earlier one is dropped.
import type { Figure, ImportAnswer } from '../answers';
import { api, sentenceOf } from '../api';
import { bench } from '../document/bench.svelte';
import type { Session } from '../document/session.svelte';
import { asUsual, queryOf, type Asked } from './asked';
import { backdrops } from './backdrop.svelte';
import { kitWish } from './kit_wish.svelte';
import { pictureOf, type Picture } from './picture';
import { stood } from './placing';
import { wishesOf, type TakenAs } from './taken';

const READ = '.svg,.png,.jpg,.jpeg,image/svg+xml,image/png,image/jpeg';

/** Largest file the studio takes. */
const MOST_BYTES = 64 * 2 ** 20;

class Taking {
  /** Null: nothing is being taken over. */
  file = $state.raw<Blob | null>(null);
  name = $state('');
  asked = $state.raw<Asked>(asUsual());
  answer = $state.raw<ImportAnswer | null>(null);
  /** Index into the figures found. */
  chosen = $state(0);
  sentence = $state<string | null>(null);
  busy = $state(false);
  picture = $state.raw<Picture | null>(null);
  address = $state<string | null>(null);
  as = $state<TakenAs>('a design of its own');
  behind = $state(true);
  #asking: AbortController | null = null;

  get figure(): Figure | null {
    return this.answer?.figures[this.chosen] ?? null;
  }

  /** Lets her choose a file; `onchosen` once she has. */
  choose(onchosen?: () => void): void {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = READ;
    input.onchange = () => {
      const file = input.files?.[0];
      if (!file) return;
      onchosen?.();
      void this.take(file, file.name);
    };
    input.click();
  }

  async take(file: Blob, name: string): Promise<void> {
    this.leave();
    this.file = file;
    this.name = name;
    await this.#ask();
    await this.#show();
  }

  ask(change: Partial<Asked>): void {
    this.asked = { ...this.asked, ...change };
    void this.#ask();
  }

  /** Nothing was taken over. */
  leave(): void {
    this.#asking?.abort();
    if (this.address !== null) URL.revokeObjectURL(this.address);
    this.file = this.answer = this.picture = this.address = this.sentence = null;
    this.asked = asUsual();
    this.as = 'a design of its own';
    this.chosen = 0;
    this.busy = false;
  }

  async #ask(): Promise<void> {
    const file = this.file;
    if (!file) return;
    this.#asking?.abort();
    const asking = (this.#asking = new AbortController());
    this.busy = true;
    try {
      if (file.size > MOST_BYTES) throw new Error('The file is larger than 64 MB; save it smaller.');
      const answer = await api.figures(file, queryOf(this.asked, this.name), asking.signal);
      if (asking !== this.#asking) return;
      this.answer = answer;
      this.chosen = Math.min(this.chosen, answer.figures.length - 1);
      this.sentence = null;
    } catch (cause) {
      if (asking !== this.#asking || asking.signal.aborted) return;
      this.sentence = sentenceOf(cause);
    } finally {
      if (asking === this.#asking) this.busy = false;
    }
  }

  /** The picture itself, to be shown under what was found in it. */
  async #show(): Promise<void> {
    const file = this.file;
    if (!file) return;
    const picture = await pictureOf(file, this.answer?.page ?? null);
    if (file !== this.file || !picture) return;
    this.picture = picture;
    this.address = URL.createObjectURL(picture.blob);
  }

  /** Puts the chosen figure on the mat as one step; `kit`: and has its kit made and handed out. */
  async accept(kit: boolean): Promise<void> {
    const { file, name, asked, as, picture } = this;
    if (!file) return;
    const asking = this.#asking;
    this.busy = true;
    try {
      const answer = await api.figures(file, queryOf(asked, name, this.chosen + 1), new AbortController().signal);
      const [figure] = answer.figures;
      if (file !== this.file || asking !== this.#asking || !figure) return;
      const session = await this.#session(as);
      if (!session) throw new Error(bench.trouble ?? 'There is no design to put it on.');
      if (session.elsewhere) throw new Error('This design is in hand in another tab; go on there, or work on it here first.');
      session.apply(`take over ${name}`, wishesOf(figure.text, as, session.units));
      if (this.behind && picture) void backdrops.lay(session.id, picture, figure.placing);
      if (kit) kitWish.of = session.id;
      this.leave();
    } catch (cause) {
      this.sentence = sentenceOf(cause);
    } finally {
      this.busy = false;
    }
  }

  /** A design with a file of its own is not written over: then a new one is begun. */
  async #session(as: TakenAs): Promise<Session | null> {
    const open = bench.session;
    if (open && (as === 'this design’s outline' || open.name === null)) return open;
    return (await bench.open({ blank: true })) ? bench.session : null;
  }

  /** Lays the picture behind the drawing and takes nothing over. */
  layBehind(): void {
    const { picture, figure } = this;
    const session = bench.session;
    if (!picture || !session) return;
    const tall = session.form?.height_mm ?? 180;
    void backdrops.lay(session.id, picture, figure?.placing ?? stood(picture.width, picture.height, tall));
    this.leave();
  }
}

export const taking = new Taking();
