// The one open design: its document, its steps, its journal, and what the server says about it. Panes read its state and
// change the document through `apply` (a finished gesture) or `preview`, `keep` and `cancel` (one under way).
import type { Checks, DesignAnswer, DiskChange, Form, Job, Json, Openings, Problem, ShapeAnswer, Takes } from '../answers';
import { api, Refused, Unreachable } from '../api';
import { appliedAll, changesOf, valueAt, type Step, type Wish } from './change';
import { begun, done, redone, undone, type History } from './history';
import { JournalSender, replayed } from './journal';
import { fansAddress, readFans } from '../ornament/fans';
import { hasSeats, Seating } from './seating.svelte';
import { Shaping } from './shaping';
import { TabHold } from './tab_hold';

/** The name of the only size of a design that lists none. */
export const AS_DRAWN = 'as drawn';

export const textOf = (value: Json): string => `${JSON.stringify(value, null, 2)}\n`;

export class Session {
  readonly id: string;
  name = $state<string | null>(null);
  fingerprint = $state<string | null>(null);
  #history = $state.raw<History>(begun({}));
  #savedAt = $state<number | null>(0);
  #live = $state.raw<Json | null>(null);
  #sender: JournalSender;
  #shaping: Shaping;
  #events: EventSource | null = null;

  /** Of the document the server is asked about; a clock, so that it grows across reloads and tabs too. */
  revision = $state(0);
  /** Name of the size being looked at. */
  size = $state(AS_DRAWN);
  form = $state.raw<Form | null>(null);
  /** Of `form`: which revision it belongs to, and whether it is computed or carried over from the last computed one. */
  formRevision = $state(0);
  stage = $state<'estimate' | 'settled'>('estimate');
  /** Why there is no form of the document as it stands; `form` is then the last good one. */
  problem = $state.raw<Problem | null>(null);
  openings = $state.raw<Openings | null>(null);
  checks = $state.raw<Checks | null>(null);
  takes = $state.raw<Takes | null>(null);
  /** The fans in their seats on `form`. */
  readonly seating: Seating;
  jobs = $state.raw<Record<string, Job>>({});
  disk = $state.raw<DiskChange | null>(null);
  /** Another tab has this design in hand; nothing can be changed here then. */
  elsewhere = $state(false);
  #hold: TabHold | null = null;
  /** Steps that are not on disk yet. */
  unkept = $state(0);
  /** What keeps the page from the server just now, in a sentence. */
  trouble = $state<string | null>(null);

  constructor(answer: DesignAnswer) {
    this.id = answer.id;
    this.name = answer.name;
    const before = replayed(answer.text, answer.fingerprint, answer.journal ?? []);
    this.#history = before.history;
    this.#savedAt = answer.name === null ? null : before.savedAt;
    this.fingerprint = before.fingerprint;
    if (answer.disk_text !== undefined && answer.fingerprint !== null)
      this.disk = { text: answer.disk_text, fingerprint: answer.fingerprint };
    this.revision = Math.max(Date.now(), answer.revision + 1);
    this.#sender = new JournalSender(
      before.next,
      (lines, leaving) => sentLines(this.id, lines, leaving),
      {
        waiting: (count, trouble) => this.#sent(count, trouble),
        restart: () => api.restartJournal(this.id, textOf(this.#history.value)),
      },
    );
    this.#shaping = new Shaping(
      (question) => api.shape(this.id, question),
      (shape) => this.#shaped(shape),
      (trouble) => this.#troubled(trouble),
    );
    this.seating = new Seating(({ revision, size }) => api.mesh(fansAddress(this.id, revision, size)).then(readFans));
    this.size = this.sizes[0] ?? AS_DRAWN;
  }

  /** The document as it stands, a gesture under way included. Never changed in place. */
  get value(): Json {
    return this.#live ?? this.#history.value;
  }

  /** The document without the gesture under way. */
  get kept(): Json {
    return this.#history.value;
  }

  get text(): string {
    return textOf(this.value);
  }

  get units(): 'mm' | 'in' {
    return this.at('/units') === 'in' ? 'in' : 'mm';
  }

  get title(): string {
    const title = this.at('/title');
    return typeof title === 'string' && title !== '' ? title : 'Ornament';
  }

  get sizes(): string[] {
    const sizes = this.at('/sizes');
    if (!Array.isArray(sizes)) return [];
    return sizes.map((_, index) => this.at(`/sizes/${index}/name`)).filter((name): name is string => typeof name === 'string');
  }

  /** Whether any fan has a seat. */
  get seated(): boolean {
    return hasSeats(this.at('/fans'));
  }

  /** Whether the file differs from the document. */
  get changed(): boolean {
    return this.#savedAt === null || this.#savedAt !== this.#history.at;
  }

  get undoLabel(): string | null {
    return this.#history.steps[this.#history.at - 1]?.label ?? null;
  }

  get redoLabel(): string | null {
    return this.#history.steps[this.#history.at]?.label ?? null;
  }

  at(pointer: string): Json | undefined {
    return valueAt(this.value, pointer);
  }

  /** One finished gesture, one step to undo. Wishes that change nothing leave no step behind. */
  apply(label: string, wishes: (Wish & { insert?: true })[]): void {
    if (this.elsewhere) return;
    this.#live = null;
    const changes = changesOf(this.#history.value, wishes);
    if (changes.length > 0) {
      const step: Step = { label, changes };
      if (this.#savedAt !== null && this.#savedAt > this.#history.at) this.#savedAt = null;
      this.#history = done(this.#history, step);
      this.#sender.add({ do: step });
    }
    this.#moved();
  }

  /** Shows a gesture under way; nothing is kept yet. */
  preview(wishes: (Wish & { insert?: true })[]): void {
    if (this.elsewhere) return;
    this.#live = appliedAll(this.#history.value, changesOf(this.#history.value, wishes));
    this.#moved();
  }

  /** Drops the gesture under way. */
  cancel(): void {
    if (this.#live === null) return;
    this.#live = null;
    this.#moved();
  }

  undo(): void {
    if (this.undoLabel === null || this.elsewhere) return;
    this.#live = null;
    this.#history = undone(this.#history);
    this.#sender.add({ undo: 1 });
    this.#moved();
  }

  redo(): void {
    if (this.redoLabel === null || this.elsewhere) return;
    this.#live = null;
    this.#history = redone(this.#history);
    this.#sender.add({ redo: 1 });
    this.#moved();
  }

  chooseSize(name: string): void {
    if (name === this.size) return;
    this.size = name;
    this.seating.forget();
    this.#moved();
  }

  /** Begins to listen to the server and asks for the first form. `taking`: the design is taken out of another tab's hands. */
  start(taking = false): void {
    this.#hold = new TabHold(this.id, taking, (elsewhere) => (this.elsewhere = elsewhere));
    document.addEventListener('visibilitychange', this.#onVisible);
    this.#listen();
  }

  /** What is computed is told to those who listen, once: so nothing is asked for before this page is one of them. */
  #listen(): void {
    const events = api.events(this.id);
    this.#events = events;
    const on = <T>(name: string, take: (data: T) => void) =>
      events.addEventListener(name, (event) => take(JSON.parse((event as MessageEvent<string>).data) as T));
    on<ShapeAnswer>('form', (shape) => this.#heard(shape));
    on<Openings>('openings', (openings) => (this.openings = newer(this.openings, openings)));
    on<Checks>('checks', (checks) => (this.checks = newer(this.checks, checks)));
    on<Takes>('takes', (takes) => (this.takes = newer(this.takes, takes)));
    on<DiskChange>('disk', (disk) => (this.disk = disk.fingerprint === this.fingerprint ? null : disk));
    on<Job>('job', (job) => (this.jobs = { ...this.jobs, [job.id]: job }));
    let asked = false;
    const ask = () => {
      asked = true;
      this.#again();
    };
    events.onopen = ask;
    events.onerror = () => {
      // A page that is refused as a listener is still given what comes at once.
      if (!asked) ask();
      this.trouble = new Unreachable().message;
    };
  }

  /** The server listens: what it missed is sent, and what was missed from it is asked for. */
  #again(): void {
    this.trouble = null;
    void this.#sender.flush();
    this.#moved();
  }

  /** A hidden tab listens to nothing, since a browser holds few connections to one server open for all its tabs. */
  #onVisible = (): void => {
    if (document.hidden) {
      this.#events?.close();
      this.#events = null;
    } else if (!this.#events) {
      this.#listen();
    }
  };

  /** The same revision may have been asked for in several sizes. */
  #heard(shape: ShapeAnswer & { size?: string }): void {
    if ((shape.size ?? this.size) === this.size) this.#shaping.take(shape);
  }

  /** The page is going away: sends what is not on disk yet. */
  leave(): void {
    this.#sender.leave();
  }

  /** Stops listening; steps not on disk yet are sent off. */
  stop(): void {
    this.#hold?.end();
    document.removeEventListener('visibilitychange', this.#onVisible);
    this.#events?.close();
    this.#events = null;
    this.#sender.leave();
  }

  /** Writes the file. Throws Refused, with `text` and `fingerprint` when the disk's differs. */
  async save(evenIfChanged = false): Promise<void> {
    await this.#sender.flush();
    const at = this.#history.at;
    const { fingerprint } = await api.save(this.id, textOf(this.#history.value), this.fingerprint, evenIfChanged);
    this.fingerprint = fingerprint;
    this.#savedAt = at;
    this.disk = null;
  }

  /** Writes a file of another name and goes on with that one. Throws Refused. */
  async saveAs(name: string, replace: boolean): Promise<void> {
    await this.#sender.flush();
    const at = this.#history.at;
    const answer = await api.saveCopy(this.id, name, textOf(this.#history.value), replace);
    this.name = answer.name;
    this.fingerprint = answer.fingerprint;
    this.#savedAt = at;
    this.disk = null;
  }

  /** Takes what is on disk as one more step, so that undoing brings one's own back. */
  takeDisk(disk: DiskChange): void {
    this.apply('take the file from disk', [{ at: '', after: JSON.parse(disk.text) as Json }]);
    this.#sender.add({ saved: disk.fingerprint });
    this.fingerprint = disk.fingerprint;
    this.#savedAt = this.#history.at;
    this.disk = null;
  }

  #moved(): void {
    this.revision = Math.max(this.revision + 1, Date.now());
    const sizes = this.sizes;
    if (sizes.length > 0 ? !sizes.includes(this.size) : this.size !== AS_DRAWN) this.size = sizes[0] ?? AS_DRAWN;
    this.#shaping.ask({ revision: this.revision, size: this.size, text: this.text });
  }

  #shaped(shape: ShapeAnswer): void {
    this.trouble = null;
    this.problem = shape.problem;
    if (!shape.form) return;
    this.form = shape.form;
    this.formRevision = shape.revision;
    this.stage = shape.stage;
    if (shape.stage === 'settled') this.seating.want({ revision: shape.revision, size: shape.form.size }, this.seated);
  }

  #sent(waiting: number, trouble: unknown): void {
    this.unkept = waiting;
    if (trouble) this.#troubled(trouble);
  }

  #troubled(trouble: unknown): void {
    // Another tab has asked for something newer; what comes of it arrives as an event.
    if (trouble instanceof Refused && trouble.status === 409) return;
    if (trouble instanceof Refused && trouble.where !== '') this.problem = { sentence: trouble.sentence, where: trouble.where };
    else this.trouble = trouble instanceof Error ? trouble.message : String(trouble);
  }
}

function newer<T extends { revision: number }>(shown: T | null, come: T): T {
  return shown && shown.revision > come.revision ? shown : come;
}

async function sentLines(id: string, lines: Json[], leaving: boolean): Promise<'full' | 'kept'> {
  try {
    await api.journal(id, lines, leaving);
    return 'kept';
  } catch (trouble) {
    if (trouble instanceof Refused && trouble.status === 413) return 'full';
    throw trouble;
  }
}
