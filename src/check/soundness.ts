import { meshOf } from '../solid/meshOf.ts';
import { counted, faultsOf, soundnessOf } from '../solid/soundness.ts';
import type { Check } from './context.ts';

/** Soundness: what is written is one closed body with as many holes as its family says. The value counts faults. */
export const soundness: Check = ({ solid, family, values, known }) => {
  const status = solid.status();
  const found = known.of('soundness', solid, () => soundnessOf(meshOf(solid)));
  const faults =
    status === 'NoError' ? faultsOf(found, family.genus(values)) : [`it is no closed solid (${status})`];
  const holds = faults.length === 0;
  return [
    {
      ...{ id: 'sound', title: 'one sound body', verdict: holds ? 'holds' : 'fails' },
      ...{ value: faults.length, limit: 0, unit: '1', margin: -faults.length, at: null },
      because: holds
        ? `one closed body, ${counted(found.genus ?? 0, 'hole')} through it, ${counted(found.triangles, 'triangle')}`
        : faults.join('; '),
      source: 'counted on the triangles as the file holds them',
      remedy: holds
        ? ''
        : 'change the size that lets walls touch or part just there; if none does, the family itself is at fault',
      details: {
        bodies: found.bodies,
        cavities: found.cavities,
        'holes through': found.genus ?? 'not closed',
        triangles: found.triangles,
        'volume, mm3': found.volume,
      },
    },
  ];
};
