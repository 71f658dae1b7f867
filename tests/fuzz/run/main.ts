// npm run fuzz -- --minutes 10 [--seed 7] [--only KIND]: hands over random jobs and damaged files until the time is up, and
// says what came of them. npm run fuzz -- --only KIND --case SEED: one of them again, and the smallest like it.
import { Command } from 'commander';
import { kinds } from '../kinds/index.ts';
import { again } from './again.ts';
import { report } from './report.ts';
import { watched } from './watch.ts';

const number = (text: string): number => {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value))
    throw new RangeError(`a number is wanted (given ${text})`);
  return value;
};
const options = new Command('fuzz')
  .option('--minutes <number>', 'how long', number, 1)
  .option('--seed <number>', 'what all inputs follow from (default: the time)', number)
  .option('--only <kind>', 'kinds whose name contains this')
  .option('--case <seed>', 'one input by its own seed', number)
  .parse()
  .opts<{ minutes: number; seed?: number; only?: string; case?: number }>();

const chosen = kinds.filter(({ name }) => options.only === undefined || name.includes(options.only));
if (chosen.length === 0) {
  console.error(`no kind of that name; there are: ${kinds.map(({ name }) => name).join(', ')}`);
  process.exit(2);
}
if (options.case !== undefined) {
  const kind = chosen.find(({ name }) => name === options.only) ?? chosen[0]!;
  process.exit((await again(kind, options.case)) ? 0 : 1);
}
const seed = options.seed ?? Date.now() % 2 ** 31;
const { tallies, failures } = await watched(
  chosen.map(({ name }) => name),
  seed,
  options.minutes,
);
for (const line of report(tallies, failures, seed)) console.log(line);
process.exit(failures.length === 0 ? 0 : 1);
