import { useEffect, useId, useRef, useState } from 'preact/hooks';
import type { LevelMap } from '../../src/donor/respace/levelMap.ts';
import type { RefitSheet } from '../../src/job/refitSheet.ts';
import { pathData } from '../../src/output/drawing/index.ts';
import { formatNumber } from '../../src/units/index.ts';
import { draftMap, type Lay, layAlong, movedLines, rowsFor, ruleMarks } from './layAlong.ts';
import { isFree, type RefitDesk } from './refitDesk.ts';
import { StretchLine } from './StretchLine.tsx';
import { alongWords, stretchNames } from './words.ts';

/** Pixels: above the part for letters, a row of dimension lines, the rule with its numbers. */
const [HEAD, ROW, RULE] = [34, 46, 40];
/** Beside a dimension line, for its handle and figure. */
const BEHIND = 92;

/** The part lying along a rule, with the stretches that can change as bands across it and a handle each. */
export function AlongPicture({ desk, sheet }: { readonly desk: RefitDesk; readonly sheet: RefitSheet }) {
  const frame = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = frame.current!;
    const watch = new ResizeObserver(() => setWidth(element.clientWidth));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return (
    <div class="along" ref={frame}>
      {width > 0 && <Picture desk={desk} sheet={sheet} width={width} />}
    </div>
  );
}

interface PictureProps {
  readonly desk: RefitDesk;
  readonly sheet: RefitSheet;
  readonly width: number;
}

function Picture({ desk, sheet, width }: PictureProps) {
  const hatch = useId();
  const { picture, axes, shown, spans, mirror } = sheet;
  const line = axes[shown]!;
  const lay = layAlong(sheet, width);
  const draft = desk.draft.value;
  const map = draftMap(sheet, draft);
  const x = (level: number): number => lay.left + (level + (map?.shift(level) ?? 0) - lay.low) * lay.scale;
  const y = (across: number): number => HEAD + (picture.high - across) * lay.scale;
  const names = stretchNames(spans);
  const bands = spans.flatMap((span, k) => {
    const name = names.get(k);
    return name === undefined ? [] : [{ span, k, name, left: x(span.from), right: x(span.to) }];
  });
  const traced = tracedBands(desk, sheet, x);
  const handled = bands.filter(({ span }) => isFree(sheet, span));
  const rows = rowsFor(handled.map(({ left, right }) => ({ from: left - 6, to: right + BEHIND })));
  const [top, foot] = [HEAD, HEAD + lay.height];
  const below = foot + 14;
  const rule = below + (rows.length > 0 ? Math.max(...rows) + 1 : 0) * ROW + 6;
  const height = rule + RULE;
  const long = line.now + (map ? map.shift(Infinity) : 0);
  return (
    <svg
      class="lying"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="group"
      aria-label={`The part ${alongWords(line.axis)}, ${formatNumber(long)} mm long, with ${handled.length} handles`}
    >
      <defs>
        <pattern id={hatch} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V7" class="hatch" />
        </pattern>
      </defs>
      {bands.map(({ span, k, name, left, right }) => (
        <g key={k} class={`band${span.change === null ? '' : ' changed'}`}>
          <rect x={left} y={top - 8} width={Math.max(1, right - left)} height={lay.height + 16} />
          <Letter at={(left + right) / 2} name={name} free={isFree(sheet, span)} />
        </g>
      ))}
      <PartLines sheet={sheet} map={map} lay={lay} y={y} />
      {traced.map(({ left, right, name, isLit }, k) => (
        <g key={k} class={`traced${isLit ? ' lit' : ''}`}>
          <rect
            x={Math.min(left, right - 3)}
            y={top - 8}
            width={Math.max(3, right - left)}
            height={lay.height + 16}
            fill={`url(#${hatch})`}
          />
          {name && (
            <text x={(left + right) / 2} y={top - 12} class="number">
              {name}
            </text>
          )}
        </g>
      ))}
      {mirror !== null && <MirrorLine x={x(mirror)} top={top - 10} foot={foot + 10} />}
      <Marks sheet={sheet} x={x} y={y} scale={lay.scale} />
      {handled.map(({ k, name, left, right }, n) => (
        <StretchLine
          key={k}
          {...{ desk, sheet, index: k, name, left, right, scale: lay.scale }}
          from={foot + 8}
          y={below + rows[n]! * ROW + ROW / 2}
        />
      ))}
      <Rule left={lay.left} long={long} scale={lay.scale} y={rule} />
      {picture.isShadow && (
        <text x={width - 4} y={height - 4} class="small" text-anchor="end">
          outer outline only: many facets
        </text>
      )}
    </svg>
  );
}

/** Letter of a band above it, in a box; dashed where it cannot change. */
function Letter({ at, name, free }: { readonly at: number; readonly name: string; readonly free: boolean }) {
  return (
    <g class={`letter-box${free ? '' : ' stuck'}`}>
      <rect x={at - 11} y={3} width={22} height={20} rx={1} />
      <text x={at} y={18}>
        {name}
      </text>
    </g>
  );
}

function PartLines({
  sheet: { picture },
  map,
  lay,
  y,
}: {
  readonly sheet: RefitSheet;
  readonly map: LevelMap | undefined;
  readonly lay: Lay;
  readonly y: (across: number) => number;
}) {
  const lines = movedLines(picture.lines, map).map(
    ([p, q]) =>
      [
        [lay.left + (p[0] - lay.low) * lay.scale, y(p[1])],
        [lay.left + (q[0] - lay.low) * lay.scale, y(q[1])],
      ] as const,
  );
  return <path class="part" d={pathData(lines)} />;
}

/** Where what leaves a trace is, or would be: of changes that are made, of ways to choose from, and of the one pointed at. */
function tracedBands(
  { lit }: RefitDesk,
  { changes, axes, shown }: RefitSheet,
  x: (level: number) => number,
): readonly { left: number; right: number; name: string; isLit: boolean }[] {
  const { axis } = axes[shown]!;
  const here = (other: readonly number[]): boolean =>
    axis.every((value, k) => Math.abs(value - other[k]!) < 1e-9);
  return changes.flatMap((change, at) => {
    if (!here(change.axis)) return [];
    const pointed = lit.value?.change === at ? change.ways[lit.value.way] : undefined;
    const taken = change.taken === null ? undefined : change.ways[change.taken];
    const made = taken && !taken.exact && !pointed ? change.bands : [];
    const shownBands = pointed ? pointed.bands : made;
    return shownBands.map(({ from, to }) => ({
      ...{ left: x(from), right: x(to), isLit: pointed !== undefined },
      name: pointed ? `${lit.value!.way + 1}` : '',
    }));
  });
}

/** The plane of symmetry: a chain line with two short strokes across each end (ISO 128-3, symmetrical parts). */
function MirrorLine({ x, top, foot }: { readonly x: number; readonly top: number; readonly foot: number }) {
  const ends = [top, foot].flatMap((y, k) => [0, 4].map((d) => `M${x - 5} ${y + (k === 0 ? d : -d)}h10`));
  return (
    <g class="mirror">
      <path class="chain" d={`M${x} ${top - 4}V${foot + 4}`} />
      <path d={ends.join('')} />
    </g>
  );
}

interface MarksProps {
  readonly sheet: RefitSheet;
  readonly x: (level: number) => number;
  readonly y: (across: number) => number;
  readonly scale: number;
}

/** Centre lines of bores and posts, with their names while there is room. */
function Marks({ sheet: { picture }, x, y, scale }: MarksProps) {
  const named = picture.marks.length <= 12;
  return (
    <g class="marks">
      {picture.marks.map(({ id, at, diameter, ends }) => {
        const [cx, cy] = [x(at[0]), y(at[1])];
        const reach = diameter === null ? 0 : (diameter * scale) / 2 + 5;
        return (
          <g key={id}>
            {ends ? (
              <path
                class="chain"
                d={`M${x(ends[0][0])} ${y(ends[0][1])}L${x(ends[1][0])} ${y(ends[1][1])}`}
              />
            ) : (
              <path class="chain" d={`M${cx - reach} ${cy}h${2 * reach}M${cx} ${cy - reach}v${2 * reach}`} />
            )}
            {named && (
              <text x={cx + 4} y={cy - 5}>
                {id}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

function Rule({
  left,
  long,
  scale,
  y,
}: {
  readonly left: number;
  readonly long: number;
  readonly scale: number;
  readonly y: number;
}) {
  const marks = ruleMarks(long, scale);
  const d = marks.map(({ mm, isLong }) => `M${left + mm * scale} ${y}v${isLong ? 11 : 6}`).join('');
  return (
    <g class="rule" aria-hidden="true">
      <path d={`M${left} ${y}h${long * scale}${d}`} />
      {marks
        .filter(({ isLong }) => isLong)
        .map(({ mm }) => (
          <text key={mm} x={left + mm * scale} y={y + 25}>
            {mm}
          </text>
        ))}
      <text x={left + long * scale + 6} y={y + 10} class="unit">
        mm
      </text>
    </g>
  );
}
