// The studio's server as typed calls. Every refusal becomes a Refused with the server's own sentence; a server that
// does not answer becomes an Unreachable. Nothing else is thrown.
import type { BenchAnswer, DesignAnswer, ImportAnswer, Json, OutlineAnswer, ShapeAnswer } from './answers';

export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly sentence: string,
    readonly where: string,
    readonly answer: Record<string, unknown>,
  ) {
    super(sentence);
  }
}

export class Unreachable extends Error {
  constructor() {
    super('The studio does not answer. Start it again with: fanwright studio');
  }
}

/** What to tell of something thrown. */
export const sentenceOf = (cause: unknown): string => (cause instanceof Error ? cause.message : String(cause));

type Method = 'GET' | 'POST' | 'DELETE';

async function answerOf(method: Method, path: string, body: unknown, more: RequestInit): Promise<Response> {
  try {
    return await fetch(path, {
      method,
      ...(body === undefined
        ? method === 'GET'
          ? {}
          : { headers: { 'Content-Type': 'application/json' } }
        : { headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) }),
      ...more,
    });
  } catch (cause) {
    if (cause instanceof DOMException && cause.name === 'AbortError') throw cause;
    throw new Unreachable();
  }
}

async function refusalOf(response: Response): Promise<Refused> {
  const answer: Record<string, unknown> = await response.json().catch(() => ({}));
  const sentence = typeof answer['sentence'] === 'string' ? answer['sentence'] : `The studio refused this (${response.status}).`;
  return new Refused(response.status, sentence, typeof answer['where'] === 'string' ? answer['where'] : '', answer);
}

async function call<T>(method: Method, path: string, body?: unknown, more: RequestInit = {}): Promise<T> {
  const response = await answerOf(method, path, body, more);
  if (!response.ok) throw await refusalOf(response);
  const text = await response.text();
  return (text === '' ? {} : JSON.parse(text)) as T;
}

const designs = '/api/designs';
const of = (id: string) => `${designs}/${encodeURIComponent(id)}`;

export type OpenRequest = { open: string } | { text: string; name?: string } | { starter: string } | { blank: true };

export const api = {
  bench: () => call<BenchAnswer>('GET', '/api/bench'),
  open: (request: OpenRequest) => call<DesignAnswer>('POST', designs, request),
  design: (id: string) => call<DesignAnswer>('GET', of(id)),
  /** Appends to the journal, flushed to disk when this resolves. `leaving`: the page is going away, keep sending. */
  journal: (id: string, lines: Json[], leaving = false) =>
    call<object>('POST', `${of(id)}/journal`, { lines }, leaving ? { keepalive: true } : {}),
  restartJournal: (id: string, text: string) => call<object>('POST', `${of(id)}/journal`, { restart: text }),
  save: (id: string, text: string, fingerprint: string | null, even_if_changed = false) =>
    call<{ fingerprint: string }>('POST', `${of(id)}/save`, { text, fingerprint, even_if_changed }),
  saveCopy: (id: string, name: string, text: string, replace = false) =>
    call<DesignAnswer>('POST', `${of(id)}/copy`, { name, text, replace }),
  close: (id: string) => call<object>('DELETE', of(id)),
  outline: (path: string, units: 'mm' | 'in') => call<OutlineAnswer>('POST', '/api/outline', { path, units }),
  /** Figures in a drawing, a scan or a photo; `query` as traced/asked.ts writes it. */
  figures: (file: Blob, query: string, signal: AbortSignal) =>
    call<ImportAnswer>('POST', `/api/import?${query}`, undefined, { body: file, headers: { 'Content-Type': 'application/octet-stream' }, signal }),
  shape: (id: string, request: { revision: number; size: string; text: string; settle?: true }, signal?: AbortSignal) =>
    call<ShapeAnswer>('POST', `${of(id)}/shape`, request, signal ? { signal } : {}),
  advice: (id: string, text: string, size: string) => call<Json>('POST', `${of(id)}/advice`, { text, size }),
  /** Bytes of a mesh; `address` as a form gives it, with the share of the opening added when below 1. */
  mesh: async (address: string, signal?: AbortSignal): Promise<ArrayBuffer> => {
    const response = await answerOf('GET', address, undefined, signal ? { signal } : {});
    if (!response.ok) throw await refusalOf(response);
    return response.arrayBuffer();
  },
  /** `lap_mm`: leaves that a sheet does not take are cut in two, with a lap so wide. */
  kit: (id: string, text: string, sizes: string[] | null, grammages?: Record<string, number>, lap_mm?: number) =>
    call<{ id: string }>('POST', `${of(id)}/kit`, { text, sizes, ...(grammages ? { grammages } : {}), ...(lap_mm ? { lap_mm } : {}) }),
  picture: (id: string, request: Record<string, Json>) => call<{ id: string }>('POST', `${of(id)}/picture`, request),
  meshFile: (id: string, text: string, size: string, kind: 'glb' | 'stl' | 'obj' | '3mf') =>
    call<{ id: string }>('POST', `${of(id)}/mesh-file`, { text, size, kind }),
  cancel: (job: string) => call<object>('DELETE', `/api/jobs/${encodeURIComponent(job)}`),
  /** Address of a finished job's file, such as "kit.zip". */
  jobFile: (job: string, file: string) => `/api/jobs/${encodeURIComponent(job)}/${file}`,
  events: (id: string) => new EventSource(`/api/events?design=${encodeURIComponent(id)}`),
};
