import { type ReportChange, reportPage } from '../output/report/index.ts';
import { stl } from '../output/stl.ts';
import { formatNumber } from '../units/index.ts';
import { partDrawings } from './drawing.ts';
import { fileName } from './fileName.ts';
import { sha256Hex } from './hash.ts';
import type { MadeFile, MadeKind } from './madeFile.ts';
import type { MadeJob } from './madeJob.ts';
import { reportInput } from './report.ts';
import type { MakeResult } from './result.ts';
import type { ResultFile } from './resultSchema.ts';
import { type ScenePart, sceneOf } from './scene.ts';
import { threeMfOf } from './threeMfOf.ts';

interface Wanted {
  readonly kinds: readonly MadeKind[];
  /** The STL as text. */
  readonly ascii?: boolean;
}

/** All files of a job but the result, which lists them. `base` is what their names begin with. The same job gives the same
 *  names and bytes, models first. Throws `Refused` for a 3MF whose parts do not fit on the bed. */
export function takeAway(made: MadeJob, base: string, { kinds, ascii = false }: Wanted): MadeFile[] {
  const { kernel, prepared, result, known } = made;
  const wanted = (kind: MadeKind) => kinds.includes(kind);
  const scene = wanted('drawing') || wanted('report') ? sceneOf(kernel, prepared, known) : [];
  return [
    ...(wanted('stl') ? models(result, base, ascii) : []),
    ...(wanted('3mf') ? [package3mf(made, base)] : []),
    ...(wanted('drawing') ? drawings(made, base, scene) : []),
    ...(wanted('report') ? [report(made, base, scene)] : []),
  ];
}

const models = ({ job, parts }: MakeResult, base: string, ascii: boolean): MadeFile[] =>
  parts.map(({ id, name, mesh, print: { triangles } }) => ({
    name: fileName(base, 'stl', id),
    kind: 'stl',
    bytes: stl(mesh, {
      ...{ part: name === '' ? job.title : `${job.title}, ${name}`, unit: 'mm', hash: job.hash, ascii },
    }),
    triangles,
    ...(id !== '' && { part: id }),
  }));

const package3mf = ({ kernel, prepared, result }: MadeJob, base: string): MadeFile => ({
  name: fileName(base, '3mf'),
  kind: '3mf',
  bytes: Uint8Array.from(threeMfOf(kernel, { prepared, result })),
  triangles: result.print.triangles,
});

const drawings = (
  { prepared: { job }, result }: MadeJob,
  base: string,
  scene: readonly ScenePart[],
): MadeFile[] =>
  partDrawings(result, scene, { author: job.author, licence: job.licence || undefined }).map(
    ({ id, svg }) => ({
      name: fileName(base, 'drawing', id),
      kind: 'drawing',
      bytes: new TextEncoder().encode(svg),
      ...(id !== '' && { part: id }),
    }),
  );

const report = ({ prepared, result }: MadeJob, base: string, scene: readonly ScenePart[]): MadeFile => ({
  name: fileName(base, 'report'),
  kind: 'report',
  bytes: new TextEncoder().encode(
    reportPage(
      reportInput(prepared, result, scene, { file: `${base}.job.json`, changes: changesOf(result) }),
    ),
  ),
});

/** What earlier prints changed, as the report tells it. */
const changesOf = ({ changed = [] }: MakeResult): readonly ReportChange[] =>
  changed.map(({ name, before, after, because }) => ({
    ...{ what: name, before: `${formatNumber(before)} mm`, after: `${formatNumber(after)} mm`, why: because },
  }));

/** Files as a result lists them; `placed` says where each will lie. */
export const listed = (files: readonly MadeFile[], placed: (name: string) => string): ResultFile['files'] =>
  files.map(({ name, kind, bytes, triangles, part }) => ({
    ...{ path: placed(name), kind, sha256: sha256Hex(bytes) },
    ...(triangles !== undefined && { triangles }),
    ...(part !== undefined && { part }),
  }));
