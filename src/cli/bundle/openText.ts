import { type Problem, sentence } from '../../job/problem.ts';
import type { LeftOut } from '../../job/takenOver.ts';
import type { Manifest } from '../../output/bundle/index.ts';
import { day, percent } from '../../output/words/index.ts';
import { oneLine } from '../oneLine.ts';
import { type Looks, wrapped } from '../terminal.ts';

/** A chance and the printer it is about. */
export interface Stated {
  readonly printer: string;
  readonly calibrated: string | null;
  readonly chance: number | null;
}

/** What becomes of the job as it lies there now, or what it lacks. */
export type Now = Stated | { readonly problems: readonly Problem[] };

interface Opened {
  readonly manifest: Manifest;
  /** As the bundle says. */
  readonly there: Stated | undefined;
  /** Undefined where readings are still to be taken. */
  readonly now: Now | undefined;
  readonly without: readonly LeftOut[];
  /** Whether a profile was brought from elsewhere. */
  readonly copied: boolean;
  /** Paths written. */
  readonly paths: readonly string[];
  readonly job: string;
  readonly out: string;
}

const leftOut: Readonly<Record<LeftOut, string>> = {
  ladders: 'the ladders, felt on another printer, are left out',
  trials: 'the trials, of another print on another machine, are left out',
  readings: 'the readings, of another machine, are left out; measure yours',
  callipers:
    'the readings were taken with another pair of callipers than your coupon, and the job says so now',
};

/** What came out of a bundle, for the person who opened it. What the bundle says of itself may be anything. */
export function openText(
  { manifest, there, now, without, copied, paths, job, out }: Opened,
  { paint, width }: Looks,
): readonly string[] {
  const { title, author, licence } = manifest;
  const by = [author ?? 'nobody named', licence ?? 'no licence stated'].join(', ');
  const thereText = there && statedText(there);
  const nowText = now === undefined || 'problems' in now ? undefined : statedText(now);
  return [
    paint.bold(oneLine(title)),
    ...lines('by', oneLine(by), width),
    ...(thereText === undefined ? [] : lines('drawn for', thereText, width)),
    ...(nowText === undefined || nowText === thereText ? [] : lines('now for', nowText, width)),
    ...[
      ...without.map((what) => leftOut[what]),
      ...(copied ? ['your profile there is a copy; what the printer learns from now on stays in it'] : []),
    ].flatMap((text, k) => lines(k === 0 ? 'mind' : '', text, width)),
    ...paths.map((path) => `  wrote ${oneLine(path)}`),
    ...(now !== undefined && 'problems' in now
      ? now.problems.flatMap((problem) => lines('lacks', oneLine(sentence(job, problem)), width))
      : []),
    now === undefined
      ? `next: fettle measure ${job}`
      : `next: fettle make ${job} --out ${out === '.' ? 'out' : `${out}/out`}`,
  ];
}

const statedText = ({ printer, calibrated, chance }: Stated): string =>
  oneLine(
    [
      /calibrated/.test(printer)
        ? printer
        : `${printer} (${calibrated === null ? 'not calibrated' : `calibrated ${day(calibrated)}`})`,
      ...(chance === null ? [] : [`fits first time ${percent(chance)}`]),
    ].join(', '),
  );

function lines(name: string, text: string, width: number): readonly string[] {
  const lead = `  ${name.padEnd(9)}  `;
  return wrapped(text, width - lead.length).map(
    (line, k) => (k === 0 ? lead : ' '.repeat(lead.length)) + line,
  );
}
