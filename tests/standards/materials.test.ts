import { describe, expect, it } from 'vitest';
import { frictionOnSteel } from '../../src/standards/friction.ts';
import {
  findMaterial,
  hostMaterial,
  hostMaterialNames,
  hostMaterials,
  material,
  materialNames,
  materials,
  permissibleStrain,
  strainRule,
  UnknownMaterialError,
} from '../../src/standards/materials.ts';

interface Number3 {
  value: number;
  lo: number;
  hi: number;
  source: string;
}
const numbers = (o: object): [string, Number3][] =>
  Object.entries(o).flatMap(([key, v]) =>
    typeof v !== 'object' || v === null ? [] : 'source' in v ? [[key, v as Number3]] : numbers(v as object),
  );

describe('materials', () => {
  it('are the six, each number positive, within its range, with its source', () => {
    expect(materialNames).toEqual(['PLA', 'PETG', 'ABS', 'ASA', 'PA12', 'TPU']);
    let seen = 0;
    for (const [key, n] of [...numbers(materials), ...numbers(hostMaterials), ...numbers(frictionOnSteel)]) {
      seen++;
      expect(n.lo, key).toBeGreaterThan(0);
      expect(n.lo, key).toBeLessThanOrEqual(n.value);
      expect(n.value, key).toBeLessThanOrEqual(n.hi);
      expect(n.source.length, key).toBeGreaterThan(10);
    }
    expect(seen).toBeGreaterThan(6 * 15);
  });

  it('are never stronger, stiffer or more stretchable across the layers than along', () => {
    for (const m of Object.values(materials)) {
      expect(m.modulusAcross.value).toBeLessThanOrEqual(m.modulusAlong.value);
      expect(m.strengthAcross.value).toBeLessThanOrEqual(m.strengthAlong.value);
      expect(m.breakStrainAcross.value).toBeLessThanOrEqual(m.breakStrainAlong.value);
      expect(m.permissible.onceAcross.value).toBeLessThanOrEqual(m.permissible.onceAlong.value);
      expect(m.serviceTemperature.value).toBeLessThanOrEqual(m.heatDeflection.value);
      expect(m.poisson.hi).toBeLessThan(0.5);
    }
  });

  it('hold the printed grades they were taken from within their ranges', () => {
    // Industrial PLA 3039 / 2539 MPa; matte PLA 1997 / 1615; filament maker's ABS 1443 and 9.8 %; powder-bed PA12 1800.
    for (const e of [3039, 1997])
      expect(materials.PLA.modulusAlong.lo <= e && e <= materials.PLA.modulusAlong.hi).toBe(true);
    for (const e of [2539, 1615])
      expect(materials.PLA.modulusAcross.lo <= e && e <= materials.PLA.modulusAcross.hi).toBe(true);
    expect(materials.ABS.modulusAlong.lo).toBe(1443);
    expect(materials.ABS.breakStrainAlong.hi).toBeGreaterThanOrEqual(0.098);
    expect(materials.PA12.modulusAlong.hi).toBe(1800);
    // 5.2e-5 per deg F of an ABS sheet maker is 9.36e-5 per K.
    expect(materials.ABS.thermalExpansion.value).toBeCloseTo(5.2e-5 * 1.8, 6);
  });

  it('rule of the snap-fit guides: 70 % of yield, 50 % of break, 60 % when repeated (worked in their examples)', () => {
    expect(permissibleStrain({ yields: 0.06 })).toBeCloseTo(0.042, 12);
    expect(permissibleStrain({ yields: 0.06 }) * strainRule.repeated).toBeCloseTo(0.0252, 12);
    expect(permissibleStrain({ breaks: 0.03 })).toBeCloseTo(0.015, 12);
    expect(permissibleStrain({ breaks: 0.03 }) * strainRule.repeated).toBeCloseTo(0.009, 12);
    // Industrial PLA: break 2.5 % and 1.0 % across give 1.25 / 0.75 % and 0.5 / 0.3 %.
    const { permissible } = materials.PLA;
    expect(permissible.onceAlong.lo).toBeCloseTo(0.0125, 12);
    expect(permissible.repeatedAlong.lo).toBeCloseTo(0.0075, 12);
    expect(permissible.onceAcross.value).toBeCloseTo(0.005, 12);
    expect(permissible.repeatedAcross.value).toBeCloseTo(0.003, 12);
  });

  it('ask less of the old plastic than of the new', () => {
    for (const name of hostMaterialNames) {
      const { permissibleStrain: aged } = hostMaterials[name];
      expect(aged.value).toBeLessThan(materials.ABS.permissible.onceAlong.value);
      expect(aged.source).toContain('common practice, no source');
    }
  });

  it('are found by name, and a near name is offered otherwise', () => {
    expect(material('PETG')).toBe(materials.PETG);
    expect(findMaterial('petg')).toBe(materials.PETG);
    expect(findMaterial('toString')).toBeUndefined();
    expect(hostMaterial('PBT')).toBe(hostMaterials.PBT);
    expect(() => material('PEGT')).toThrow('did you mean PETG?');
    expect(() => hostMaterial('POM')).toThrow('Known are ABS, PBT');
    try {
      material('');
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(UnknownMaterialError);
      expect(error).toMatchObject({ code: 'material_unknown', given: '', allowed: materialNames });
    }
  });
});
