import type { FormView } from '../../../src/output/readingForm/index.ts';
import type { Vec2, Vec3 } from '../../../src/solid/vector.ts';
import { useBench } from '../../bench/bench.ts';
import { spotsOf } from '../../solid/spots.ts';
import './findingBalloons.css';

/** How far a balloon stands from its spot, mm on the sheet. */
const OFF = 7;

/** Findings that are not quiet, and the one that is picked, where they are on the drawing: the same numbers as in the list
 *  and on the part in the round. Each stands in the first view that shows its place. */
export function FindingBalloons({
  views,
  size: [width, height],
}: {
  readonly views: readonly FormView[];
  readonly size: Readonly<Vec2>;
}) {
  const bench = useBench();
  const made = bench.made.value;
  if (!made) return null;
  const picked = bench.balloon.value;
  const marks = made.scene.flatMap(({ id, onBed }) =>
    spotsOf(made.result.findings, id, onBed).flatMap(({ at, findings }) => {
      const shown = findings.filter(({ number, verdict }) => verdict !== 'holds' || number === picked);
      const view = views.find((one) => within(one, onSheet(one, at)));
      return shown.length > 0 && view ? [{ shown, spot: onSheet(view, at), balloon: beside(view, at) }] : [];
    }),
  );
  return (
    <div class="finding-balloons">
      <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
        {marks.map(({ shown, spot: [x, y], balloon: [u, v] }) => (
          <g key={shown[0]!.number}>
            <line x1={u} y1={v} x2={x} y2={y} />
            <circle cx={x} cy={y} r="0.7" />
          </g>
        ))}
      </svg>
      {marks.map(({ shown, balloon: [u, v] }) => (
        <span
          key={shown[0]!.number}
          class="place"
          style={{ left: `${(100 * u) / width}%`, top: `${(100 * v) / height}%` }}
        >
          {shown.map(({ number, title, verdict }) => (
            <button
              key={number}
              type="button"
              class={verdict}
              aria-pressed={number === picked}
              aria-label={`finding ${number}, ${verdict}: ${title}`}
              onClick={() => {
                bench.balloon.value = number === picked ? null : number;
              }}
            >
              {number}
            </button>
          ))}
        </span>
      ))}
    </div>
  );
}

const dot = (a: Readonly<Vec3>, b: Readonly<Vec3>): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const onSheet = ({ sight: { from, right, down } }: FormView, p: Readonly<Vec3>): Vec2 => [
  from[0] + dot(right, p),
  from[1] + dot(down, p),
];

const within = ({ place: [left, top, w, h] }: FormView, [x, y]: Readonly<Vec2>): boolean =>
  x >= left && x <= left + w && y >= top && y <= top + h;

/** Away from the middle of the view, where dimension lines leave the most room. */
function beside(view: FormView, p: Readonly<Vec3>): Vec2 {
  const [left, top, w, h] = view.place;
  const [x, y] = onSheet(view, p);
  const [dx, dy] = [x - (left + w / 2), y - (top + h / 2)];
  const far = Math.hypot(dx, dy) || 1;
  return [x + (OFF * (dx || 1)) / far, y + (OFF * dy) / far];
}
