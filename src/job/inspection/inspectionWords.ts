import { day } from '../../output/words/index.ts';
import type { Parameter } from '../../printer/types.ts';
import { formatNumber } from '../../units/index.ts';
import { decisionRule } from './decision.ts';
import type { InspectedSize, Inspection } from './inspection.ts';
import type { Drift } from './printDrift.ts';
import type { NoRework, Rework } from './rework.ts';

/** What to do about one size, in the words of a bench; empty where nothing is. No full stop.
 *  @example todoFor(post that is 0.09 too wide) // => 'file 0.09 off in all, 0.05 a side, with a flat file, and read it again' */
export function todoFor(size: InspectedSize): string {
  const { verdict, clearance, rework, noRework, stale } = size;
  if (stale) return 'filed or drilled since it was read: read it again';
  if (size.cause === 'reading' && verdict !== 'pass')
    return 'read it again before anything else, the readings do not agree';
  const again =
    verdict !== 'close' && clearance.inside > decisionRule.readAgain
      ? `; it may still fit (${Math.round(100 * clearance.inside)} %), so read it again first`
      : '';
  if (verdict === 'rework') return `${reworkText(rework!)}${again}`;
  if (verdict === 'reprint') return `make it again: ${noReworkText[noRework!](size)}${again}`;
  if (verdict === 'close') return `${closeTo(size)}; ${closerLook(size)}`;
  return '';
}

function reworkText({ tool, off, aSide, faces, drill }: Rework): string {
  if (tool === 'drill') return `open it by hand with a drill of ${drill!.toFixed(1)} mm, and read it again`;
  const how = tool === 'abrasive strip' ? 'an abrasive strip, evenly all round' : `a ${tool}`;
  const sides = faces === 2 ? ` in all, ${formatNumber(aSide)} a side,` : ' one end';
  return `take ${formatNumber(off)} mm off${sides} with ${how}, and read it again`;
}

const noReworkText: Readonly<Record<NoRework, (size: InspectedSize) => string>> = {
  'too-small': ({ kind }) =>
    kind === 'step'
      ? 'it is too short, and plastic only comes off'
      : kind === 'post' || kind === 'rib'
        ? 'it is too thin, and plastic only comes off'
        : 'it is too wide, and plastic only comes off',
  'too-much': () => 'so much off would go through the outermost line of plastic',
  'no-drill': () => 'no usual drill gives a hole that fits',
  'slot-too-narrow': () => 'no flat file goes into a slot this narrow',
  'round-ends': () => 'a flat file spoils its round ends',
  centres: () => 'a distance between two features cannot be filed',
  'window-too-narrow': () => 'its window is narrower than a hand files to',
};

/** Where a size that passes, but not surely, lies. */
function closeTo({ kind, clearance: { below, above } }: InspectedSize): string {
  const ends = kind === 'step' ? ['short', 'long'] : ['tight', 'loose'];
  const [end, risk] = below >= above ? [ends[0], below] : [ends[1], above];
  return `near its ${end} end, ${Math.round(100 * risk)} % that it is too ${end}`;
}

/** What would tell more, by where the doubt comes from. */
function closerLook({ clearance: { shares } }: InspectedSize): string {
  const [first] = shares.filter(({ id }) => id.startsWith('reading:'));
  const most = first !== undefined && first.share >= WORTH_READING;
  return most ? `read the ${first.label} again, or try it gently` : 'try it gently';
}

/** Readings are worth repeating when they are at least this much of the doubt. Common practice, no source. */
const WORTH_READING = 0.2;

/** Which reading of the print or the machine would tell most, for the next command; undefined where none would. */
export function readingWorth({
  clearance: { shares },
}: InspectedSize): { of: 'print' | 'machine'; id: string } | undefined {
  const [first] = shares.filter(({ id }) => id.startsWith('reading:'));
  if (first === undefined || first.share < WORTH_READING) return undefined;
  const id = first.id.replace(/^reading:/, '');
  return id.startsWith('print.') ? { of: 'print', id: id.slice('print.'.length) } : { of: 'machine', id };
}

/** Why a size came out as it did, one sentence without full stop; empty where it is as expected and passes. */
export function whyOf(size: InspectedSize, drift: Drift | undefined): string {
  const { deviation, verdict, print, expected, cause } = size;
  const off = `${formatNumber(Math.abs(deviation.value))} mm ${deviation.value > 0 ? 'larger' : 'smaller'} than expected off the printer (${formatNumber(expected)})`;
  // What passes is left alone, unless somebody should look again.
  if (verdict === 'pass' && cause !== 'reading' && cause !== 'alone') return '';
  switch (cause) {
    case 'reading':
      return print.remarks[0]!.sentence;
    case 'drift':
      return `${off}, which ${drift?.parameter === 'zero' ? 'the callipers explain' : 'the printer explains'}`;
    case 'alone':
      return `${off}, which scatter hardly does while nothing else is off: a string, a seam, a blob or a slip in reading; clean it and read it again`;
    case 'machine':
      return `the print is as drawn; the size of the machine in the job, or the fit, is not what it was when this was drawn, so one of the readings of the machine is wrong`;
    case 'scatter':
      return `${off}, more than it usually scatters, and by itself no sign of anything`;
    default:
      return 'within what prints of this printer scatter by';
  }
}

/** What explains several sizes at once, one sentence; undefined where nothing does.
 *  @example driftText({ parameter: 'outerGrowth', was: 0.055, now: 0.1, ... }) // => 'outer faces stand 0.045 mm a side further out than ...' */
export function driftText({ sizes, drift }: Inspection): string | undefined {
  if (drift === undefined) return undefined;
  const { parameter, was, now, u } = drift;
  const names = sizes.filter(({ id }) => drift.explains.includes(id)).map(({ name }) => name);
  const one = `one thing explains ${[names.slice(0, -1).join(', '), names.at(-1)].filter(Boolean).join(' and ')}`;
  const by = formatNumber(Math.abs(now - was), u);
  if (parameter === 'zero')
    return `${one}: every size reads ${by} mm ${now > 0 ? 'large' : 'small'}; wipe the jaws, close them, and see whether the callipers show zero`;
  const [more, less, unit] = drifted[parameter];
  return `${one}: ${now > was ? more : less} by ${shownBy(parameter, now - was)}${unit} than its profile says; a trial teaches it, a coupon tells for sure`;
}

/** What the printer does when a number of its profile is larger, and when it is smaller, than it says. */
const drifted: Readonly<Record<Parameter, readonly [string, string, string]>> = {
  'scale.x': ['the printer shrinks less along x', 'the printer shrinks more along x', ' %'],
  'scale.y': ['the printer shrinks less along y', 'the printer shrinks more along y', ' %'],
  'scale.z': ['the printer shrinks less in height', 'the printer shrinks more in height', ' %'],
  outerGrowth: ['outer faces stand further out', 'outer faces stand less far out', ' mm a side'],
  boreShrink: ['bores and slots close in more', 'bores and slots close in less', ' mm a side'],
  boreCurvature: ['small bores close in more', 'small bores close in less', ' mm2 / bore'],
  firstLayerSpread: ['the first layer spreads more', 'the first layer spreads less', ' mm a side'],
  firstLayerError: ['the first layer is thicker', 'the first layer is thinner', ' mm'],
  levelSag: ['level roofs sag more', 'level roofs sag less', ' mm'],
  skew: ['y leans further towards x', 'y leans less towards x', ' %'],
};

const shownBy = (parameter: Parameter, change: number): string => {
  const percent = parameter.startsWith('scale') || parameter === 'skew';
  return formatNumber(Math.abs(percent ? 100 * change : change), percent ? 0.01 : 0.001);
};

/** Which print this is: "print of 3 Dec 2026". */
export const printName = ({ date }: { readonly date: string }): string => `print of ${day(date)}`;
