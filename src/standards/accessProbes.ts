/** How sure a value is of being what the standard prints. */
export type Confidence = 'high' | 'medium-high' | 'medium';

/** Something pushed at an opening to see whether it keeps out what it must. Lengths in mm, force in N. */
export interface AccessProbe {
  readonly name: string;
  readonly diameter: number;
  /** How far it reaches in; null of a sphere, which must not pass whole. */
  readonly length: number | null;
  /** Force it is pushed with; null where the test says none. */
  readonly force: number | null;
  /** First figure of the IP code it belongs to. */
  readonly ip: 1 | 2 | 3 | 4;
  readonly source: string;
  readonly confidence: Confidence;
}

const IEC_60529 = 'IEC 60529, read in a public copy';

/** The probes of IEC 60529, with the names of IEC 61032. A finger of 12 mm and a sphere of 12.5 mm are two things: IP2X asks
 *  for both. */
export const accessProbes = {
  largeSphere: {
    name: 'sphere of 50 mm (a hand)',
    diameter: 50,
    length: null,
    force: 50,
    ip: 1,
    source: IEC_60529,
    confidence: 'high',
  },
  sphere: {
    name: 'sphere of 12.5 mm',
    diameter: 12.5,
    length: null,
    force: 30,
    ip: 2,
    source: IEC_60529,
    confidence: 'high',
  },
  finger: {
    name: 'jointed test finger (probe B)',
    diameter: 12,
    length: 80,
    force: 10,
    ip: 2,
    source: 'IEC 61032, probe B; IEC 60529, read in a public copy',
    confidence: 'high',
  },
  rod: {
    name: 'rod of 2.5 mm (a tool)',
    diameter: 2.5,
    length: 100,
    force: 3,
    ip: 3,
    source: IEC_60529,
    confidence: 'high',
  },
  wire: {
    name: 'wire of 1.0 mm',
    diameter: 1,
    length: 100,
    force: 1,
    ip: 4,
    source: `${IEC_60529}; its length from memory`,
    confidence: 'high',
  },
} as const satisfies Readonly<Record<string, AccessProbe>>;

/** Behind the finger sits a stop face that a slot has to let through before more than the finger can reach in, mm.
 *  IEC 61032, probe B, from memory. */
export const fingerStop = { width: 50, depth: 20, confidence: 'medium' } as const;

/** How far a force may be off in the test, as a share. IEC 60529. */
export const FORCE_TOLERANCE = 0.1;

/** Whether a rigid probe of that diameter goes through a straight opening: its smallest width in mm, at least the
 *  diameter. No type test: a flexible edge gives, and an oblique way in may be wider.
 *  @example probePasses(accessProbes.wire, 0.9) // => false */
export const probePasses = ({ diameter }: Pick<AccessProbe, 'diameter'>, narrowest: number): boolean =>
  narrowest >= diameter;
