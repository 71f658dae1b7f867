import { describe, expect, it } from 'vitest';
import { accessProbes, FORCE_TOLERANCE, fingerStop, probePasses } from '../../src/standards/accessProbes.ts';
import {
  fireEnclosureMaterial,
  fireEnclosureOpening,
  keepsFireIn,
  mainsDistances,
} from '../../src/standards/enclosureOpenings.ts';

describe('access probes', () => {
  // IEC 60529 and IEC 61032, read in public copies: diameter, length, force, first figure of the IP code.
  it.each([
    ['largeSphere', 50, null, 50, 1],
    ['sphere', 12.5, null, 30, 2],
    ['finger', 12, 80, 10, 2],
    ['rod', 2.5, 100, 3, 3],
    ['wire', 1, 100, 1, 4],
  ] as const)('%s', (key, diameter, length, force, ip) => {
    expect(accessProbes[key]).toMatchObject({ diameter, length, force, ip, confidence: 'high' });
  });

  it('grow smaller and gentler with the figure', () => {
    const order = [accessProbes.largeSphere, accessProbes.sphere, accessProbes.rod, accessProbes.wire];
    for (let k = 1; k < order.length; k++) {
      expect(order[k]!.diameter).toBeLessThan(order[k - 1]!.diameter);
      expect(order[k]!.force).toBeLessThan(order[k - 1]!.force);
      expect(order[k]!.ip).toBeGreaterThan(order[k - 1]!.ip);
    }
    expect(FORCE_TOLERANCE).toBe(0.1);
    // IEC 61032, probe B, from memory.
    expect(fingerStop).toMatchObject({ width: 50, depth: 20 });
  });

  it('a finger goes where the sphere does not', () => {
    expect(probePasses(accessProbes.finger, 12.2)).toBe(true);
    expect(probePasses(accessProbes.sphere, 12.2)).toBe(false);
    expect(probePasses(accessProbes.wire, 0.99)).toBe(false);
    expect(probePasses(accessProbes.wire, 1)).toBe(true);
  });
});

describe('openings', () => {
  // IEC 60950-1, 4.6.1, from memory: 5 mm in any direction, or 1 mm wide at any length.
  it.each([
    [5, 5, true],
    [5.01, 5, false],
    [1, 200, true],
    [200, 1, true],
    [1.01, 5.01, false],
  ])('%d x %d mm: %s', (width, length, kept) => {
    expect(keepsFireIn({ width, length })).toBe(kept);
  });

  it('carry their doubts', () => {
    expect(fireEnclosureOpening.confidence).toBe('medium-high');
    expect(mainsDistances.confidence).toBe('medium');
    expect(fireEnclosureMaterial).toMatchObject({ upTo18kg: 'V-1', above: '5VB', confidence: 'medium' });
    // IEC 60950-1, tables 2K and 2N, from memory: reinforced is twice basic.
    for (const { basic, reinforced } of [mainsDistances.clearance, mainsDistances.creepage])
      expect(reinforced).toBe(2 * basic);
    expect([mainsDistances.clearance.basic, mainsDistances.creepage.basic]).toEqual([2, 2.5]);
  });
});
