import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { FamilyLine } from '../spine/answers.ts';
import { useDrawer } from './drawer.ts';
import { ModelButton } from './ModelButton.tsx';

/** Kinds of part that a new job can be of. */
export function NewJobs() {
  const drawer = useDrawer();
  const families = useSignal<readonly FamilyLine[]>([]);
  const { turn } = drawer.bench.spine;
  useEffect(() => {
    drawer.bench.spine
      .look((spine) => spine.families())
      .then(
        (list) => {
          families.value = list;
        },
        () => {},
      );
  }, [turn.value]);
  return (
    <ul>
      {families.value.map(({ id, title, summary }) => (
        <li key={id}>
          <button type="button" onClick={() => void drawer.begin(id).catch(() => {})}>
            {title}
          </button>
          <span class="aside">{summary}</span>
        </li>
      ))}
      <li>
        <ModelButton>From a model</ModelButton>
        <span class="aside">
          an STL or 3MF of a similar part, made longer, shorter and to fit your machine
        </span>
      </li>
      <li>
        <button type="button" onClick={() => void drawer.begin(null)}>
          The example
        </button>
        <span class="aside">a finished job to try things on</span>
      </li>
    </ul>
  );
}
