import { madeFiles } from '../../../src/cli/madeFiles.ts';
import { looksOf } from '../../../src/cli/terminal.ts';
import { verdict } from '../../../src/cli/verdict.ts';
import type { MadeKind } from '../../../src/job/madeFile.ts';
import { make } from '../../../src/job/make.ts';
import type { Prepared } from '../../../src/job/prepare.ts';
import { Refused, sentence } from '../../../src/job/problem.ts';
import { refusingRefit } from '../../../src/job/refusingRefit.ts';
import { loadKernel } from '../../../src/solid/kernel.ts';
import { mustBePlainRefusal } from '../checks/plainRefusal.ts';
import { mustBeInNumbers } from '../checks/slips.ts';
import { mustBeSoundFiles } from '../checks/soundFiles.ts';
import { stlCorners, volumeOf } from '../checks/soundSolid.ts';
import type { Outcome } from '../kind.ts';

const kernel = await loadKernel();

/** What the volume of the STL may differ by from what is said of the print, share: its corners are rounded to 32 bits. */
const ROUNDING = 1e-4;

interface Wanted {
  readonly ascii: boolean;
  readonly with: readonly Exclude<MadeKind, 'stl'>[];
  /** The part is drawn by the project alone, so nothing excuses a fault of its mesh. */
  readonly ours: boolean;
}

/** Makes a job without a folder and looks over all that comes of it: result, verdict, models, report, drawing. */
export function madeInMemory(read: () => Prepared, { ascii, with: others, ours }: Wanted): Outcome {
  try {
    const prepared = read();
    const result = ours ? make(kernel, prepared) : refusingRefit(() => make(kernel, prepared));
    const { parts, ...rest } = result;
    mustBeInNumbers(rest);
    mustBeInNumbers(parts.map(({ print }) => print));
    const unsound = result.findings.filter(
      ({ id, verdict: found }) => /(^|\.)sound$/.test(id) && found !== 'holds',
    );
    if (ours && unsound.length > 0) throw new Error(unsound.map(({ because }) => because).join('; '));

    const { files } = madeFiles(
      { kernel, prepared, result },
      { base: 'part', out: 'out', ascii, with: others },
    );
    const said = verdict(result, [], looksOf(process.stdout)).join('\n');
    const named = new Map(files.map(({ name, bytes }) => [name, bytes] as const));
    mustBeSoundFiles({ files: named, said }, { whole: ours });
    const volume = files
      .filter(({ name }) => name.endsWith('.stl'))
      .reduce((sum, { bytes }) => sum + volumeOf(stlCorners(bytes)), 0);
    if (Math.abs(volume - result.print.volume) > ROUNDING * volume + 1e-3)
      throw new Error(`the STL encloses ${volume} mm3, the result says ${result.print.volume}`);
    return {
      made: result.findings.some(({ verdict: found }) => found === 'fails')
        ? 'made, a finding fails'
        : 'made',
    };
  } catch (error) {
    return refusedOf(error);
  }
}

/** A refusal that names what is to blame, as an outcome; anything else is thrown on. */
export function refusedOf(error: unknown, file = 'any.job.json'): Outcome {
  if (!(error instanceof Refused)) throw error;
  mustBePlainRefusal(file, error.problems, (problem) => sentence(file, problem));
  return { refused: error.problems.map(({ code }) => code) };
}
