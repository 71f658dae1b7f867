import { power } from '../arithmetic/power.ts';
import { allSpans, type Donor } from '../donor/donor.ts';
import { millimetresIn } from '../donor/types.ts';
import { oddSize } from '../donor/units/oddSize.ts';
import type { Vec3 } from '../solid/vector.ts';
import { type AxisName, axisName } from './axisName.ts';

/** What `fettle donor --json` prints. Lengths in mm after the guess, areas mm^2, volume mm^3. */
export interface DonorObject {
  readonly file: string;
  readonly format: string;
  readonly units: {
    readonly guess: string;
    /** 0 to 1. */
    readonly confidence: number;
    readonly because: string;
    /** `person`, `file` or `guess`. */
    readonly from: string;
  };
  readonly extents: Vec3;
  readonly triangles: number;
  readonly sound: {
    readonly manifold: boolean;
    readonly bodies: number;
    readonly genus: number;
    readonly volume: number;
  };
  readonly repairs: readonly { readonly kind: string; readonly count: number; readonly sentence: string }[];
  readonly remarks: readonly string[];
  readonly spans: readonly {
    readonly axis: AxisName;
    readonly from: number;
    readonly to: number;
    readonly length: number;
    /** How much can be taken out. */
    readonly available: number;
    readonly area: number;
  }[];
  readonly bores: readonly {
    readonly id: string;
    readonly axis: AxisName;
    readonly at: Vec3;
    readonly inscribed: number;
    readonly circumscribed: number;
    readonly depth: number;
    readonly through: boolean;
  }[];
  readonly posts: readonly {
    readonly id: string;
    readonly axis: AxisName;
    readonly at: Vec3;
    readonly inscribed: number;
    readonly circumscribed: number;
    readonly length: number;
  }[];
  readonly pockets: readonly {
    readonly id: string;
    readonly kind: string;
    readonly axis: AxisName;
    readonly at: Vec3;
    readonly width: number;
    readonly length: number;
    readonly depth: number;
    readonly through: boolean;
  }[];
}

/** What there is to say of a donor; spans along x, y, z, its principal axes, and `also`. */
export function donorObject(donor: Donor, also: readonly Vec3[] = []): DonorObject {
  const { name, read, unit, low, high, features } = donor;
  const extents = high.map((x, k) => x - low[k]!) as Vec3;
  const odd = oddSize(Math.max(...extents));
  const cubed = power(millimetresIn[unit.guess], 3);
  return {
    file: name,
    format: read.format,
    units: { ...unit },
    extents,
    triangles: donor.mesh.triangles.length / 3,
    sound: { ...read.sound, volume: read.sound.volume * cubed },
    repairs: read.repairs.map(({ kind, count, sentence }) => ({ kind, count, sentence })),
    remarks: [...read.remarks.map(({ sentence }) => sentence), ...(odd === undefined ? [] : [odd])],
    spans: allSpans(donor, also).map(({ axis, from, to, length, available, area }) => ({
      ...{ axis: axisName(axis), from, to, length, available, area },
    })),
    bores: features.bores.map(({ id, axis, at, inscribed, circumscribed, depth, through }) => ({
      ...{ id, axis: axisName(axis), at, inscribed, circumscribed, depth, through },
    })),
    posts: features.posts.map(({ id, axis, at, inscribed, circumscribed, length }) => ({
      ...{ id, axis: axisName(axis), at, inscribed, circumscribed, length },
    })),
    pockets: features.pockets.map(({ id, kind, axis, at, width, length, depth, through }) => ({
      ...{ id, kind, axis: axisName(axis), at, width, length, depth, through },
    })),
  };
}
