import type { Jaw } from '../../measure/types.ts';
import type { Vec2 } from '../../solid/vector.ts';
import { clipSegment, decimal, ink, type Segment } from '../drawing/index.ts';

type Points = readonly Readonly<Vec2>[];

/** Paper of a pictogram, mm; y down, as it is drawn by hand into SVG. */
export const pictogramSize = [31, 15] as const;
/** Measuring face of the fixed jaws, and how far the jaws stand open. */
const FACE = 6;
const OPEN = 7;

const fixed = {
  large: [
    [2, 7.2],
    [FACE, 7.2],
    [FACE, 14.2],
    [FACE - 0.9, 14.2],
    [2, 9],
  ],
  small: [
    [FACE, 4.8],
    [FACE, 0.9],
    [FACE + 0.5, 0.9],
    [FACE + 2.2, 4.8],
  ],
} as const satisfies Record<string, Points>;
const sliding = {
  large: [
    [FACE, 7.2],
    [FACE + 4, 7.2],
    [FACE + 4, 9],
    [FACE + 0.9, 14.2],
    [FACE, 14.2],
  ],
  small: [
    [FACE, 4.8],
    [FACE, 0.9],
    [FACE - 0.5, 0.9],
    [FACE - 2.2, 4.8],
  ],
  head: [
    [FACE - 2.2, 4],
    [FACE + 8, 4],
    [FACE + 8, 8],
    [FACE, 8],
    [FACE, 7.2],
    [FACE - 2.2, 7.2],
  ],
} as const satisfies Record<string, Points>;

/** What each setting is called at the bench. */
export const jawName: Readonly<Record<Jaw, string>> = {
  outside: 'large jaws',
  inside: 'small jaws',
  depth: 'depth rod',
  entered: 'no callipers',
};

/** What a mark of a pictogram is, and so how it is drawn: the jaws in use, the rest of the callipers, what is held between
 *  them with its section lines, the scale, a note in place of callipers with its lines. */
export type PictogramMarkKind = 'used' | 'idle' | 'held' | 'hatching' | 'scale' | 'writing';

/** One mark: path data in mm on `pictogramSize`, y down. */
export interface PictogramMark {
  readonly kind: PictogramMarkKind;
  readonly d: string;
}

/** Picture of the callipers with the jaws in use and of what is held between them, as marks in the order they are
 *  drawn. */
export const pictogramMarks = (jaw: Jaw): readonly PictogramMark[] =>
  jaw === 'entered' ? noted : callipers(jaw);

/** The same as SVG for a page on paper, the jaws in use in colour. */
export function calliperPictogram(jaw: Jaw): string {
  const [width, height] = pictogramSize;
  const marks = pictogramMarks(jaw).map(
    ({ kind, d }) =>
      `<path d="${d}" fill="${fill[kind]}" stroke="${kind === 'used' ? ink.accent : ink.ink}" stroke-width="${weight[kind]}"/>`,
  );
  return `<svg class="pictogram" role="img" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" stroke-linejoin="round"><title>${jawName[jaw]}</title>${marks.join('')}</svg>`;
}

const fill: Readonly<Record<PictogramMarkKind, string>> = {
  used: ink.accent,
  idle: '#fff',
  held: 'none',
  hatching: 'none',
  scale: 'none',
  writing: 'none',
};

/** Line widths, mm. */
const weight: Readonly<Record<PictogramMarkKind, number>> = {
  used: 0.25,
  idle: 0.25,
  held: 0.25,
  hatching: 0.13,
  scale: 0.13,
  writing: 0.2,
};

function callipers(jaw: Exclude<Jaw, 'entered'>): PictogramMark[] {
  const shift = (points: Points): Points => points.map(([x, y]) => [x + OPEN, y]);
  const end = jaw === 'depth' ? 21.8 : 29;
  const beam: Points = [
    [2, 4.8],
    [end, 4.8],
    [end, 7.2],
    [2, 7.2],
  ];
  const rod: Points = [
    [end, 5.6],
    [end + OPEN, 5.6],
    [end + OPEN, 6.4],
    [end, 6.4],
  ];
  const [used, idle] = [(points: Points) => shape('used', points), (points: Points) => shape('idle', points)];
  const jaws = (which: 'large' | 'small') =>
    [fixed[which], shift(sliding[which])].map(
      which === { outside: 'large', inside: 'small', depth: '' }[jaw] ? used : idle,
    );
  return [
    ...held(jaw, end),
    idle(beam),
    ...(jaw === 'depth' ? [used(rod)] : []),
    ...jaws('large'),
    ...jaws('small'),
    idle(shift(sliding.head)),
    scaleMarks(end),
  ];
}

/** What is measured, in section: a piece between the large jaws, walls around the small ones, a pocket under the
 *  rod. */
function held(jaw: Exclude<Jaw, 'entered'>, end: number): PictogramMark[] {
  switch (jaw) {
    case 'outside':
      return hatched(
        [[FACE, 9.3, FACE + OPEN, 13.6]],
        [
          [FACE, 9.3],
          [FACE + OPEN, 9.3],
          [FACE + OPEN, 13.6],
          [FACE, 13.6],
        ],
      );
    case 'inside':
      return [
        ...hatched(
          [[FACE - 3.4, 0.5, FACE, 3.2]],
          [
            [FACE - 3.4, 0.5],
            [FACE, 0.5],
            [FACE, 3.2],
            [FACE - 3.4, 3.2],
          ],
        ),
        ...hatched(
          [[FACE + OPEN, 0.5, FACE + OPEN + 3.4, 3.2]],
          [
            [FACE + OPEN, 0.5],
            [FACE + OPEN + 3.4, 0.5],
            [FACE + OPEN + 3.4, 3.2],
            [FACE + OPEN, 3.2],
          ],
        ),
      ];
    case 'depth': {
      const [back, bottom] = [end + OPEN + 2, end + OPEN];
      return hatched(
        [
          [end, 1.6, back, 4.4],
          [bottom, 4.4, back, 7.6],
          [end, 7.6, back, 10.4],
        ],
        [
          [end, 1.6],
          [back, 1.6],
          [back, 10.4],
          [end, 10.4],
          [end, 7.6],
          [bottom, 7.6],
          [bottom, 4.4],
          [end, 4.4],
        ],
      );
    }
  }
}

/** Section lines at 45 degrees (ISO 128-3) in rectangles that together make up the outline. */
function hatched(
  rectangles: readonly (readonly [number, number, number, number])[],
  outline: Points,
): PictogramMark[] {
  const lines: Segment[] = [];
  for (const [x0, y0, x1, y1] of rectangles) {
    for (let c = Math.ceil(x0 + y0); c < x1 + y1; c += 1) {
      const cut = clipSegment(
        [
          [c - y0, y0],
          [c - y1, y1],
        ],
        { min: [x0, y0], max: [x1, y1] },
      );
      if (cut) lines.push(cut);
    }
  }
  const d = lines.map(([p, q]) => `M${point(p)}L${point(q)}`).join('');
  return [shape('held', outline), { kind: 'hatching', d }];
}

function scaleMarks(end: number): PictogramMark {
  let d = '';
  for (let x = FACE + OPEN + 9; x < end - 0.5; x += 1) d += `M${decimal(x)} 7.2v-0.9`;
  return { kind: 'scale', d };
}

const point = ([x, y]: Readonly<Vec2>): string => `${decimal(x)} ${decimal(y)}`;

const shape = (kind: PictogramMarkKind, points: Points): PictogramMark => ({
  kind,
  d: `M${points.map(point).join('L')}Z`,
});

/** A note and a pencil: this one is looked up or chosen. */
const noted: readonly PictogramMark[] = [
  shape('idle', [
    [6, 1.5],
    [17, 1.5],
    [17, 13.5],
    [6, 13.5],
  ]),
  { kind: 'writing', d: 'M7.8 4.4h7.4M7.8 6.8h6M7.8 9.2h4' },
  shape('used', [
    [13.2, 11.4],
    [21.2, 3.4],
    [22.8, 5],
    [14.8, 13],
    [12.6, 13.6],
  ]),
];
