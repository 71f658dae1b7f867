// Kills the built command at many moments, looks at what is left and runs what comes next; ends with 1 where something is not as it
// must be: npx tsx tests/faults/kills.ts --kills 240 [--seed 1] [--only make,trial]
import { parseArgs } from 'node:util';
import { blowsFor } from './blows.ts';
import { type Judged, learn, strike } from './killing.ts';
import { scenes } from './scenes.ts';

const { values } = parseArgs({
  options: { kills: { type: 'string' }, seed: { type: 'string' }, only: { type: 'string' } },
});
const kills = Number(values.kills ?? 240);
const seed = Number(values.seed ?? 1);
const chosen = scenes.filter(
  ({ name }) => values.only === undefined || values.only.split(',').includes(name),
);
const shares = chosen.reduce((sum, { share }) => sum + share, 0);
const phases = ['before', 'writing', 'after', 'ended'] as const;

console.log(
  `seed ${seed}; killed before it writes, while it writes, after it wrote, and ended before the kill`,
);
const all: Judged[] = [];
for (const [k, scene] of chosen.entries()) {
  const learnt = await learn(scene);
  const count = Math.ceil((kills * scene.share) / shares);
  const judged: Judged[] = [];
  for (const blow of blowsFor(learnt, count, seed + k)) {
    const one = await strike(scene, learnt, blow);
    judged.push(one);
    for (const wrong of one.wrong) console.log(`  ${scene.name} ${JSON.stringify(blow)}: ${wrong}`);
  }
  all.push(...judged);
  console.log(
    `${scene.name.padEnd(14)} ${numbers(judged)}   ${Math.round(learnt.ms)} ms, ${learnt.steps.length} steps`,
  );
}
const wrong = all.filter((one) => one.wrong.length > 0).length;
console.log(`${'together'.padEnd(14)} ${numbers(all)}   ${wrong} not as they must be`);
process.exitCode = wrong > 0 ? 1 : 0;

function numbers(judged: readonly Judged[]): string {
  const counts = phases.map((phase) => judged.filter((one) => one.phase === phase).length);
  return [judged.length, ...counts].map((count) => String(count).padStart(4)).join(' ');
}
