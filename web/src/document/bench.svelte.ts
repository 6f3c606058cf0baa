// What lies on the bench: the folder with its files and starters, and the design that is open.
import type { BenchAnswer } from '../answers';
import { api, type OpenRequest } from '../api';
import { Session } from './session.svelte';

const LAST = 'fanwright-open-design';

class Bench {
  answer = $state.raw<BenchAnswer | null>(null);
  session = $state.raw<Session | null>(null);
  /** Why the studio could not be reached or a design not be opened. */
  trouble = $state<string | null>(null);

  /** Reads the folder and opens what was open before, else the file the studio was started with. */
  async start(): Promise<void> {
    await this.look();
    const answer = this.answer;
    if (!answer) return;
    const last = sessionStorage.getItem(LAST);
    const id = answer.open.find((design) => design.id === last)?.id ?? answer.first;
    if (id !== null) await this.#take(() => api.design(id));
    else if (answer.starters[0]) await this.open({ starter: answer.starters[0].id });
  }

  async look(): Promise<void> {
    try {
      this.answer = await api.bench();
      this.trouble = null;
    } catch (trouble) {
      this.trouble = trouble instanceof Error ? trouble.message : String(trouble);
    }
  }

  /** Opens a design in place of the one that is open; that one stays in its journal. */
  open(request: OpenRequest): Promise<boolean> {
    return this.#take(() => api.open(request));
  }

  /** Back to a design that is open already. */
  reopen(id: string): Promise<boolean> {
    return this.#take(() => api.design(id));
  }

  /** Takes the open design out of the hands of another tab, with all that was done there. */
  workHere(): Promise<boolean> {
    const id = this.session?.id;
    return id === undefined ? Promise.resolve(false) : this.#take(() => api.design(id), true);
  }

  async #take(ask: () => ReturnType<typeof api.open>, taking = false): Promise<boolean> {
    try {
      const session = new Session(await ask());
      this.session?.stop();
      this.session = session;
      sessionStorage.setItem(LAST, session.id);
      session.start(taking);
      this.trouble = null;
      return true;
    } catch (trouble) {
      this.trouble = trouble instanceof Error ? trouble.message : String(trouble);
      return false;
    }
  }
}

export const bench = new Bench();
