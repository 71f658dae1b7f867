// What a stated chance is worth: `npx tsx tests/bench/reliability.ts [printers]`, and part of `npm run bench`. Every
// printer, machine, pair of callipers and hand is drawn at random, and each part is printed once.
import { ALLOWANCES, type Bench, firstPrints } from '../simulation/firstPrints.ts';
import { rate, reliability } from '../simulation/reliability.ts';
import { type SecondPrint, secondPrints, type TrialBench } from '../simulation/secondPrints.ts';

/** Benches that fill every tenth of the scale: readings as sheets ask, windows wide and narrow. */
const mixed: Readonly<Record<string, Bench>> = {
  'coupon measured': { calibrated: true, readings: [3, 5], widths: [0.1, 1.2] },
  'no coupon': { calibrated: false, readings: [3, 5], widths: [0.3, 2.5] },
};

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`.padStart(8);

/** What was done to the first print before the second was drawn. */
const looks: readonly (readonly [string, Pick<TrialBench, 'inspects' | 'feels'>])[] = [
  ['felt', { inspects: false, feels: true }],
  ['measured', { inspects: true, feels: false }],
  ['measured and felt', { inspects: true, feels: true }],
];

/** Prints what second prints are worth; `printers` for each bench. Ceiling: the same windows and scatter with printer and
 *  machine known exactly. */
export function printSecondPrints(printers: number): void {
  console.log(`\nsecond prints, ${printers} printers a bench: per cent that fit, and what was said`);
  console.log('                                    first         second        after a miss          by the');
  console.log(
    '                                    said   came   said   came   prints  said   came   second  ceiling',
  );
  const per = (list: readonly SecondPrint[], of: (one: SecondPrint) => number | boolean) =>
    (list.length === 0
      ? '-'
      : ((100 * list.reduce((sum, one) => sum + Number(of(one)), 0)) / list.length).toFixed(1)
    ).padStart(5);
  for (const calibrated of [true, false])
    for (const [look, bench] of looks) {
      const prints = secondPrints({ calibrated, ...bench }, { seed: 20261126, printers });
      const missed = prints.filter(({ first }) => !first.fitted);
      const name = `${calibrated ? 'coupon' : 'no coupon'}, ${look}`.padEnd(34);
      const cells = [
        per(prints, ({ first }) => first.stated),
        per(prints, ({ first }) => first.fitted),
        per(prints, ({ second }) => second.stated),
        per(prints, ({ second }) => second.fitted),
        String(missed.length).padStart(6),
        per(missed, ({ second }) => second.stated),
        per(missed, ({ second }) => second.fitted),
        per(prints, ({ first, second }) => first.fitted || second.fitted).padStart(6),
        per(prints, ({ ceiling }) => ceiling).padStart(7),
      ];
      console.log(`  ${name}${cells.join('  ')}`);
    }
  for (const [name, calibrated, widths] of [
    ['coupon, measured and felt, windows 0.1 to 1.2 of the usual', true, [0.1, 1.2]],
    ['no coupon, felt, windows 0.3 to 2.5 of the usual', false, [0.3, 2.5]],
    ['no coupon, measured and felt, windows 0.3 to 2 of the usual', false, [0.3, 2]],
  ] as const) {
    const inspects = !name.includes('coupon, felt');
    const prints = secondPrints({ calibrated, inspects, feels: true, widths }, { seed: 20261127, printers });
    printTenths(
      name,
      prints.map(({ second }) => second),
    );
  }
}

/** One table of stated chances against achieved rates. */
function printTenths(name: string, prints: readonly { stated: number; fitted: boolean }[]): void {
  console.log(`${name}\n  stated     prints   mean stated  achieved   apart  (standard error), points`);
  for (const { from, to, prints: count, stated, achieved, error } of reliability(prints)) {
    const apart = (100 * (achieved - stated)).toFixed(1).padStart(6);
    const band = `${from.toFixed(1)}..${to.toFixed(1)}`;
    console.log(
      `  ${band}  ${String(count).padStart(8)}      ${percent(stated)}  ${percent(achieved)}  ${apart}  (${(100 * error).toFixed(1)})`,
    );
  }
}

/** Prints the reliability table and the two baselines; `printers` for each bench. */
export function printReliability(printers: number): void {
  console.log(`\nstated chance against achieved rate, ${printers} printers a bench, one first print each`);
  for (const [name, bench] of Object.entries(mixed)) {
    printTenths(name, firstPrints(bench, { seed: 20261125, printers, partsEach: 1 }));
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

if (process.argv[1]?.endsWith('reliability.ts')) {
  printReliability(Number(process.argv[2] ?? 2000));
  printSecondPrints(Number(process.argv[2] ?? 2000));
}
