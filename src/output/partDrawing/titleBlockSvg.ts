import type { Vec2 } from '../../solid/vector.ts';
import { fittedText, lineType, lineWidth, type Segment, strokes, text } from '../drawing/index.ts';
import { TITLE_WIDTH } from './paper.ts';
import type { Projection, TitleFields } from './partDrawingInput.ts';
import { projectionSymbol } from './projectionSymbol.ts';

/** Heights of rows from the bottom, mm, and of letters (ISO 3098-1 series). */
const ROW = 10;
const ROWS = 4;
const letters = { label: 2.5, value: 2.5, title: 3.5 } as const;
const RIM = 1.5;
/** Bold letters are wider than plain ones by no more than this. */
const BOLD = 1.15;

export const TITLE_HEIGHT = ROW * ROWS;

interface Cell {
  readonly label: string;
  readonly value: string;
  readonly width: number;
}

/** The title block, its lower right corner at `corner` (ISO 7200:2004: identification, title, owner, kind of document and sheet number; scale and
 *  projection as ISO 5455 and ISO 5456-2 ask). The drawing's number is the hash of its job, and the only date is
 *  that of the calibration, so the same job gives the same sheet. */
export function titleBlockSvg(
  fields: TitleFields,
  {
    scale,
    paper,
    projection,
  }: { readonly scale: string; readonly paper: string; readonly projection: Projection },
  [right, bottom]: Readonly<Vec2>,
): string[] {
  const left = right - TITLE_WIDTH;
  const { calibrated } = fields;
  const rows: readonly (readonly Cell[])[] = [
    [
      { label: 'title', value: fields.title, width: 132 },
      { label: 'kind of sheet', value: 'Part drawing', width: 48 },
    ],
    [
      { label: 'part', value: fields.part, width: 66 },
      { label: 'material', value: fields.material, width: 46 },
      { label: 'quantity', value: String(fields.quantity), width: 20 },
      { label: 'scale', value: scale, width: 18 },
      { label: '', value: '', width: 30 },
    ],
    [
      {
        label: 'drawn for printer',
        value: `${fields.printer}${calibrated === null ? ', not calibrated' : `, calibrated ${calibrated}`}`,
        width: 112,
      },
      { label: 'lengths in', value: 'mm', width: 38 },
      { label: 'projection', value: `${projection} angle`, width: 30 },
    ],
    [
      { label: 'job', value: fields.hash.slice(0, 12), width: 46 },
      { label: 'author', value: fields.author ?? '', width: 46 },
      { label: 'licence', value: fields.licence ?? '', width: 58 },
      { label: `sheet, ${paper}`, value: `${fields.sheet[0]} of ${fields.sheet[1]}`, width: 30 },
    ],
  ];
  const rules: Segment[] = [];
  const out: string[] = [];
  rows.forEach((row, k) => {
    const top = bottom + TITLE_HEIGHT - k * ROW;
    if (k > 0)
      rules.push([
        [left, top],
        [right, top],
      ]);
    let x = left;
    row.forEach(({ label, value, width }, n) => {
      if (n > 0)
        rules.push([
          [x, top],
          [x, top - ROW],
        ]);
      out.push(...cell({ label, value, width }, [x, top], k === 0 && n === 0));
      x += width;
    });
  });
  return [
    strokes(rules, lineType.dimensionLine, 'dimension'),
    strokes(
      [
        [
          [left, bottom],
          [left, bottom + TITLE_HEIGHT],
          [right, bottom + TITLE_HEIGHT],
        ],
      ],
      { width: lineWidth.wide, dashes: [] },
      'part',
    ),
    ...projectionSymbol(projection, [right - 15, bottom + 2.5 * ROW]),
    ...out,
  ];
}

function cell({ label, value, width }: Cell, [x, top]: Vec2, isTitle: boolean): string[] {
  const room = width - 2 * RIM;
  // A long title takes smaller letters before it loses any.
  const height =
    isTitle && fittedText(value, letters.title * BOLD, room) === value ? letters.title : letters.value;
  return [
    ...(label === ''
      ? []
      : [text([x + RIM, top - 2.6], label, { height: letters.label, mark: 'label', anchor: 'start' })]),
    ...(value === ''
      ? []
      : [
          text([x + RIM, top - 7.1], fittedText(value, height * BOLD, room), {
            ...{ height, anchor: 'start' },
            mark: 'number',
          }),
        ]),
  ];
}
