// Long work on the server, followed until it ends.
import type { Job } from '../answers';
import type { Session } from '../document/session.svelte';

/** What a job has told last, or that it has been asked for. */
export function told(session: Session, id: string | null): Job | null {
  if (id === null) return null;
  return session.jobs[id] ?? { id, kind: '', share: 0, doing: 'starting', done: false };
}

/** Whether a job has ended with what was asked for. */
export function hasEndedWell(job: Job | null): boolean {
  return job !== null && job.done && job.sentence === undefined;
}
