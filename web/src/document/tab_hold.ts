// One tab at a time has a design in hand (Web Locks): two would write their steps into one journal.

export class TabHold {
  #letGo: () => void = () => {};

  /** `onElsewhere(true)` when another tab has it, at once or later. `taking`: it is taken from that tab. */
  constructor(design: string, taking: boolean, onElsewhere: (elsewhere: boolean) => void) {
    const held = (lock: Lock | null) => {
      onElsewhere(lock === null);
      return lock === null ? undefined : new Promise<void>((done) => (this.#letGo = done));
    };
    navigator.locks
      .request(`fanwright-design-${design}`, taking ? { steal: true } : { ifAvailable: true }, held)
      .catch(() => onElsewhere(true));
  }

  end(): void {
    this.#letGo();
  }
}
