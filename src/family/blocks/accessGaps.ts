import { accessProbes } from '../../standards/accessProbes.ts';
import type { FamilyFinding } from '../familyFinding.ts';
import type { Feature, Made } from '../feature.ts';

/** A way past a cover: its smallest width, mm. */
export interface AccessGap {
  /** In the words of a bench: "slots", "gap under the plate". */
  readonly name: string;
  readonly width: number;
}

/** Holds every way past a cover against the probes of IEC 60529: a finger or the sphere that goes with it fails, a wire is pointed out. No type
 *  test: a rigid probe, straight in.
 *  @example accessGaps(() => [{ name: 'slots', width: 0.9 }], [0, 0, 2]).findings?.(made).map(({ id }) => id) // => ['probe.finger', 'probe.wire'] */
export function accessGaps(
  gaps: (made: Made) => readonly AccessGap[],
  at: readonly [number, number, number],
): Feature {
  return {
    findings: (made) => {
      const widest = gaps(made).reduce((a, b) => (b.width > a.width ? b : a), { name: 'no gap', width: 0 });
      const { finger, wire } = accessProbes;
      const common = { value: widest.width, side: 'below', unit: 'mm', at } as const;
      const named =
        widest.width > 0
          ? `the widest way past the cover is ${widest.width.toFixed(2)} mm (${widest.name})`
          : 'no way past the cover was found';
      const found: FamilyFinding[] = [
        {
          ...{
            ...common,
            id: 'probe.finger',
            title: 'a finger kept out',
            limit: finger.diameter,
            source: finger.source,
          },
          because: `${named}; a finger is ${finger.diameter} mm thick and the sphere that goes with it ${accessProbes.sphere.diameter} mm. This is geometry, no type test`,
          remedy: 'narrower slots, or a larger overlap',
        },
        {
          ...{
            ...common,
            id: 'probe.wire',
            title: 'a wire kept out',
            limit: wire.diameter,
            source: wire.source,
          },
          ...{ missed: 'caution' },
          because: `${named}; a wire of ${wire.diameter} mm passes what is wider. This is geometry, no type test`,
          remedy:
            'slots below 1 mm, or screws that hold the plate down; nothing that bites may lie within reach of a wire',
        },
      ];
      return found;
    },
  };
}
