import type { Donor } from '../donor/donor.ts';
import type { Bore, Post } from '../donor/features/types.ts';
import type { FamilyChange } from '../family/family.ts';
import type { ReportedInterface } from './result.ts';

/** What one feature of a donor would become if the whole model were scaled. */
export interface ScaledFeature {
  readonly id: string;
  /** mm, as in the model and after scaling. */
  readonly now: number;
  readonly scaled: number;
  /** Clearance that drawing it so would leave to the machine, printed true, and the window it should lie in; null where
   *  nobody measured the machine there, and for an end the window does not have. */
  readonly clearance: number | null;
  readonly window: readonly [number | null, number | null] | null;
}

/** What uniform scaling to the same length would have done. */
export interface ScalingInstead {
  readonly axis: FamilyChange['axis'];
  readonly factor: number;
  readonly features: readonly ScaledFeature[];
}

/** Of a donor what scaling would change. */
export interface ScaledDonor extends Pick<Donor, 'low' | 'high'> {
  readonly features: {
    readonly bores: readonly Pick<Bore, 'id' | 'inscribed'>[];
    readonly posts: readonly Pick<Post, 'id' | 'circumscribed'>[];
  };
}

/** Why not scale: the factor that makes the largest change of a refit, and what it does to every bore and post. Undefined
 *  where no length changed. */
export function scalingInstead(
  { low, high, features: { bores, posts } }: ScaledDonor,
  changes: readonly FamilyChange[],
  interfaces: readonly ReportedInterface[],
): ScalingInstead | undefined {
  const [largest] = [...changes].sort((a, b) => Math.abs(b.by) - Math.abs(a.by));
  if (!largest) return undefined;
  const extent = high.reduce((sum, x, k) => sum + (x - low[k]!) * Math.abs(largest.axis[k]!), 0);
  const factor = (extent + largest.by) / extent;
  const scaled = (id: string, now: number): ScaledFeature => {
    const met = interfaces.find((one) => one.id === id);
    const sense = met?.kind === 'post' ? -1 : 1;
    const finite = (x: number): number | null => (Number.isFinite(x) ? x : null);
    return {
      id,
      now,
      scaled: now * factor,
      clearance: met ? sense * (now * factor - met.host) : null,
      window: met ? [finite(met.window[0]), finite(met.window[1])] : null,
    };
  };
  return {
    axis: largest.axis,
    factor,
    features: [
      ...bores.map(({ id, inscribed }) => scaled(id, inscribed)),
      ...posts.map(({ id, circumscribed }) => scaled(id, circumscribed)),
    ],
  };
}
