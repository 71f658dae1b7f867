import { useSignal } from '@preact/signals';
import type { Vec2 } from '../../src/solid/vector.ts';
import { useBench } from '../bench/bench.ts';
import { onPicture } from './sight.ts';
import type { SolidState } from './solidState.ts';
import { type Numbered, placeBalloons, type Spot } from './spots.ts';

/** Height of a balloon and width of its first number and of each further one, pixels. */
const [HIGH, FIRST, NEXT] = [32, 32, 30];
/** Numbers of one spot that show before the rest is folded away. */
const UNFOLDED = 2;

/** Findings where they are on the part: numbered as in every list. Picking one picks it everywhere. */
export function Balloons({ state }: { readonly state: SolidState }) {
  const bench = useBench();
  const open = useSignal<string | null>(null);
  const sight = state.sight.value;
  const size = state.size.value;
  if (!sight || !state.balloons.value || state.model.value || size[0] === 0) return null;
  const picked = bench.balloon.value;
  const spots = state.spots.value.map((spot) => ({
    ...spot,
    shown: shownOf(spot, picked, open.value === keyOf(spot)),
  }));
  const places = placeBalloons(
    spots.map(({ at }) => onPicture(sight, size, at)),
    spots.map(
      ({ shown, findings }): Vec2 => [
        FIRST + NEXT * (shown.length - 1 + Number(shown.length < findings.length)),
        HIGH,
      ],
    ),
    size,
  );
  return (
    <div class="balloons">
      <svg viewBox={`0 0 ${size[0]} ${size[1]}`} aria-hidden="true">
        {places.map(({ at, spot }, k) => {
          const mine = spots[k]!.findings.some(({ number }) => number === picked);
          return (
            <g
              key={keyOf(spots[k]!)}
              class={[
                mine ? 'picked' : spots[k]!.findings[0]!.verdict,
                state.hides(spots[k]!.at) ? 'behind' : 'before',
              ].join(' ')}
            >
              <line x1={at[0]} y1={at[1]} x2={spot[0]} y2={spot[1]} />
              <circle cx={spot[0]} cy={spot[1]} r={mine ? 5 : 3} />
            </g>
          );
        })}
      </svg>
      {places.map(({ at }, k) => {
        const spot = spots[k]!;
        const folded = spot.findings.length - spot.shown.length;
        return (
          <div key={keyOf(spot)} class="balloon" style={{ left: `${at[0]}px`, top: `${at[1]}px` }}>
            {spot.shown.map((one) => (
              <Balloon
                key={one.number}
                {...one}
                picked={one.number === picked}
                onPick={() => {
                  bench.balloon.value = one.number === picked ? null : one.number;
                }}
              />
            ))}
            {folded > 0 && (
              <button
                type="button"
                aria-expanded={false}
                aria-label={`${folded} more findings here`}
                onClick={() => {
                  open.value = keyOf(spot);
                }}
              >
                +{folded}
              </button>
            )}
          </div>
        );
      })}
    </div>
  );
}

const signs = { holds: '', caution: '!', fails: '\u00d7' } as const;

function Balloon({
  number,
  title,
  verdict,
  picked,
  onPick,
}: Numbered & { readonly picked: boolean; readonly onPick: () => void }) {
  return (
    <button
      type="button"
      class={verdict}
      aria-pressed={picked}
      aria-label={`Finding ${number}, ${title}, ${verdict}`}
      title={title}
      onClick={onPick}
    >
      {number}
      {signs[verdict]}
    </button>
  );
}

const keyOf = ({ findings }: Spot): string => String(findings[0]!.number);

/** What does not hold and what is picked always shows; of the rest as many as there is room for. */
function shownOf({ findings }: Spot, picked: number | null, open: boolean): readonly Numbered[] {
  if (open || findings.length <= UNFOLDED + 1) return findings;
  const room = Math.max(UNFOLDED, findings.filter(({ verdict }) => verdict !== 'holds').length);
  return findings.filter(({ number, verdict }, k) => verdict !== 'holds' || number === picked || k < room);
}
