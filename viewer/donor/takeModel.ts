import { nameFault } from '../../src/archive/nameFault.ts';
import { donorJob } from '../../src/job/donorJob.ts';
import { LARGEST_MODEL } from '../../src/job/largestModel.ts';
import { type Problem, sentence } from '../../src/job/problem.ts';
import type { Drawer } from '../drawer/drawer.ts';
import { nothingDone } from './modelsHere.ts';
import { lookingAt, modelWanted } from './modelWanted.ts';

/** Takes a model that was dropped or chosen: the one that the job on the bench lacks, or else a new job refits it. One that
 *  cannot be used is told of, and nothing changes. */
export async function takeModel(drawer: Drawer, given: string, bytes: Uint8Array): Promise<void> {
  const { bench } = drawer;
  const name = plainName(given);
  const refuse = (problems: readonly Problem[]): void => {
    drawer.told.value = { kind: 'refused', lines: problems.map((problem) => sentence(name, problem)) };
  };
  if (bytes.length > LARGEST_MODEL) {
    const [value, most] = [bytes.length, LARGEST_MODEL].map((size) => `${Math.round(size / 2 ** 20)} MiB`);
    refuse([{ code: 'file_too_large', field: '', value: value!, allowed: `a model of at most ${most}` }]);
    return;
  }
  const wanted = modelWanted(bench);
  drawer.told.value = null;
  lookingAt.value = name;
  try {
    const found = await bench.spine.ask('the model', (spine) => spine.lookAtModel(name, bytes));
    if ('kind' in found) refuse(found.problems);
    else if (wanted !== null && modelWanted(bench) === wanted) {
      await drawer.keepModel(wanted, bytes);
      // What was refused for want of it is worked again.
      bench.spine.restart();
      drawer.told.value = { kind: 'done', lines: [`${name} is the model of this job now`] };
    } else {
      const { bores, posts } = found;
      await drawer.addRefit(donorJob({ file: name, bores, posts }), { name, bytes });
      drawer.isOut.value = false;
    }
  } catch {
    // That the reckoning broke or was stopped is said elsewhere.
    drawer.told.value = { kind: 'refused', lines: [`${name} was looked at no further; nothing has changed`] };
  } finally {
    lookingAt.value = null;
    nothingDone();
  }
}

/** A name that every system makes a file of, so that the model can be passed on with its job; its own where that will do. */
export function plainName(given: string): string {
  const own = given.split(/[/\\]/).at(-1) ?? '';
  if (nameFault(own) === undefined) return own;
  const ending = /\.(stl|3mf)$/i.exec(own)?.[0].toLowerCase() ?? '.stl';
  const kept = own
    .slice(0, -ending.length)
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N} _-]/gu, '')
    .trim()
    .slice(0, 80);
  const plain = `${kept}${ending}`.normalize('NFC');
  return kept !== '' && nameFault(plain) === undefined ? plain : `model${ending}`;
}
