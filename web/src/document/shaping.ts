// Asks for the shape of the ornament while it is being drawn: one question on its way, the latest one waiting, and
// never an older answer after a newer one.
import type { ShapeAnswer } from '../answers';

export interface Question {
  revision: number;
  size: string;
  text: string;
}

export class Shaping {
  #asking = false;
  #waiting: Question | null = null;
  #shown = { revision: -1, settled: false };
  readonly #ask: (question: Question) => Promise<ShapeAnswer>;
  readonly #onAnswer: (answer: ShapeAnswer) => void;
  readonly #onTrouble: (trouble: unknown) => void;

  constructor(
    ask: (question: Question) => Promise<ShapeAnswer>,
    onAnswer: (answer: ShapeAnswer) => void,
    onTrouble: (trouble: unknown) => void,
  ) {
    this.#ask = ask;
    this.#onAnswer = onAnswer;
    this.#onTrouble = onTrouble;
  }

  ask(question: Question): void {
    this.#waiting = question;
    if (!this.#asking) void this.#work();
  }

  /** Takes an answer from wherever it came; drops it when a newer or better one has been shown. */
  take(answer: ShapeAnswer): void {
    const settled = answer.stage === 'settled';
    if (answer.revision < this.#shown.revision) return;
    if (answer.revision === this.#shown.revision && this.#shown.settled && !settled) return;
    this.#shown = { revision: answer.revision, settled };
    this.#onAnswer(answer);
  }

  async #work(): Promise<void> {
    this.#asking = true;
    while (this.#waiting) {
      const question = this.#waiting;
      this.#waiting = null;
      try {
        this.take(await this.#ask(question));
      } catch (trouble) {
        this.#onTrouble(trouble);
      }
    }
    this.#asking = false;
  }
}
