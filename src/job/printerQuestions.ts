import { defaultPrinter } from '../printer/defaultPrinter.ts';
import { findMaterial, materialNames } from '../standards/materials.ts';
import { parseLength } from '../units/index.ts';
import { allowedNames } from './nearest.ts';

/** An answer understood, or why it is none. */
export type Answer<T> = { readonly value: T } | { readonly reason: string; readonly allowed: string };

/** One thing to know of a printer that nobody has measured. */
export interface Question<T> {
  /** The option that answers it: `--line-width`. */
  readonly option: string;
  readonly ask: string;
  readonly hint: string;
  /** What Enter alone means. */
  readonly usual: string;
  readonly read: (text: string) => Answer<T>;
}

/** Answers a profile starts with. Lengths in mm. */
export interface Told {
  readonly name: string;
  readonly bed: { readonly x: number; readonly y: number; readonly z: number };
  readonly lineWidth: number;
  readonly layer: number;
  readonly firstLayer: number;
  readonly material: string;
}

const length =
  (from: number, to: number) =>
  (text: string): Answer<number> => {
    const allowed = `${from} to ${to} mm`;
    const parsed = parseLength(text, 'mm');
    if (!parsed.ok) return { reason: parsed.reason, allowed };
    return parsed.mm >= from && parsed.mm <= to
      ? { value: parsed.mm }
      : { reason: 'is out of range', allowed };
  };

/** Three lengths with a cross, a star or blanks between: 220 x 220 x 250. */
function bed(text: string): Answer<Told['bed']> {
  const allowed = 'three lengths from 20 to 2000 mm, such as 220 x 220 x 250';
  const sides = text
    .trim()
    .split(/\s*[x×*]\s*|\s+(?!mm|in)/i)
    .map(length(20, 2000));
  const [x, y, z, ...more] = sides.map((side) => ('value' in side ? side.value : undefined));
  if (sides.length !== 3 || more.length > 0) return { reason: 'is not three lengths', allowed };
  if (x === undefined || y === undefined || z === undefined)
    return { reason: 'holds a length that is none or out of range', allowed };
  return { value: { x, y, z } };
}

function material(text: string): Answer<string> {
  const found = findMaterial(text.trim());
  return found
    ? { value: found.name }
    : { reason: 'is no material', allowed: allowedNames(text.trim(), materialNames) };
}

function name(text: string): Answer<string> {
  const value = text.trim();
  return value.length >= 1 && value.length <= 80
    ? { value }
    : { reason: 'is no name', allowed: '1 to 80 characters' };
}

const plain = ({ x, y, z }: Told['bed']): string => `${x} x ${y} x ${z}`;

/** The few questions, in order. Ranges are those of the profile. */
export const questions: { readonly [K in keyof Told]: Question<Told[K]> } = {
  name: {
    option: '--name',
    ask: 'name',
    hint: 'what you call the printer',
    usual: 'printer 1',
    read: name,
  },
  bed: {
    option: '--bed',
    ask: 'bed',
    hint: 'largest part it takes: left to right, front to back, height',
    usual: plain(defaultPrinter.bed),
    read: bed,
  },
  lineWidth: {
    option: '--line-width',
    ask: 'line width',
    hint: 'width of an extruded line, about the bore of the nozzle and a tenth more',
    usual: String(defaultPrinter.lineWidth),
    read: length(0.1, 2),
  },
  layer: {
    option: '--layer',
    ask: 'layer',
    hint: 'layer height you print such parts with',
    usual: String(defaultPrinter.layer),
    read: length(0.04, 1),
  },
  firstLayer: {
    option: '--first-layer',
    ask: 'first layer',
    hint: 'height of the first layer',
    usual: String(defaultPrinter.firstLayer),
    read: length(0.04, 1),
  },
  material: {
    option: '--material',
    ask: 'material',
    hint: `filament the profile is for: ${materialNames.join(', ')}`,
    usual: 'PLA',
    read: material,
  },
};
