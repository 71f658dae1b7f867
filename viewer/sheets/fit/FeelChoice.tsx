import { useState } from 'preact/hooks';
import type { SurfaceFacts } from '../../../src/job/fitFacts.ts';
import { clearanceWindow } from '../../../src/output/words/index.ts';
import { formatNumber } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import { CodeField } from './CodeField.tsx';
import { type FeelKind, feelOf, feels, type Wish, windowOfFeel, withWish } from './feel.ts';
import { WindowFields } from './WindowFields.tsx';

interface FeelChoiceProps {
  readonly surface: SurfaceFacts;
  /** What the job asks for; undefined: the usual. */
  readonly wish: Wish | undefined;
  /** Parts that share the wish. */
  readonly shared: number;
}

/** How one meeting surface should feel: the usual way, one of the classes, a window of one's own, or a code of ISO 286. */
export function FeelChoice({ surface, wish, shared }: FeelChoiceProps) {
  const bench = useBench();
  const { id, name, host, normal, window } = surface;
  // Chosen, but with nothing understood yet to ask for.
  const [begun, begin] = useState<'window' | 'code' | null>(null);
  const kind: FeelKind = begun ?? feelOf(wish);
  const ask = (to: Wish | undefined, joined = false) =>
    bench.change(`fit of the ${name}`, (job) => withWish(job, id, to), joined);
  const option = (to: FeelKind, label: string, words: string, range: string, take: () => void) => (
    <label>
      <input
        type="radio"
        name={`feel-${id}`}
        checked={kind === to}
        onChange={() => {
          begin(to === 'window' || to === 'code' ? to : null);
          take();
        }}
      />
      <span>
        <b>{label}</b> <span class="words">{words}</span> <span class="range">{range}</span>
      </span>
    </label>
  );
  const own = Array.isArray(wish) ? (wish as readonly [number, number]) : bounded(window);
  return (
    <fieldset class="feels">
      <legend>How it should feel{shared > 1 ? `, on all ${shared} parts` : ''}</legend>
      {option('usual', `as usual${normal === null ? '' : `: ${normal}`}`, '', clearanceWindow(window), () =>
        ask(undefined),
      )}
      {feels.map(({ fit, words }) =>
        option(fit, fit, words, clearanceWindow(windowOfFeel(fit)), () => ask(fit)),
      )}
      {option('window', 'a window of your own', 'least and greatest clearance', '', () => ask([...own]))}
      {kind === 'window' && <WindowFields id={id} window={own} take={(to) => ask(to, true)} />}
      {option('code', 'a code of ISO 286', `at ${formatNumber(host)} mm, the hole first`, '', () => {})}
      {kind === 'code' && (
        <CodeField
          id={id}
          host={host}
          code={typeof wish === 'string' && feelOf(wish) === 'code' ? wish : ''}
          take={(to) => ask(to, true)}
        />
      )}
    </fieldset>
  );
}

/** A window with both ends, to start one's own from: an end there is not lies as far off as the widest class is wide. */
const bounded = ([lo, hi]: readonly [number, number]): readonly [number, number] => [
  Number.isFinite(lo) ? lo : hi - 0.3,
  Number.isFinite(hi) ? hi : lo + 0.3,
];
