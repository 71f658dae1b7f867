import { useEffect, useId, useRef, useState } from 'preact/hooks';
import type { RefitSheet, ShownSpan } from '../../src/job/refitSheet.ts';
import { formatNumber } from '../../src/units/index.ts';
import { FeatureMarks } from './FeatureMarks.tsx';
import { Letter } from './Letter.tsx';
import { behindFor, draftMap, layAlong, rowsFor } from './layAlong.ts';
import { MirrorLine } from './MirrorLine.tsx';
import { PartLines } from './PartLines.tsx';
import { Rule } from './Rule.tsx';
import { isFree, type RefitDesk } from './refitDesk.ts';
import { StretchLine } from './StretchLine.tsx';
import { tracedBands } from './tracedBands.ts';
import { alongWords, stretchNames } from './words.ts';

/** Pixels: above the part for letters, a row of dimension lines, the rule with its numbers. */
const [LETTER, ROW, RULE] = [24, 46, 40];
/** Below this width fewer stretches have a letter, pixels. */
const NARROW = 460;

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
  const draft = desk.draft.value;
  const map = draftMap(sheet, draft);
  const long = line.now + (map ? map.shift(Infinity) : 0);
  const lay = layAlong(sheet, width, long);
  // A hand pulls at the scale it began with: at one that shrinks with every pixel the part would run away from it.
  const pulled = layAlong(sheet, width).scale;
  const x = (level: number): number => lay.left + (level + (map?.shift(level) ?? 0) - lay.low) * lay.scale;
  const narrow = width < NARROW;
  const names = stretchNames(spans, narrow ? 5 : 8);
  const bands = spans.flatMap((span, k) => {
    const name = names.get(k);
    return name === undefined ? [] : [{ span, k, name, left: x(span.from), right: x(span.to) }];
  });
  const letters = rowsFor(
    bands.map(({ left, right }) => ({ from: (left + right) / 2 - 12, to: (left + right) / 2 + 13 })),
  );
  const head = (Math.max(0, ...letters) + 1) * LETTER + 12;
  const y = (across: number): number => head + (picture.high - across) * lay.scale;
  const traced = tracedBands(sheet, desk.lit.value).map(({ from, to, way }) => ({
    ...{ left: x(from), right: x(to), way },
  }));
  // On a phone a mirror image needs no handle of its own.
  const handled = bands.filter(
    ({ span, k }) => isFree(sheet, span) && !(narrow && span.partner !== null && span.partner < k),
  );
  const rows = rowsFor(
    handled.map(({ left, right }) => ({ from: left - 6, to: right + behindFor(line.now) })),
  );
  const [top, foot] = [head, head + lay.height];
  const below = foot + 14;
  const lineAt = (n: number): number => below + rows[n]! * ROW + ROW / 2;
  const rule = below + (rows.length > 0 ? Math.max(...rows) + 1 : 0) * ROW + 6;
  const height = rule + RULE;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no form
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
      {bands.map(({ span, k, left, right }, n) => (
        <g key={k} class={bandClass(span, n)}>
          <rect x={left} y={top - 8} width={Math.max(1, right - left)} height={lay.height + 16} />
          {span.distorts.length > 0 && (
            <rect
              x={left}
              y={top - 8}
              width={Math.max(1, right - left)}
              height={lay.height + 16}
              fill={`url(#${hatch})`}
              class="hatched"
            />
          )}
        </g>
      ))}
      {bands.map(({ span, k, name, left, right }, n) => (
        <Letter
          key={k}
          at={(left + right) / 2}
          y={3 + letters[n]! * LETTER}
          name={name}
          free={isFree(sheet, span)}
        />
      ))}
      <PartLines sheet={sheet} map={map} lay={lay} y={y} />
      {traced.map(({ left, right, way }, k) => (
        <g key={k} class={`traced${way === null ? '' : ' lit'}`}>
          <rect
            x={Math.min(left, right - 3)}
            y={top - 8}
            width={Math.max(3, right - left)}
            height={lay.height + 16}
            fill={`url(#${hatch})`}
          />
          {way !== null && (
            <text x={(left + right) / 2} y={18} class="number">
              {way}
            </text>
          )}
        </g>
      ))}
      {mirror !== null && <MirrorLine x={x(mirror)} top={top - 10} foot={foot + 10} />}
      <FeatureMarks sheet={sheet} x={x} y={y} scale={lay.scale} />
      {/* First, so that no figure has a line over it. */}
      <path
        class="thin"
        d={handled
          .map(
            ({ left, right }, n) =>
              `M${left} ${foot + 8}V${lineAt(n) + 5}M${right} ${foot + 8}V${lineAt(n) + 5}`,
          )
          .join('')}
      />
      {handled.map(({ k, name, left, right }, n) => (
        <StretchLine key={k} {...{ desk, sheet, index: k, name, left, right, scale: pulled }} y={lineAt(n)} />
      ))}
      <Rule left={lay.left} low={lay.low} long={long} scale={lay.scale} y={rule} />
      {picture.isShadow && (
        <text x={width - 4} y={height - 4} class="small" text-anchor="end">
          outer outline only: many facets
        </text>
      )}
    </svg>
  );
}

/** By turns of two tints, the same as on the part in the round. */
const bandClass = ({ change, distorts }: ShownSpan, n: number): string =>
  [
    'band',
    ...(n % 2 === 0 ? [] : ['second']),
    ...(change === null ? [] : ['changed']),
    ...(distorts.length > 0 ? ['spoils'] : []),
  ].join(' ');
