// A design with all its steps, as a value: done ones up to `at`, undone ones after it. No bound on their number.
import type { Json } from '../answers';
import { appliedAll, inverseAll, type Step } from './change';

export interface History {
  value: Json;
  steps: readonly Step[];
  /** So many of the steps are done. */
  at: number;
}

export const begun = (value: Json): History => ({ value, steps: [], at: 0 });

export function done(history: History, step: Step): History {
  const steps = history.steps.slice(0, history.at);
  steps.push(step);
  return { value: appliedAll(history.value, step.changes), steps, at: steps.length };
}

export function undone(history: History): History {
  const step = history.steps[history.at - 1];
  if (!step) return history;
  return { ...history, value: appliedAll(history.value, inverseAll(step.changes)), at: history.at - 1 };
}

export function redone(history: History): History {
  const step = history.steps[history.at];
  if (!step) return history;
  return { ...history, value: appliedAll(history.value, step.changes), at: history.at + 1 };
}
