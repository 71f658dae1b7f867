import type { Bench } from '../bench/bench.ts';
import { type Place, placeOf } from './placeOf.ts';

/** How long a sheet may take to unroll until the cursor is no longer put anywhere, ms: by then the person has gone on. */
const PATIENCE = 4000;

let giveUp = (): void => {};

/** Leads the person to the field of the job that a problem, a step or a doubt is about: turns to its sheet and puts the
 *  cursor there as soon as it is drawn. Fields are known by `data-field`, readings by the id of their field. */
export function leadTo(bench: Bench, field: string): void {
  const place = placeOf(field);
  giveUp();
  if (place.sheet !== null) bench.sheet.value = place.sheet;
  bench.reading.value = place.reading ?? null;
  whenThere(
    () => elementOf(place),
    (element) => {
      bench.reading.value = null;
      // What is led to is wanted unfolded.
      if (element.parentElement instanceof HTMLDetailsElement) element.parentElement.open = true;
      const still = matchMedia('(prefers-reduced-motion: reduce)').matches;
      element.scrollIntoView({ block: 'center', behavior: still ? 'auto' : 'smooth' });
      element.focus({ preventScroll: true });
    },
  );
}

function elementOf({ reading, fields }: Place): HTMLElement | null {
  const own = reading === undefined ? null : document.getElementById(`reading-${reading}`);
  const found = own ?? fields.map((field) => marked(field)).find((element) => element !== null) ?? null;
  // What is folded away has no box and takes no cursor.
  return found !== null && found.getClientRects().length > 0 ? found : null;
}

const marked = (field: string): HTMLElement | null =>
  document.querySelector<HTMLElement>(`[data-field="${CSS.escape(field)}"]`);

function whenThere(find: () => HTMLElement | null, take: (element: HTMLElement) => void): void {
  const look = (): boolean => {
    const element = find();
    if (element) {
      giveUp();
      take(element);
    }
    return element !== null;
  };
  const watch = new MutationObserver(() => void look());
  const end = setTimeout(() => giveUp(), PATIENCE);
  giveUp = () => {
    clearTimeout(end);
    watch.disconnect();
    giveUp = () => {};
  };
  // After this turn: the sheet that is being left may have the same field.
  requestAnimationFrame(() => {
    if (!look()) watch.observe(document.body, { childList: true, subtree: true, attributes: true });
  });
}
