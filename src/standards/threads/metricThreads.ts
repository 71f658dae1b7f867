import { basicProfile } from './basicProfile.ts';
import { type Thread, tidy } from './thread.ts';

/** Diameter, coarse pitch (null where there is none), fine pitches, and the choice ISO 261 ranks it as.
 *  ISO 261:1998, table 2; coarse pitches of the first choice and M3.5 read in a public copy, the rest from memory. */
const SIZES: readonly (readonly [
  nominal: number,
  coarse: number | null,
  fine: readonly number[],
  choice: 1 | 2 | 3,
])[] = [
  [1.6, 0.35, [0.2], 1],
  [1.8, 0.35, [0.2], 2],
  [2, 0.4, [0.25], 1],
  [2.2, 0.45, [0.25], 2],
  [2.5, 0.45, [0.35], 1],
  [3, 0.5, [0.35], 1],
  [3.5, 0.6, [0.35], 2],
  [4, 0.7, [0.5], 1],
  [4.5, 0.75, [0.5], 2],
  [5, 0.8, [0.5], 1],
  [5.5, null, [0.5], 3],
  [6, 1, [0.75], 1],
  [7, 1, [0.75], 2],
  [8, 1.25, [1, 0.75], 1],
  [9, 1.25, [1, 0.75], 3],
  [10, 1.5, [1.25, 1, 0.75], 1],
];

/** Pitch, mm; deviation es of position g and tolerance Td of grade 6, micrometres. ISO 965-1:1998, tables 1 and 2, from
 *  memory; the limits that follow agree with those of ISO 965-2. */
const TOLERANCES: Readonly<Record<number, { readonly g: number; readonly grade6: number }>> = {
  0.2: { g: -17, grade6: 56 },
  0.25: { g: -18, grade6: 67 },
  0.35: { g: -19, grade6: 85 },
  0.4: { g: -19, grade6: 95 },
  0.45: { g: -20, grade6: 100 },
  0.5: { g: -20, grade6: 106 },
  0.6: { g: -21, grade6: 125 },
  0.7: { g: -22, grade6: 140 },
  0.75: { g: -22, grade6: 140 },
  0.8: { g: -24, grade6: 150 },
  1: { g: -26, grade6: 180 },
  1.25: { g: -28, grade6: 212 },
  1.5: { g: -32, grade6: 236 },
};

/** Grade 8 is this many times grade 6. ISO 965-1:1998, 13.3. */
const GRADE_8 = 1.6;

/** How often first, second and third choice are met, and fine threads against coarse. Common practice, no source. */
const MET = { 1: 1, 2: 0.15, 3: 0.02 } as const;
const FINE_MET = 0.1;

/** ISO metric threads M1.6 to M10, coarse and fine: ISO 261 sizes, ISO 724 basic dimensions, ISO 965 limits of the outside
 *  diameter; usual is 6g, any is 6h to 8g. "M5" without a pitch is the coarse one.
 *  @example metricThreads.find(({ designation }) => designation === 'M5')?.outside.usual // => { lo: 4.826, hi: 4.976 } */
export const metricThreads: readonly Thread[] = SIZES.flatMap(([nominal, coarse, fine, choice]) => [
  ...(coarse === null ? [] : [thread(nominal, coarse, 'coarse', MET[choice])]),
  ...fine.map((pitch) => thread(nominal, pitch, 'fine', MET[choice] * FINE_MET)),
]);

function thread(nominal: number, pitch: number, series: 'coarse' | 'fine', met: number): Thread {
  const { g, grade6 } = TOLERANCES[pitch]!;
  const largest = nominal + g / 1000;
  return {
    designation: series === 'coarse' ? `M${nominal}` : `M${nominal} x ${pitch}`,
    system: 'metric',
    series,
    nominal,
    pitch,
    angle: 60,
    basic: basicProfile(nominal, pitch),
    outside: {
      usual: { lo: tidy(largest - grade6 / 1000), hi: tidy(largest) },
      any: { lo: tidy(largest - (GRADE_8 * grade6) / 1000), hi: nominal },
    },
    met,
    source: 'ISO 261, ISO 724; outside diameter ISO 965-1, 6g',
  };
}
