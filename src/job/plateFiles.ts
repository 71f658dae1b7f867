import { mergedMesh, topView } from '../output/plate/index.ts';
import { stl } from '../output/stl.ts';
import type { JobPlate, PlateJob } from './jobPlate.ts';
import { plateThreeMf } from './threeMfOf.ts';

export { plateBase } from './plateBase.ts';

/** A kind of file that a plate leaves the bench as; the view is an SVG. */
export type PlateKind = '3mf' | 'stl' | 'view';

/** One such file, in memory. */
export interface PlateFile {
  readonly kind: PlateKind;
  /** Without folder. */
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Of a model, all copies together. */
  readonly triangles?: number;
}

const endings: Readonly<Record<PlateKind, string>> = { '3mf': '3mf', stl: 'stl', view: 'svg' };

/** The files of a plate. `jobs` as it was laid out from, `base` as `plateBase` gives it. The same jobs give the same bytes. */
export function plateFiles(
  jobs: readonly PlateJob[],
  laid: JobPlate,
  base: string,
  kinds: readonly PlateKind[] = ['3mf', 'stl', 'view'],
): readonly PlateFile[] {
  const { parts, plate, placements, bed, spacing, hash } = laid;
  const merged = mergedMesh(
    plate.placements.map(({ item }, k) => ({ mesh: parts[item]!.mesh, placement: placements[k]! })),
  );
  const triangles = merged.triangles.length / 3;
  const title = [...new Set(jobs.map(({ result }) => result.job.title))].join('; ');
  const made = {
    '3mf': () => ({ bytes: plateThreeMf(jobs, laid), triangles }),
    stl: () => ({ bytes: stl(merged, { part: 'plate', unit: 'mm', hash }), triangles }),
    view: () => ({ bytes: new TextEncoder().encode(topView({ title, bed, spacing, plate, parts })) }),
  } as const;
  return kinds.map((kind) => ({ kind, name: `${base}.${endings[kind]}`, ...made[kind]() }));
}
