import { add, cross, dot, subtract, times, type Vec2, type Vec3 } from '../../../src/solid/vector.ts';
import { pulledEnd, staysAt } from '../../donor/pulledEnd.ts';
import type { RefitDesk } from '../../donor/refitDesk.ts';
import type { ShownModel } from '../../spine/answers.ts';
import { onPicture, type Sight } from '../sight.ts';
import type { SolidState } from '../solidState.ts';
import { alongPicture } from './alongPicture.ts';
import { BandHandle } from './BandHandle.tsx';
import { inPicture, placeHandles } from './placeHandles.ts';
import { handledIn, namesIn, type ShownBands } from './shownBands.ts';
import './bands.css';

interface BandHandlesProps {
  readonly desk: RefitDesk;
  readonly state: SolidState;
}

/** Handles at the ends of the stretches, and their letters, over the picture of the model. */
export function BandHandles({ desk, state }: BandHandlesProps) {
  const [model, sight, size] = [state.model.value, state.sight.value, state.size.value];
  const shown = state.bands.value;
  if (!model || !shown || !sight || size[0] === 0) return null;
  return <Handles {...{ desk, state, model, shown, sight, size }} />;
}

interface HandlesProps {
  readonly desk: RefitDesk;
  readonly state: SolidState;
  readonly model: ShownModel;
  readonly shown: ShownBands;
  readonly sight: Sight;
  readonly size: Vec2;
}

function Handles({ desk, state, model, shown, sight, size }: HandlesProps) {
  const { axis } = model.axes[model.shown]!;
  const lies = alongPicture(sight, axis);
  const names = namesIn(model, size[0]);
  const { map } = shown;
  // They stand as if nobody pulled, and go along with their ends: else those beside would step about under the hand.
  const asked = handledIn(model, size[0]).map((index) => {
    const { level, gain } = pulledEnd(model, index, staysAt(model, index));
    const around = model.round.stretches[index]!.around;
    const points = around.map((p) => raised(p, axis, level));
    // Held where it can be seen, if that is anywhere.
    const seen = points.filter((p) => !state.hides(p));
    const outline = (seen.length > 0 ? seen : points).map((p) => onPicture(sight, size, p));
    return { index, level, gain, outline, isHidden: seen.length === 0 };
  });
  const places = placeHandles(
    asked.map(({ outline }) => outline),
    lies.along,
    size,
  );
  const drawn = ([x, y]: Readonly<Vec2>, level: number): Vec2 => {
    const by = lies.isEndOn ? 0 : (map?.shift(level) ?? 0) * lies.perMm;
    return [x + by * lies.along[0], y + by * lies.along[1]];
  };
  const handles = asked.map((one, n) => ({
    ...one,
    at: inPicture(drawn(places[n]!.at, one.level), size),
    spot: drawn(places[n]!.spot, one.level),
  }));
  const letters = shown.bands.flatMap(({ index, name, from, to, isAt }) => {
    const around = index === null ? [] : (model.round.stretches[index]?.around ?? []);
    if (around.length === 0 || (to - from) * lies.perMm < ROOM || lies.isEndOn) return [];
    const middle = raised(facingIn(around, axis, sight.view.toward), axis, (from + to) / 2);
    return [{ name, isAt, at: onPicture(sight, size, middle) }];
  });
  return (
    <div class={`band-handles${desk.busy.value ? ' busy' : ''}`}>
      <svg viewBox={`0 0 ${size[0]} ${size[1]}`} aria-hidden="true">
        {handles.map(({ index, at, spot, isHidden }) => (
          <g key={index} class={[desk.at.value === index ? 'at' : '', isHidden ? 'behind' : ''].join(' ')}>
            <line x1={at[0]} y1={at[1]} x2={spot[0]} y2={spot[1]} />
            <circle cx={spot[0]} cy={spot[1]} r={3.5} />
          </g>
        ))}
        {letters.map(({ name, at, isAt }) => (
          <g key={name} class={`band-letter${isAt ? ' at' : ''}`}>
            <rect x={at[0] - 11} y={at[1] - 11} width={name.length > 1 ? 26 : 22} height={22} />
            <text x={at[0] + (name.length > 1 ? 2 : 0)} y={at[1] + 5.5}>
              {name}
            </text>
          </g>
        ))}
      </svg>
      {handles.map(({ index, at, spot, gain }) => (
        <BandHandle
          key={index}
          {...{ desk, model, index, at, spot, gain, lies, size }}
          name={names.get(index)!}
        />
      ))}
    </div>
  );
}

/** Bands shorter than this in the picture have no letter on them, pixels; their handle has it. */
const ROOM = 24;

const raised = (p: Readonly<Vec3>, axis: Readonly<Vec3>, level: number): Vec3 => [
  p[0] + level * axis[0],
  p[1] + level * axis[1],
  p[2] + level * axis[2],
];

/** Middle of the side of an outline that shows itself most to the reader. Outlines run counter-clockwise about the axis. */
function facingIn(around: readonly Readonly<Vec3>[], axis: Readonly<Vec3>, toward: Readonly<Vec3>): Vec3 {
  const sides = around.map((a, k) => {
    const b = around[(k + 1) % around.length]!;
    return { middle: times(add(a, b), 0.5), shows: dot(cross(subtract(b, a), axis), toward) };
  });
  return sides.reduce((best, side) => (side.shows > best.shows + 1e-6 ? side : best)).middle;
}
