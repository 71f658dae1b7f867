import { expect } from 'vitest';
import type { MakeResult } from '../../src/job/result.ts';

/** Two numbers as near as rounding of doubles and of 32-bit coordinates leaves them. */
const NEAR = 2e-5;

const near = (a: number, b: number, by: number): boolean =>
  a === b || Math.abs(a - b) <= by * Math.max(1, Math.abs(a), Math.abs(b));

/** Numbers out of a sentence: what is left is the same whatever the last digit rounds to. */
const wordsOf = (sentence: string): string => sentence.replace(/-?\d+(\.\d+)?/g, '#');

/** What may differ between two results that say the same, mm or the unit of the number. */
export interface Slack {
  /** Of every number. */
  readonly number?: number;
  /** Sentences are compared too, without their numbers; false where they name what was typed. */
  readonly words?: boolean;
}

/** Every verdict, every number, every size of `other` is that of `one`; ids in the same order where verdicts are. */
export function expectSame(
  one: MakeResult,
  other: MakeResult,
  { number = NEAR, words = true }: Slack = {},
): void {
  const faults: string[] = [];
  const same = (what: string, a: number | null | undefined, b: number | null | undefined): void => {
    if (a === b || (typeof a === 'number' && typeof b === 'number' && near(a, b, number))) return;
    faults.push(`${what}: ${a} and ${b}`);
  };
  const equal = (what: string, a: unknown, b: unknown): void => {
    if (a !== b) faults.push(`${what}: ${a} and ${b}`);
  };
  same('chance', one.chance, other.chance);
  equal('advice', one.advice?.id, other.advice?.id);
  equal('order', one.assembly?.id, other.assembly?.id);
  equal('dimensions', Object.keys(one.dimensions).join(), Object.keys(other.dimensions).join());
  for (const [id, { value, u }] of Object.entries(one.dimensions)) {
    same(`${id} value`, value, other.dimensions[id]?.value);
    same(`${id} u`, u, other.dimensions[id]?.u);
  }
  equal('interfaces', one.interfaces.map(({ id }) => id).join(), other.interfaces.map(({ id }) => id).join());
  one.interfaces.forEach((a, k) => {
    const b = other.interfaces[k];
    for (const key of ['host', 'drawn', 'predicted', 'clearance', 'u', 'chance', 'length'] as const)
      same(`${a.id} ${key}`, a[key], b?.[key]);
    for (const i of [0, 1, 2]) same(`${a.id} at`, a.at[i], b?.at[i]);
  });
  const ids = ({ findings }: MakeResult) => findings.map(({ id, verdict }) => `${id} ${verdict}`);
  equal('verdicts', ids(one).sort().join(), ids(other).sort().join());
  for (const a of one.findings) {
    const b = other.findings.find(({ id }) => id === a.id);
    same(`${a.id} value`, a.value, b?.value);
    same(`${a.id} limit`, a.limit, b?.limit);
    same(`${a.id} margin`, a.margin, b?.margin);
    if (words) equal(`${a.id} because`, wordsOf(a.because), wordsOf(b?.because ?? ''));
    if (words) equal(`${a.id} remedy`, wordsOf(a.remedy), wordsOf(b?.remedy ?? ''));
  }
  equal('parts', one.parts.length, other.parts.length);
  one.parts.forEach(({ print }, k) => {
    const its = other.parts[k]?.print;
    same('volume', print.volume, its?.volume);
    equal('layers', print.layers, its?.layers);
    for (const i of [0, 1, 2]) same('extent', print.extents[i], its?.extents[i]);
  });
  expect(faults).toEqual([]);
}
