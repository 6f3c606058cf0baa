// The journal of a design: one line per step, so that a reload or a crash loses nothing. Lines carry a running number,
// since a line whose answer got lost is sent again and the last ones, sent while the page is leaving, may overtake.
import type { Json } from '../answers';
import { begun, done, redone, undone, type History } from './history';
import type { Step } from './change';

export type Entry = { do: Step } | { undo: 1 } | { redo: 1 } | { saved: string };
export type Line = { n: number } & Entry;

/** What a journal comes to. */
export interface Replayed {
  history: History;
  /** The document as it was last saved stands at this step; null when it cannot be reached by undoing any more. */
  savedAt: number | null;
  /** Of the file as it was last read or written by the studio; null for a design never saved. */
  fingerprint: string | null;
  /** Number for the next line. */
  next: number;
}

interface Replaying extends Replayed {
  /** Lines that came before one that was sent earlier. */
  early: Map<number, Line>;
}

type Keyed = { [key: string]: Json };

const isEntry = (line: Json): line is Keyed => typeof line === 'object' && line !== null && !Array.isArray(line);

const numberOf = (line: Json): number => (isEntry(line) && typeof line['n'] === 'number' ? line['n'] : Infinity);

function written(state: Replaying, fingerprint: string): void {
  state.savedAt = state.history.at;
  state.fingerprint = fingerprint;
}

function follow(state: Replaying, line: Line): void {
  if ('saved' in line) written(state, line.saved);
  else if ('do' in line) {
    if (state.savedAt !== null && state.savedAt > state.history.at) state.savedAt = null;
    state.history = done(state.history, line.do);
  } else state.history = 'undo' in line ? undone(state.history) : redone(state.history);
  state.next = line.n + 1;
}

function take(state: Replaying, line: Line): void {
  if (line.n < state.next) return;
  state.early.set(line.n, line);
  for (let next = state.early.get(state.next); next; next = state.early.get(state.next)) {
    state.early.delete(next.n);
    follow(state, next);
  }
}

function replay(state: Replaying, entry: Keyed): void {
  if (typeof entry['n'] === 'number') take(state, entry as unknown as Line);
  else if (typeof entry['saved'] === 'string') written(state, entry['saved']);
}

/**
 * Follows `lines` from `text` on: the steps of pages, and {"saved": fingerprint} where the file was written. A line that
 * does not fit ends the replay there.
 */
export function replayed(text: string, fingerprint: string | null, lines: readonly Json[]): Replayed {
  const first = Math.min(...lines.map(numberOf));
  const state: Replaying = {
    history: begun(JSON.parse(text) as Json), savedAt: 0, fingerprint, next: Number.isFinite(first) ? first : 0, early: new Map(),
  };
  for (const line of lines) {
    if (!isEntry(line)) break;
    try {
      replay(state, line);
    } catch {
      break;
    }
  }
  const { history, savedAt, next } = state;
  return { history, savedAt, fingerprint: state.fingerprint, next };
}

/** Resolves to 'full' when the journal holds no more; then it has to be begun anew. */
export type Send = (lines: Json[], leaving: boolean) => Promise<'full' | 'kept'>;

export interface Reaction {
  /** So many lines are not on disk yet; what went wrong, if anything. */
  waiting: (count: number, trouble: unknown) => void;
  /** Begins the journal anew with the document as it stands when this is called. */
  restart: () => Promise<unknown>;
}

/** Sends lines one batch at a time, at once; keeps what the server has not confirmed and tries it again. */
export class JournalSender {
  #unsent: Line[] = [];
  #sending = false;
  #next: number;
  readonly #send: Send;
  readonly #reaction: Reaction;
  readonly #retryAfterMs: number;

  constructor(next: number, send: Send, reaction: Reaction, retryAfterMs = 1000) {
    this.#next = next;
    this.#send = send;
    this.#reaction = reaction;
    this.#retryAfterMs = retryAfterMs;
  }

  get waiting(): number {
    return this.#unsent.length;
  }

  add(entry: Entry): void {
    this.#unsent.push({ n: this.#next, ...entry } as Line);
    this.#next += 1;
    this.#reaction.waiting(this.#unsent.length, null);
    void this.flush();
  }

  /** Resolves when nothing waits any more or sending failed (it is tried again later by itself). */
  async flush(): Promise<void> {
    if (this.#sending) return;
    this.#sending = true;
    try {
      while (this.#unsent.length > 0) await this.#sendBatch();
    } catch (trouble) {
      this.#reaction.waiting(this.#unsent.length, trouble);
      setTimeout(() => void this.flush(), this.#retryAfterMs);
    } finally {
      this.#sending = false;
    }
  }

  async #sendBatch(): Promise<void> {
    const batch = this.#unsent.slice(0, 200);
    let kept = batch.length;
    if ((await this.#send(batch as unknown as Json[], false)) === 'full') {
      kept = this.#unsent.length;
      await this.#reaction.restart();
    }
    this.#unsent = this.#unsent.slice(kept);
    this.#reaction.waiting(this.#unsent.length, null);
  }

  /** The page is going away: sends everything not confirmed yet, whatever is under way. */
  leave(): void {
    if (this.#unsent.length > 0) this.#send(this.#unsent as unknown as Json[], true).catch(() => undefined);
  }
}
