import { lettering, letteringWidth } from '../../solid/lettering.ts';
import { block } from '../../solid/primitives.ts';
import { difference } from '../../solid/shape.ts';
import { line, oneOf, size } from '../choice.ts';
import { sane } from '../family.ts';
import type { Feature } from '../feature.ts';
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

/** What a family with a label lets choose, set and say: `lettering`, `letterHeight`, `label`. */
export const labelAsks = {
  lettering: oneOf(
    'lettering',
    ['none', 'sunk', 'raised'],
    'none',
    'Sunk letters are grooves; raised ones stand in a sunk field, level with the face',
  ),
  letterHeight: size('letter height', { from: 4, to: 14, tip: 'Height of a capital' }),
  label: line('label', 24, 'What the letters on the face say'),
};

/** Depth of letters or field, mm: three usual layers. */
export const LABEL_DEPTH = 0.6;
/** Stroke over height: two lines of a usual nozzle at 6 mm, and still room between letters. */
const STROKE = 0.15;
/** Field around raised letters, mm. */
const FIELD = 1.2;

const strokeOf = (height: number): number => STROKE * height;

/** Largest capitals, mm, between `least` and `most`, at which a text fits a cell; `least` when none does.
 *  @example fittingHeight({ x: 0, y: 0, width: 30, height: 12 }, 'LINE', 4.5, 8) // => 7.2 */
export function fittingHeight(
  { width, height }: FaceCell,
  text: string,
  least: number,
  most: number,
): number {
  const tall = Math.min(most, (height - 2 * FIELD) / 1.35);
  const wide = text === '' ? tall : ((width - 2 * FIELD) / letteringWidth(text, 10, strokeOf(10))) * 10;
  return Math.max(least, Math.floor(10 * Math.min(tall, wide)) / 10);
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
  const width = letteringWidth(text, height, stroke);
  const [x, y] = [width / 2 + FIELD, height / 2 + FIELD];
  const tail = /[gjpqy,;_()[\]{}|$Q@]/.test(text) ? height / 3 : 0;
  return {
    rules: [
      sane(
        2 * x <= cell.width && 2 * y + tail <= cell.height,
        'letterHeight',
        `is too much for the text on this face: "${text}" wants ${(2 * x).toFixed(1)} x ${(2 * y + tail).toFixed(1)} mm, ${Math.max(0, cell.width).toFixed(1)} x ${Math.max(0, cell.height).toFixed(1)} mm are there`,
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
