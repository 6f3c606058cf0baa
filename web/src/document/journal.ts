// The journal of a design: one line per step, so that a reload or a crash loses nothing. Lines carry a running number,
// since a line whose answer got lost is sent again and the last ones, sent while the page is leaving, may overtake.
import type { Json } from '../answers';
import { begun, done, redone, undone, type History } from './history';
import type { Change, Step } from './change';

export type Line = { n: number } & ({ do: Step } | { undo: 1 } | { redo: 1 });

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

type Entry = { [key: string]: Json };

const isEntry = (line: Json): line is Entry => typeof line === 'object' && line !== null && !Array.isArray(line);

function follow(state: Replaying, line: Line): void {
  if ('do' in line) {
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

function replay(state: Replaying, entry: Entry): void {
  if (typeof entry['base'] === 'string') {
    state.history = begun(JSON.parse(entry['base']) as Json);
    state.savedAt = 0;
    state.fingerprint = typeof entry['fingerprint'] === 'string' ? entry['fingerprint'] : state.fingerprint;
    state.early.clear();
    state.next = typeof entry['n'] === 'number' ? entry['n'] : 0;
  } else if (typeof entry['saved'] === 'string') {
    state.savedAt = state.history.at;
    state.fingerprint = entry['saved'];
  } else if (typeof entry['n'] === 'number') take(state, entry as unknown as Line);
}

/** Follows `lines` from `text` on. A line that no longer fits (a torn last line, say) ends the replay there. */
export function replayed(text: string, fingerprint: string | null, lines: readonly Json[]): Replayed {
  const state: Replaying = { history: begun(JSON.parse(text) as Json), savedAt: 0, fingerprint, next: 0, early: new Map() };
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

export type Send = (lines: Json[], leaving: boolean) => Promise<unknown>;

/** Sends lines one batch at a time, at once; keeps what the server has not confirmed and tries it again. */
export class JournalSender {
  #unsent: Line[] = [];
  #sending = false;
  #next: number;
  readonly #send: Send;
  readonly #onState: (waiting: number, trouble: unknown) => void;
  readonly #retryAfterMs: number;

  constructor(next: number, send: Send, onState: (waiting: number, trouble: unknown) => void, retryAfterMs = 1000) {
    this.#next = next;
    this.#send = send;
    this.#onState = onState;
    this.#retryAfterMs = retryAfterMs;
  }

  get waiting(): number {
    return this.#unsent.length;
  }

  add(entry: { do: Step } | { undo: 1 } | { redo: 1 }): void {
    this.#unsent.push({ n: this.#next, ...entry } as Line);
    this.#next += 1;
    this.#onState(this.#unsent.length, null);
    void this.flush();
  }

  /** Resolves when nothing waits any more or sending failed (it is tried again later by itself). */
  async flush(): Promise<void> {
    if (this.#sending) return;
    this.#sending = true;
    try {
      while (this.#unsent.length > 0) {
        const batch = this.#unsent.slice(0, 200);
        await this.#send(batch as unknown as Json[], false);
        this.#unsent = this.#unsent.slice(batch.length);
        this.#onState(this.#unsent.length, null);
      }
    } catch (trouble) {
      this.#onState(this.#unsent.length, trouble);
      setTimeout(() => void this.flush(), this.#retryAfterMs);
    } finally {
      this.#sending = false;
    }
  }

  /** The page is going away: sends everything not confirmed yet, whatever is under way. */
  leave(): void {
    if (this.#unsent.length > 0) this.#send(this.#unsent as unknown as Json[], true).catch(() => undefined);
  }
}

export type { Change, Step };
