import { expect } from 'vitest';
import type { Prepared } from '../../src/job/prepare.ts';
import type { MakeResult } from '../../src/job/result.ts';
import type { ManifoldToplevel } from '../../src/solid/kernel.ts';
import type { Material } from '../../src/standards/materials.ts';
import type { Randomness } from '../simulation/randomness.ts';
import { type Made, madeOf } from './anyJob.ts';

type Sourced = Material['density'];
const scaled = (s: Sourced, by: number): Sourced => ({
  ...s,
  value: s.value * by,
  lo: s.lo * by,
  hi: s.hi * by,
});

const stiffer = (material: Material, by: number): Material => ({
  ...material,
  modulusAlong: scaled(material.modulusAlong, by),
  modulusAcross: scaled(material.modulusAcross, by),
});

function stronger(material: Material, by: number): Material {
  const { onceAlong, onceAcross, repeatedAlong, repeatedAcross } = material.permissible;
  return {
    ...material,
    breakStrainAcross: scaled(material.breakStrainAcross, by),
    permissible: {
      ...{ onceAlong: scaled(onceAlong, by), onceAcross: scaled(onceAcross, by) },
      ...{ repeatedAlong: scaled(repeatedAlong, by), repeatedAcross: scaled(repeatedAcross, by) },
    },
  };
}

/** The same job, its normal sizes what they were for its own plastic, of another one. */
function of(prepared: Prepared, material: Material): Prepared {
  return { ...prepared, material, values: { ...prepared.values, material } as Prepared['values'] };
}

const finding = ({ findings }: MakeResult, id: string) => findings.find((one) => one.id === id)!;

/** Strains of arms and legs that are bent a given way: no modulus is in them (Hooke). */
const STRAINS = /(^|\.)(strain\..*|arms\.(strain|root|seated)|stem\.(strain|root))$/;
/** Forces of bent plastic alone: in step with the modulus. Other forces have old plastic in them, which stays as it is. */
const FORCES = /(^|\.)(push\..*|pull\..*|arms\.(push|pull)|stem\.(push|hold))$/;

const RANK = { fails: 0, caution: 1, holds: 2 } as const;

/** How many strains and forces were held against each other, over all calls. */
export const compared = { strains: 0, forces: 0 };

/** Of a stiffer plastic: sizes and chance as they were, arms strained as much, forces in step. A foot that carries the
 *  machine squashes less, and is drawn no higher for it. */
export function ofStifferPlastic(
  kernel: ManifoldToplevel,
  { prepared, result }: Made,
  random: Randomness,
): void {
  const by = random.uniform(1.2, 3);
  const other = madeOf(kernel, of(prepared, stiffer(prepared.material, by)))!;
  let same = true;
  for (const one of result.interfaces) {
    const its = other.interfaces.find(({ id }) => id === one.id)!;
    if (its.host === one.host) continue;
    same = false;
    expect(one.id).toMatch(/(^|\.)height$/);
    expect(its.drawn, one.id).toBeLessThanOrEqual(one.drawn + 1e-9);
  }
  if (same) {
    expect(other.chance).toBe(result.chance);
    expect(other.interfaces).toEqual(result.interfaces);
  }
  for (const { id, value } of result.findings) {
    const changed = finding(other, id)?.value ?? null;
    if (!same || value === null || changed === null || value <= 0) continue;
    if (STRAINS.test(id)) {
      expect(changed / value, id).toBeCloseTo(1, 6);
      compared.strains++;
    }
    // What locks stands in a finding as a fixed large force.
    if (FORCES.test(id) && changed !== value) {
      expect(changed / value / by, id).toBeCloseTo(1, 6);
      compared.forces++;
    }
  }
}

/** Of a plastic that bears more strain: the same strains, limits in step, no verdict worse. */
export function ofStrongerPlastic(
  kernel: ManifoldToplevel,
  { prepared, result }: Made,
  random: Randomness,
): void {
  const by = random.uniform(1.2, 3);
  const other = madeOf(kernel, of(prepared, stronger(prepared.material, by)))!;
  for (const { id, value, limit, verdict } of result.findings) {
    const changed = finding(other, id);
    expect(RANK[changed.verdict], id).toBeGreaterThanOrEqual(RANK[verdict]);
    if (!STRAINS.test(id) || value === null) continue;
    expect(changed.value, id).toBe(value);
    if (limit !== null) expect(changed.limit! / limit, id).toBeCloseTo(by, 9);
  }
}
