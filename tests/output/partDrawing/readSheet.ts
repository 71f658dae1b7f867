import { XMLParser, XMLValidator } from 'fast-xml-parser';

/** What an independent reader makes of a sheet: marks in mm on the paper, y up, origin at its lower left corner. */
export interface ReadSheet {
  /** mm, as a printer takes them. */
  readonly paper: readonly [number, number];
  readonly views: readonly ReadView[];
  readonly lines: readonly ReadLine[];
  readonly texts: readonly ReadText[];
}

export interface ReadView {
  readonly from: string;
  readonly scale: number;
  /** Where the origin of the part falls. */
  readonly at: Point;
  /** mm at 1:1 from that origin. */
  readonly visible: readonly Line[];
  readonly hidden: readonly Line[];
}

export type Point = readonly [number, number];
export type Line = readonly [Point, Point];
export interface ReadLine {
  readonly mark: string;
  readonly line: Line;
  /** Of the size it belongs to; empty for others. */
  readonly size: string;
  readonly width: number;
  readonly dashes: string;
}
export interface ReadText {
  readonly words: string;
  readonly size: string;
  /** Of a capital, mm. */
  readonly height: number;
  /** Start of the line of writing, and its direction; `anchor` says which point of the text it is. */
  readonly at: Point;
  readonly along: Point;
  readonly anchor: string;
}

type Node = Readonly<Record<string, unknown>> & { readonly ':@'?: Readonly<Record<string, string>> };
/** p' = (a x + c y + e, b x + d y + f), the matrix of SVG. */
type Matrix = readonly [number, number, number, number, number, number];

const after = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
];

function matrixOf(transform = ''): Matrix {
  let total: Matrix = [1, 0, 0, 1, 0, 0];
  for (const [, kind, numbers] of transform.matchAll(/(\w+)\(([^)]*)\)/g)) {
    const [x = 0, y = 0] = numbers!.split(/[\s,]+/).map(Number);
    const [c, s] = [Math.cos((x * Math.PI) / 180), Math.sin((x * Math.PI) / 180)];
    if (kind !== 'translate' && kind !== 'rotate')
      throw new RangeError(`readSheet knows no transform ${kind}`);
    total = after(total, kind === 'translate' ? [1, 0, 0, 1, x, y] : [c, s, -s, c, 0, 0]);
  }
  return total;
}

/** Reads an SVG sheet. Throws when it is no well-formed XML, or has marks that a sheet should not have. */
export function readSheet(svg: string): ReadSheet {
  const valid = XMLValidator.validate(svg);
  if (valid !== true) throw new SyntaxError(`not well-formed: ${valid.err.msg} in line ${valid.err.line}`);
  const parser = new XMLParser({
    preserveOrder: true,
    ignoreAttributes: false,
    attributeNamePrefix: '',
    trimValues: false,
  });
  const [root] = parser.parse(svg) as [Node];
  const attributes = root[':@']!;
  const box = attributes.viewBox!.split(' ').map(Number);
  const paper = [Number.parseFloat(attributes.width!), Number.parseFloat(attributes.height!)] as const;
  if (!attributes.width!.endsWith('mm') || paper[0] !== box[2] || paper[1] !== box[3])
    throw new RangeError('readSheet requires a sheet whose unit is the millimetre');
  const lines: ReadLine[] = [];
  const texts: ReadText[] = [];
  const views: { from: string; scale: number; at: Point; visible: Line[]; hidden: Line[] }[] = [];
  const onPaper = (m: Matrix, [x, y]: Point): Point => [
    m[0] * x + m[2] * y + m[4] - box[0]!,
    box[1]! + box[3]! - (m[1] * x + m[3] * y + m[5]),
  ];

  const walk = (node: Node, outer: Matrix, size: string, view: (typeof views)[number] | null): void => {
    const [name] = Object.keys(node).filter((key) => key !== ':@');
    const told = node[':@'] ?? {};
    const m = after(outer, matrixOf(told.transform));
    const inner = node[name!] as readonly Node[];
    if (name === 'g') {
      let own = view;
      if (told.class === 'view') {
        const [paperSide, part] = told['data-scale']!.split(':').map(Number);
        own = {
          from: told['data-from']!,
          scale: paperSide! / part!,
          at: onPaper(m, [0, 0]),
          visible: [],
          hidden: [],
        };
        views.push(own);
      }
      for (const child of inner) walk(child, m, told['data-size'] ?? size, own);
    } else if (name === 'path' && told.fill === 'none') {
      for (const line of linesOf(told.d!)) {
        const placed = line.map((p) => onPaper(m, p)) as unknown as Line;
        lines.push({
          mark: told.class ?? '',
          line: placed,
          size,
          width: Number(told['stroke-width']),
          dashes: told['stroke-dasharray'] ?? '',
        });
        if (!view || (told.class !== 'part' && told.class !== 'hidden')) continue;
        const { at, scale } = view;
        const real = placed.map(([x, y]) => [(x - at[0]) / scale, (y - at[1]) / scale]) as unknown as Line;
        (told.class === 'part' ? view.visible : view.hidden).push(real);
      }
    } else if (name === 'text') {
      const at = onPaper(m, [Number(told.x), Number(told.y)]);
      const next = onPaper(m, [Number(told.x) + 1, Number(told.y)]);
      texts.push({
        words: inner.map((child) => String(child['#text'] ?? '')).join(''),
        size,
        height: Number(told['font-size']) * 0.72,
        at,
        along: [next[0] - at[0], next[1] - at[1]],
        anchor: told['text-anchor']!,
      });
    }
  };
  for (const child of root.svg as readonly Node[]) walk(child, [1, 0, 0, 1, 0, 0], '', null);
  return { paper, views, lines, texts };
}

/** Straight lines of a path of M, L, H, V, v and Z. */
function linesOf(d: string): Line[] {
  const out: Line[] = [];
  let [start, at]: [Point, Point] = [
    [0, 0],
    [0, 0],
  ];
  for (const [, command, rest] of d.matchAll(/([MLHVvZ])([^MLHVvZ]*)/g)) {
    const numbers =
      rest!.trim() === ''
        ? []
        : rest!
            .trim()
            .split(/[\s,]+/)
            .map(Number);
    const [x = 0, y = 0] = numbers;
    const to: Point =
      command === 'Z'
        ? start
        : command === 'H'
          ? [x, at[1]]
          : command === 'V'
            ? [at[0], x]
            : command === 'v'
              ? [at[0], at[1] + x]
              : [x, y];
    if (command === 'M') start = to;
    else out.push([at, to]);
    at = to;
  }
  return out;
}
