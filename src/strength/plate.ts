import { power } from '../arithmetic/power.ts';
import { demand, demandAbove0 } from './demand.ts';

/** What a plate is made of. */
export interface PlateMaterial {
  /** mm. */
  readonly thickness: number;
  /** MPa. */
  readonly modulus: number;
  readonly poisson: number;
}

/** A load across a plate: `pressure` MPa all over it, or `force` N spread evenly over a circle of `spread` mm diameter in
 *  its middle, the worst place for a simply supported one. */
export type PlateLoad =
  | { readonly kind: 'uniform'; readonly pressure: number }
  | { readonly kind: 'pad'; readonly force: number; readonly spread: number };

export interface PlateBending {
  /** In the middle, mm. */
  readonly deflection: number;
  /** Largest bending stress, MPa, and where. */
  readonly stress: number;
  readonly stressAt: 'middle' | 'edge';
  /** Stress in the middle of the plate, and at its edge where that is held, MPa. */
  readonly middleStress: number;
  readonly edgeStress: number;
  /** Limits of thin-plate theory: shortest span over thickness, at least 10; deflection over thickness, at most a half. */
  readonly spanOverThickness: number;
  readonly deflectionOverThickness: number;
  /** Within both. A thicker plate shears and gives way more; a plate pushed further stretches and gives way less. */
  readonly holds: boolean;
}

/** Flexural rigidity E t^3 / (12 (1 - nu^2)), N mm. */
export function plateRigidity({ thickness, modulus, poisson }: PlateMaterial): number {
  demandAbove0('plate', { thickness, modulus });
  demand('plate', 'poisson', poisson, poisson >= 0 && poisson <= 0.5, '0 to 0.5');
  return (modulus * power(thickness, 3)) / (12 * (1 - poisson ** 2));
}

/** Refuses a load outside its range: pressure and force 0 or above, spread above 0 to the shortest span. */
export function demandLoad(load: PlateLoad, span: number): void {
  if (load.kind === 'uniform') {
    demand(
      'plate',
      'pressure',
      load.pressure,
      load.pressure >= 0 && load.pressure < Infinity,
      '0 MPa or above',
    );
    return;
  }
  demand('plate', 'force', load.force, load.force >= 0 && load.force < Infinity, '0 N or above');
  demand(
    'plate',
    'spread',
    load.spread,
    load.spread > 0 && load.spread <= span,
    `above 0 to ${span} mm, the span`,
  );
}

/** Radius over which a pad counts for the stress below it, mm: its own, or for one smaller than the plate is thick
 *  sqrt(1.6 r^2 + t^2) - 0.675 t (H. M. Westergaard, as in Roark's Formulas, chapter on flat plates), which stays finite. */
export function padRadius(spread: number, thickness: number): number {
  const r = spread / 2;
  return r < 0.5 * thickness ? Math.sqrt(1.6 * r * r + thickness * thickness) - 0.675 * thickness : r;
}

/** Stresses and limits from the moments per length, N mm / mm. */
export function bendingOf(
  { thickness }: PlateMaterial,
  span: number,
  deflection: number,
  middleMoment: number,
  edgeMoment: number,
): PlateBending {
  const section = thickness ** 2 / 6;
  const [middleStress, edgeStress] = [middleMoment / section, Math.abs(edgeMoment) / section];
  const spanOverThickness = span / thickness;
  const deflectionOverThickness = deflection / thickness;
  return {
    deflection,
    stress: Math.max(middleStress, edgeStress),
    stressAt: edgeStress > middleStress ? 'edge' : 'middle',
    middleStress,
    edgeStress,
    spanOverThickness,
    deflectionOverThickness,
    holds: spanOverThickness >= 10 && deflectionOverThickness <= 0.5,
  };
}
