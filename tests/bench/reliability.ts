// What a stated chance is worth: `npx tsx tests/bench/reliability.ts [printers]`, and part of `npm run bench`. Every
// printer, machine, pair of callipers and hand is drawn at random, and each part is printed once.
import { ALLOWANCES, type Bench, firstPrints } from '../simulation/firstPrints.ts';
import { rate, reliability } from '../simulation/reliability.ts';

/** Benches that fill every tenth of the scale: readings as sheets ask, windows wide and narrow. */
const mixed: Readonly<Record<string, Bench>> = {
  'coupon measured': { calibrated: true, readings: [3, 5], widths: [0.1, 1.2] },
  'no coupon': { calibrated: false, readings: [3, 5], widths: [0.3, 2.5] },
};

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`.padStart(8);

/** Prints the reliability table and the two baselines; `printers` for each bench. */
export function printReliability(printers: number): void {
  console.log(`\nstated chance against achieved rate, ${printers} printers a bench, one first print each`);
  for (const [name, bench] of Object.entries(mixed)) {
    console.log(`${name}\n  stated     prints   mean stated  achieved   apart  (standard error), points`);
    const prints = firstPrints(bench, { seed: 20261125, printers, partsEach: 1 });
    for (const { from, to, prints: count, stated, achieved, error } of reliability(prints)) {
      const apart = (100 * (achieved - stated)).toFixed(1).padStart(6);
      const band = `${from.toFixed(1)}..${to.toFixed(1)}`;
      console.log(
        `  ${band}  ${String(count).padStart(8)}      ${percent(stated)}  ${percent(achieved)}  ${apart}  (${(100 * error).toFixed(1)})`,
      );
    }
  }
  const asked = firstPrints({ calibrated: true }, { seed: 20261126, printers, partsEach: 1 });
  const of = (key: 'fitted' | 'straight') => percent(rate(asked.map((one) => one[key])));
  console.log('one snug and one sliding interface, readings as the sheet asks, fits first time');
  console.log(`  coupon measured, drawn for the printer   ${of('fitted')}   goal at least 95 %`);
  console.log(`  reading straight into the drawing        ${of('straight')}`);
  for (const [k, allowance] of ALLOWANCES.entries()) {
    const share = percent(rate(asked.map(({ allowed }) => allowed[k]!)));
    console.log(`  ${allowance} mm allowed on everything             ${share}`);
  }
}

if (process.argv[1]?.endsWith('reliability.ts')) printReliability(Number(process.argv[2] ?? 2000));
