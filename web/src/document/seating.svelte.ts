// The fans of the size being looked at, in their seats: asked for whenever its form has settled, one question at a time.
import { Refused, sentenceOf } from '../api';
import type { Json } from '../answers';
import type { Fans } from '../ornament/fans';

interface Question {
  revision: number;
  size: string;
}

/** Whether any fan of the document has a seat. */
export function hasSeats(fans: Json | undefined): boolean {
  return Array.isArray(fans) && fans.some((fan) => typeof fan === 'object' && fan !== null && !Array.isArray(fan) && fan['seat'] !== undefined);
}

export class Seating {
  /** As they came last; null where no fan has a seat. */
  told = $state.raw<Fans | null>(null);
  /** The revision that `told` belongs to. */
  revision = $state(0);
  trouble = $state<string | null>(null);
  #asking = false;
  #seated = false;
  #next: Question | null = null;

  constructor(private readonly ask: (question: Question) => Promise<Fans>) {}

  /** The form has settled; `seated`: some fan has a seat. */
  want(question: Question, seated: boolean): void {
    this.#next = seated ? question : null;
    this.#seated = seated;
    if (!seated) {
      this.told = null;
      this.trouble = null;
    } else if (!this.#asking) void this.#go();
  }

  /** Another size, or another design, is looked at. */
  forget(): void {
    this.told = null;
  }

  async #go(): Promise<void> {
    this.#asking = true;
    while (this.#next) {
      const question = this.#next;
      this.#next = null;
      try {
        const told = await this.ask(question);
        this.trouble = null;
        if (this.#seated) [this.told, this.revision] = [told, question.revision];
      } catch (cause) {
        // The drawing has gone on; what belongs to it will be asked for.
        this.trouble = cause instanceof Refused && cause.status === 410 ? null : sentenceOf(cause);
      }
    }
    this.#asking = false;
  }
}
