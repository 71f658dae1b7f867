import { lettering, letteringWidth } from '../../solid/lettering.ts';
import { block } from '../../solid/primitives.ts';
import { difference } from '../../solid/shape.ts';
import { line, oneOf, size } from '../choice.ts';
import type { Feature } from '../feature.ts';
import { sane } from '../rule.ts';
import type { FaceCell } from './faceCells.ts';

/** A line of text on the outer face of a plate that is printed face down, mm. */
export interface FaceLabel {
  readonly cell: FaceCell;
  readonly text: string;
  /** `sunk` letters are grooves; `raised` ones stand in a sunk field, level with the face: nothing else prints face down. */
  readonly style: string;
  /** Of a capital. */
  readonly letterHeight: number;
  /** Outer face, along z. */
  readonly face: number;
}

/** Smallest capitals that still read when printed, mm. Common practice, no source. */
const SMALLEST = 4;

/** What a family with a label lets choose, set and say: `lettering`, `letterHeight`, `label`. */
export const labelAsks = {
  lettering: oneOf(
    'lettering',
    ['none', 'sunk', 'raised'],
    'none',
    'Sunk letters are grooves; raised ones stand in a sunk field, level with the face',
  ),
  letterHeight: size('letter height', { from: SMALLEST, to: 14, tip: 'Height of a capital' }),
  label: line('label', 24, 'What the letters on the face say'),
};

/** Depth of letters or field, mm: three usual layers. */
export const LABEL_DEPTH = 0.6;
/** Stroke over height: two lines of a usual nozzle at 6 mm, and still room between letters. */
const STROKE = 0.15;
/** Field around raised letters, mm. */
const FIELD = 1.2;

const strokeOf = (height: number): number => STROKE * height;

/** How far letters reach below the line. */
const tailOf = (text: string, height: number): number =>
  /[gjpqy,;_()[\]{}|$Q@]/.test(text) ? height / 3 : 0;

/** Width and height of the field that a line of text wants, without what reaches below the line, mm. */
const fieldOf = (text: string, height: number): readonly [number, number] => [
  letteringWidth(text, height, strokeOf(height)) + 2 * FIELD,
  height + 2 * FIELD,
];

/** Largest capitals, mm, that fit a cell, up to `most`; the smallest allowed when none do.
 *  @example fittingHeight({ x: 0, y: 0, width: 30, height: 12 }, 'LINE', 8) // => 8 */
export function fittingHeight({ width, height }: FaceCell, text: string, most: number): number {
  const tall = (height - 2 * FIELD) / (1 + tailOf(text, 1));
  // Nothing to write has no width.
  const wide = text === '' ? tall : ((width - 2 * FIELD) / (fieldOf(text, 10)[0] - 2 * FIELD)) * 10;
  return Math.max(SMALLEST, Math.floor(10 * Math.min(most, tall, wide)) / 10);
}

/** The label: its cut, and the rule that it fits. Letters reach below the line by a third of their height.
 *  @example faceLabel({ cell, text: 'LINE', style: 'sunk', letterHeight: 6, face: 2 }).holes // => undefined */
export function faceLabel({ cell, text, style, letterHeight: height, face }: FaceLabel): Feature {
  const stroke = strokeOf(height);
  if (text === '') {
    return {
      findings: () => [
        {
          ...{
            id: 'label',
            title: 'letters on the face',
            value: 0,
            limit: 1,
            side: 'above',
            unit: '1',
            missed: 'caution',
          },
          because: 'lettering was chosen but the job says no text, so the face stays plain',
          ...{
            source: 'the job',
            remedy: 'say the text under texts.label, or choose no lettering',
            at: [cell.x, cell.y, face],
          },
        },
      ],
    };
  }
  const tail = tailOf(text, height);
  const [x, y] = fieldOf(text, height).map((size) => size / 2) as [number, number];
  const [wide, tall] = [2 * x, 2 * y + tail];
  const [least, deep] = [fieldOf(text, SMALLEST), tailOf(text, SMALLEST)];
  // To blame is the wish for letters, where the smallest do not fit either.
  const hopeless = least[0] > cell.width || least[1] + deep > cell.height;
  const there = `${Math.max(0, cell.width).toFixed(1)} x ${Math.max(0, cell.height).toFixed(1)} mm of the face are there`;
  return {
    rules: [
      sane(
        wide <= cell.width && tall <= cell.height,
        hopeless ? 'lettering' : 'letterHeight',
        `finds no room for the text: "${text}" in letters of ${height.toFixed(1)} mm wants ${wide.toFixed(1)} x ${tall.toFixed(1)} mm, ${there}`,
      ),
    ],
    cut: () => {
      const letters = (from: number, to: number) =>
        lettering(text, { height, stroke, centre: [cell.x, cell.y + tail / 2], from, to });
      const [floor, out] = [face - LABEL_DEPTH, face + 1];
      return style === 'sunk'
        ? letters(floor, out)
        : difference(
            block([cell.x - x, cell.y - y - tail / 2, floor], [cell.x + x, cell.y + y + tail / 2, out]),
            letters(floor - 1, out + 1),
          );
    },
  };
}
