// A dozen kills out of the hundreds of `npx tsx tests/faults/kills.ts --kills 240`, on the commands that take the least time.
import { beforeAll, describe, expect, it } from 'vitest';
import { blowsFor } from './blows.ts';
import { type Learnt, learn, strike } from './killing.ts';
import { scenes } from './scenes.ts';

const SEED = 5;

const sceneOf = (name: string) => scenes.find((each) => each.name === name)!;

describe.each([
  ['measure', 5],
  ['trial', 3],
  ['printer new', 4],
])('%s, killed', (name, count) => {
  const scene = sceneOf(name);
  let learnt: Learnt;
  beforeAll(async () => {
    learnt = await learn(scene);
  });

  it(`${count} times, loses nothing, leaves no half file, and the next run makes the same bytes`, async () => {
    const judged = [];
    for (const blow of blowsFor(learnt, count, SEED))
      judged.push({ blow, ...(await strike(scene, learnt, blow)) });
    expect(
      judged.filter(({ wrong }) => wrong.length > 0),
      `seed ${SEED}`,
    ).toEqual([]);
    // Those that are killed at a step of theirs never come to their end.
    const struck = judged.filter(({ phase }) => phase !== 'ended');
    expect(struck.length).toBeGreaterThanOrEqual(Math.floor(count / 3));
  });

  if (name !== 'trial') return;
  // The two files of a trial belong together, and between the two renames one is new and the other old.
  it('between its two files, is brought to its end by whoever looks', async () => {
    const renames = learnt.steps.flatMap(({ what }, k) => (what === 'renameSync' ? [k + 1] : []));
    // Plan, job, profile.
    expect(renames).toHaveLength(3);
    const between = await strike(scene, learnt, { signal: 'SIGKILL', step: renames[2]! });
    expect(between).toEqual({ phase: 'writing', wrong: [] });
  });
});
