import { closest } from 'fastest-levenshtein';
import type { Sourced } from './friction.ts';
import { frictionOnSteel, sourced } from './friction.ts';

/** A material to print with. "Along" is in the plane of the layers, "across" from layer to layer. Strains are fractions. */
export interface Material {
  readonly name: MaterialName;
  /** g/cm^3. */
  readonly density: Sourced;
  /** MPa. */
  readonly modulusAlong: Sourced;
  readonly modulusAcross: Sourced;
  readonly poisson: Sourced;
  /** Strain at yield along the layers; null when it breaks or stretches without a yield point. */
  readonly yieldStrain: Sourced | null;
  readonly breakStrainAlong: Sourced;
  readonly breakStrainAcross: Sourced;
  /** MPa. */
  readonly strengthAlong: Sourced;
  readonly strengthAcross: Sourced;
  /** Permissible short-term strain: fitted once, and fitted again and again; along and across the layers. */
  readonly permissible: {
    readonly onceAlong: Sourced;
    readonly onceAcross: Sourced;
    readonly repeatedAlong: Sourced;
    readonly repeatedAcross: Sourced;
  };
  /** Heat deflection temperature at 0.45 MPa, deg C. */
  readonly heatDeflection: Sourced;
  /** Highest temperature to leave a loaded part at, deg C. */
  readonly serviceTemperature: Sourced;
  /** Linear thermal expansion, 1/K. */
  readonly thermalExpansion: Sourced;
  readonly frictionOnSteel: Sourced;
}

export const materialNames = ['PLA', 'PETG', 'ABS', 'ASA', 'PA12', 'TPU'] as const;
export type MaterialName = (typeof materialNames)[number];

const SERVICE = 'some 5 to 10 K below heat deflection; common practice, no source';
const RATIO =
  'along times 0.81, the ratio of upright to flat of a printed PLA grade (E_Z / E_XY 1615 / 1997)';
const POISSON = 'moulded polymer, from memory of textbook tables; printed parts scatter';
const EXPANSION = 'moulded polymer, from memory of textbook tables';
const ABS_MEMORY = 'printed specimens of filament makers, from memory';
const PLA_GRADES =
  'printed specimens: matte grade 27.8 % flat and 0.9 % upright, industrial grade 2.5 % edge and 1.0 % weak direction; materials library, range 3-10 / 1-6 %';

/** Share of yield strain for ductile, of break strain for brittle plastics; repeated use over single.
 *  Snap-fit design guides (70 %, 50 %, 60 %; read in public copies). */
export const strainRule = { ofYield: 0.7, ofBreak: 0.5, repeated: 0.6 } as const;

/** Permissible short-term strain, single assembly: 70 % of the yield strain of a ductile plastic, 50 % of the break
 *  strain of a brittle one. Strains as fractions above 0.
 *  @example permissibleStrain({ yields: 0.06 }) // => 0.042
 *  @example permissibleStrain({ breaks: 0.03 }) // => 0.015 */
export function permissibleStrain(of: { readonly yields: number } | { readonly breaks: number }): number {
  return 'yields' in of ? strainRule.ofYield * of.yields : strainRule.ofBreak * of.breaks;
}

function permissible(yields: Sourced | null, along: Sourced, across: Sourced): Material['permissible'] {
  const rule = (s: Sourced, kind: 'yields' | 'breaks'): Sourced => {
    const strain = (x: number) => permissibleStrain(kind === 'yields' ? { yields: x } : { breaks: x });
    const name = kind === 'yields' ? '70 % of yield strain' : '50 % of break strain';
    return sourced(
      strain(s.value),
      strain(s.lo),
      strain(s.hi),
      `${name}, snap-fit design guides, of: ${s.source}`,
    );
  };
  const again = (s: Sourced): Sourced =>
    sourced(
      s.value * strainRule.repeated,
      s.lo * strainRule.repeated,
      s.hi * strainRule.repeated,
      `60 % of the single-assembly strain, snap-fit design guides; ${s.source}`,
    );
  // A layer joint breaks without yielding, so across the layers the brittle rule holds for all, and never more than along.
  const onceAlong = yields === null ? rule(along, 'breaks') : rule(yields, 'yields');
  const brittle = rule(across, 'breaks');
  const onceAcross = {
    ...brittle,
    value: Math.min(brittle.value, onceAlong.value),
    lo: Math.min(brittle.lo, onceAlong.lo),
    hi: Math.min(brittle.hi, onceAlong.hi),
  };
  return { onceAlong, onceAcross, repeatedAlong: again(onceAlong), repeatedAcross: again(onceAcross) };
}

type Data = Omit<Material, 'permissible' | 'frictionOnSteel'>;

const make = (data: Data): Material => ({
  ...data,
  permissible: permissible(data.yieldStrain, data.breakStrainAlong, data.breakStrainAcross),
  frictionOnSteel: frictionOnSteel[data.name],
});

/** What parts are printed from. Values are for printed specimens where the source says so; they scatter by 20 % and
 *  more with machine and settings, which `lo` and `hi` carry. */
export const materials: Readonly<Record<MaterialName, Material>> = {
  PLA: make({
    name: 'PLA',
    density: sourced(1.24, 1.22, 1.31, 'materials library, range 1.22-1.26; matte printed grade 1.31'),
    modulusAlong: sourced(
      3000,
      1997,
      4000,
      'printed: industrial grade 3039; library 3000-4000; matte grade 1997 +- 64',
    ),
    modulusAcross: sourced(
      2500,
      1615,
      3200,
      'printed: industrial grade 2539, matte grade 1615 +- 54; upper end from memory',
    ),
    poisson: sourced(0.35, 0.3, 0.4, POISSON),
    // The printed grade yields at 1.5 % and breaks at 2.5 %: it is reckoned as brittle.
    yieldStrain: null,
    breakStrainAlong: sourced(0.03, 0.025, 0.1, PLA_GRADES),
    breakStrainAcross: sourced(0.01, 0.009, 0.06, PLA_GRADES),
    strengthAlong: sourced(46, 23.2, 65, 'printed: industrial grade 45-48, library 50-65, matte grade 23.2'),
    strengthAcross: sourced(26, 12.2, 45, 'printed: industrial grade 26, library 35-45, matte grade 12.2'),
    heatDeflection: sourced(55, 53, 57.8, 'printed: industrial grade 53, matte grade 57.8, at 0.45 MPa'),
    serviceTemperature: sourced(48, 45, 50, SERVICE),
    thermalExpansion: sourced(7e-5, 6e-5, 9e-5, EXPANSION),
  }),
  PETG: make({
    name: 'PETG',
    density: sourced(1.27, 1.25, 1.29, 'materials library, printed, range 1.25-1.29'),
    modulusAlong: sourced(
      2200,
      1710,
      3000,
      'materials library, printed, 2000-3000; near copolyester in four directions 1710-1860',
    ),
    modulusAcross: sourced(1800, 1400, 2400, RATIO),
    poisson: sourced(0.38, 0.35, 0.42, POISSON),
    yieldStrain: sourced(0.0375, 0.035, 0.04, 'printed, about 3.5-4 %, from memory'),
    breakStrainAlong: sourced(
      0.2,
      0.026,
      0.5,
      'materials library, printed, 20-50 %; near copolyester at 45 degrees 2.6 %',
    ),
    breakStrainAcross: sourced(
      0.05,
      0.039,
      0.18,
      'materials library, printed upright, 5-18 %; near copolyester 3.9 %',
    ),
    strengthAlong: sourced(48, 40.4, 56, 'materials library, printed, 44-56; near copolyester 40.4'),
    strengthAcross: sourced(30, 25, 45, 'materials library, printed upright, 25-38; near copolyester 45'),
    heatDeflection: sourced(70, 65, 76, 'about 70 at 0.45 MPa, from memory; near copolyester 76'),
    serviceTemperature: sourced(62, 58, 68, SERVICE),
    thermalExpansion: sourced(6.5e-5, 5e-5, 8e-5, EXPANSION),
  }),
  ABS: make({
    name: 'ABS',
    density: sourced(1.04, 1.03, 1.06, 'filament maker and solid sheet, 1.04; range from memory'),
    modulusAlong: sourced(
      2000,
      1443,
      2400,
      `filament maker 1443; solid sheet 2386 (346 ksi); ${ABS_MEMORY} 2000-2400`,
    ),
    modulusAcross: sourced(1900, 1400, 2300, `${ABS_MEMORY}, 1900-2300`),
    poisson: sourced(0.36, 0.33, 0.4, POISSON),
    yieldStrain: sourced(0.022, 0.02, 0.025, `${ABS_MEMORY}, 2.0-2.5 %`),
    breakStrainAlong: sourced(0.08, 0.06, 0.1, `filament maker, printed, 9.8 %; ${ABS_MEMORY} 6-10 %`),
    breakStrainAcross: sourced(0.025, 0.02, 0.03, `${ABS_MEMORY}, 2-3 %`),
    strengthAlong: sourced(35, 31, 38, 'filament maker, printed, 35.3; solid sheet 37.9'),
    strengthAcross: sourced(28, 26, 30, `${ABS_MEMORY}, 26-30`),
    heatDeflection: sourced(94, 90, 98, `${ABS_MEMORY}, 90-98 at 0.45 MPa`),
    serviceTemperature: sourced(85, 80, 90, SERVICE),
    thermalExpansion: sourced(9.4e-5, 7e-5, 1e-4, 'sheet maker, 5.2e-5 per deg F; range from memory'),
  }),
  ASA: make({
    name: 'ASA',
    density: sourced(1.06, 1.05, 1.07, ABS_MEMORY),
    modulusAlong: sourced(2150, 2000, 2300, ABS_MEMORY),
    modulusAcross: sourced(2000, 1600, 2100, `${ABS_MEMORY}, 1950-2100; lower end cautious`),
    poisson: sourced(0.36, 0.33, 0.4, 'taken as ABS; from memory'),
    yieldStrain: sourced(0.02, 0.018, 0.025, `${ABS_MEMORY}, 2.0 %`),
    breakStrainAlong: sourced(0.07, 0.05, 0.09, ABS_MEMORY),
    breakStrainAcross: sourced(0.025, 0.02, 0.03, ABS_MEMORY),
    strengthAlong: sourced(38, 29, 45, ABS_MEMORY),
    strengthAcross: sourced(30, 27, 33, ABS_MEMORY),
    heatDeflection: sourced(98, 93, 100, `${ABS_MEMORY}, 98 at 0.45 MPa`),
    serviceTemperature: sourced(88, 83, 93, SERVICE),
    thermalExpansion: sourced(9.5e-5, 8e-5, 1.1e-4, EXPANSION),
  }),
  PA12: make({
    name: 'PA12',
    density: sourced(
      1.01,
      0.88,
      1.02,
      'powder-bed (multi-jet) 1.01; laser-sintered range 0.88-0.96; upper end from memory',
    ),
    modulusAlong: sourced(
      1700,
      1300,
      1800,
      'powder-bed 1800, laser-sintered about 1700 (memory); filament lower, from memory',
    ),
    modulusAcross: sourced(1600, 1050, 1800, 'powder-bed 1800; filament lower, from memory'),
    poisson: sourced(0.47, 0.4, 0.49, 'powder-bed, 0.47 flat and 0.43 upright; range from memory'),
    yieldStrain: sourced(0.1, 0.05, 0.11, 'powder-bed, 11 % flat, 10 % upright; filament lower, from memory'),
    breakStrainAlong: sourced(0.15, 0.08, 0.25, 'powder-bed 20-15 %; laser-sintered 8-25 %'),
    breakStrainAcross: sourced(0.08, 0.03, 0.15, 'powder-bed 15-12 %; filament well below, from memory'),
    strengthAlong: sourced(48, 44, 52, 'powder-bed 48; laser-sintered 44-52'),
    strengthAcross: sourced(38, 25, 48, 'powder-bed 48; filament lower, from memory'),
    heatDeflection: sourced(
      150,
      110,
      175,
      'powder-bed 175 at 0.45 MPa, from memory; filament lower, from memory',
    ),
    serviceTemperature: sourced(95, 80, 110, 'near heat deflection at 1.8 MPa (95), from memory'),
    thermalExpansion: sourced(1.1e-4, 9e-5, 1.3e-4, EXPANSION),
  }),
  TPU: make({
    name: 'TPU',
    density: sourced(1.22, 1.2, 1.25, 'materials library, printed 95 A, 1.20-1.25'),
    modulusAlong: sourced(44, 26, 60, "printed 95 A, 26-60 from memory; Gent's relation at 95 A gives 43.8"),
    modulusAcross: sourced(36, 21, 60, RATIO),
    poisson: sourced(0.48, 0.45, 0.499, POISSON),
    yieldStrain: null,
    breakStrainAlong: sourced(4, 4, 7, 'materials library, printed 95 A, 400-700 %; its lower end'),
    breakStrainAcross: sourced(1.5, 1.5, 4, 'materials library, printed upright, 150-400 %; its lower end'),
    strengthAlong: sourced(28, 22, 36, 'materials library, printed, 22-36'),
    strengthAcross: sourced(17, 12, 24, 'materials library, printed upright, 12-24'),
    heatDeflection: sourced(
      60,
      45,
      90,
      'Vicat-like softening of 95 A, from memory; an elastomer has no true value',
    ),
    serviceTemperature: sourced(60, 50, 80, 'common practice, no source'),
    thermalExpansion: sourced(1.5e-4, 1e-4, 2e-4, EXPANSION),
  }),
};

/** Plastic of the old machine that a part is pressed into or clipped onto. */
export interface HostMaterial {
  readonly name: HostMaterialName;
  readonly modulus: Sourced;
  readonly poisson: Sourced;
  /** Strain an old, perhaps crazed or embrittled part is asked to bear, fraction. */
  readonly permissibleStrain: Sourced;
  readonly serviceTemperature: Sourced;
}

export const hostMaterialNames = ['ABS', 'PBT'] as const;
export type HostMaterialName = (typeof hostMaterialNames)[number];

const AGED =
  "a fifth or less of the new plastic's permissible strain, for decades of light and skin grease; common practice, no source";

/** Plastics of old keycaps, as aged. */
export const hostMaterials: Readonly<Record<HostMaterialName, HostMaterial>> = {
  ABS: {
    name: 'ABS',
    modulus: sourced(2386, 2000, 2800, 'solid sheet 2386 (346 ksi); range from memory'),
    poisson: sourced(0.36, 0.33, 0.4, POISSON),
    permissibleStrain: sourced(0.005, 0.003, 0.01, AGED),
    serviceTemperature: sourced(80, 75, 85, 'common practice, no source'),
  },
  PBT: {
    name: 'PBT',
    modulus: sourced(2500, 2300, 2800, 'moulded, unfilled, from memory of textbook tables'),
    poisson: sourced(0.38, 0.35, 0.41, POISSON),
    permissibleStrain: sourced(0.006, 0.004, 0.012, AGED),
    serviceTemperature: sourced(110, 100, 120, 'common practice, no source'),
  },
};

/** A name that is no material here; `near` is the closest one that is. */
export class UnknownMaterialError extends RangeError {
  readonly code = 'material_unknown';
  readonly given: string;
  readonly near: string;
  readonly allowed: readonly string[];
  constructor(given: string, allowed: readonly string[]) {
    const near = closest(given.toUpperCase(), allowed);
    super(`material "${given}" is not known, did you mean ${near}? Known are ${allowed.join(', ')}`);
    this.name = 'UnknownMaterialError';
    this.given = given;
    this.near = near;
    this.allowed = allowed;
  }
}

/** The printing material of that name, capitals or not; undefined when there is none.
 *  @example findMaterial('petg')?.name // => 'PETG' */
export function findMaterial(name: string): Material | undefined {
  const upper = name.trim().toUpperCase();
  const found = materialNames.find((n) => n === upper);
  return found && materials[found];
}

/** The printing material of that name. Throws `UnknownMaterialError` with the nearest name.
 *  @example material('PETG').density.value // => 1.27 */
export function material(name: string): Material {
  const found = findMaterial(name);
  if (found === undefined) throw new UnknownMaterialError(name, materialNames);
  return found;
}

/** The aged plastic of the machine, by exact name. Throws `UnknownMaterialError` with the nearest name.
 *  @example hostMaterial('PBT').permissibleStrain.value // => 0.006 */
export function hostMaterial(name: string): HostMaterial {
  const found = hostMaterialNames.find((n) => n === name);
  if (found === undefined) throw new UnknownMaterialError(name, hostMaterialNames);
  return hostMaterials[found];
}
