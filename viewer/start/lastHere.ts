import { effect, type ReadonlySignal } from '@preact/signals';

const KEY = 'fettle job';

/** Id of the job that lay on the bench of this tab before it was loaded again; null where nobody knows. */
export function lastHere(): string | null {
  try {
    return sessionStorage.getItem(KEY);
  } catch {
    return null;
  }
}

/** Remembers for this tab which job lies on the bench. */
export function rememberHere(id: ReadonlySignal<string>): void {
  effect(() => {
    const now = id.value;
    try {
      sessionStorage.setItem(KEY, now);
    } catch {
      // Storage forbidden or full: the job saved last comes up then.
    }
  });
}
