// What this maker likes, on this machine: theme, units on screen, whether the guide has been put away.

const KEPT = 'fanwright-likings';

interface Kept {
  theme: 'light' | 'dark' | 'as system';
  units: 'mm' | 'in' | 'as file';
  guided: boolean;
  snap: boolean;
}

const usual: Kept = { theme: 'as system', units: 'as file', guided: false, snap: true };

function kept(): Kept {
  try {
    return { ...usual, ...(JSON.parse(localStorage.getItem(KEPT) ?? '{}') as Partial<Kept>) };
  } catch {
    return usual;
  }
}

class Likings {
  #kept = $state.raw(kept());

  get theme(): Kept['theme'] {
    return this.#kept.theme;
  }

  get units(): Kept['units'] {
    return this.#kept.units;
  }

  get guided(): boolean {
    return this.#kept.guided;
  }

  get snap(): boolean {
    return this.#kept.snap;
  }

  set(change: Partial<Kept>): void {
    this.#kept = { ...this.#kept, ...change };
    try {
      localStorage.setItem(KEPT, JSON.stringify(this.#kept));
    } catch {
      // Storage may be switched off; then the choice holds until the page is closed.
    }
    this.show();
  }

  show(): void {
    const { theme } = this.#kept;
    if (theme === 'as system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = theme;
  }
}

export const likings = new Likings();

/** Units on screen of a design whose file is in `file`. */
export const unitsShown = (file: 'mm' | 'in'): 'mm' | 'in' => (likings.units === 'as file' ? file : likings.units);
