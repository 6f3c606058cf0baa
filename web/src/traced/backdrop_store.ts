// Where pictures behind drawings outlast a reload: the browser's own store, under the design's number in this studio. Where
// it is switched off they last until the page is closed.
import type { Placing } from '../answers';

export interface Kept {
  blob: Blob;
  /** Of the file's own pixels. */
  width: number;
  height: number;
  placing: Placing;
  /** 0..1 */
  strength: number;
  hidden: boolean;
}

const STORE = 'pictures';

function opened(): Promise<IDBDatabase> {
  return new Promise((done, failed) => {
    const asking = indexedDB.open('fanwright-behind-drawings', 1);
    asking.onupgradeneeded = () => asking.result.createObjectStore(STORE);
    asking.onsuccess = () => done(asking.result);
    asking.onerror = () => failed(asking.error);
  });
}

async function asked<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T | null> {
  try {
    const base = await opened();
    return await new Promise<T>((done, failed) => {
      const asking = ask(base.transaction(STORE, mode).objectStore(STORE));
      asking.onsuccess = () => done(asking.result);
      asking.onerror = () => failed(asking.error);
    }).finally(() => base.close());
  } catch {
    return null;
  }
}

export const kept = (id: string): Promise<Kept | null> => asked<Kept | undefined>('readonly', (store) => store.get(id)).then((found) => found ?? null);

export async function remembered(id: string, what: Kept | null): Promise<void> {
  if (!what) return;
  const { blob, width, height, placing, strength, hidden } = what;
  await asked('readwrite', (store) => store.put({ blob, width, height, placing, strength, hidden }, id));
}

export const forgotten = (id: string): Promise<unknown> => asked('readwrite', (store) => store.delete(id));
