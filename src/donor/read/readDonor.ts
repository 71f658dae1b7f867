import { donorSoundness } from '../repair/donorSoundness.ts';
import { sew } from '../repair/sew.ts';
import type { DonorFormat, DonorMesh, DonorRemark, ReadDonor } from '../types.ts';
import { weldCorners } from '../weldCorners.ts';
import { asciiStl } from './asciiStl.ts';
import { binaryStl } from './binaryStl.ts';
import { fileKind } from './fileKind.ts';
import { threeMf } from './threeMf.ts';
import type { Progress } from './triangleSoup.ts';

/** Reads a model from the bytes of its file, binary STL, STL in text or 3MF, by what is in it. What comes back is
 *  closed and the right way out; what was repaired is listed. Coordinates are the file's, in no unit yet.
 *
 *  `name`: of the file, to tell where it misleads. `onProgress`: share done, 0 to 1, never going back.
 *  Throws `DonorRefusal` with what is wrong and where; no other error, whatever the bytes.
 *  @example readDonor(cubeFile, 'cube.stl').sound // => { manifold: true, bodies: 1, genus: 0, volume: 1 } */
export function readDonor(
  bytes: Uint8Array,
  name: string,
  { onProgress }: { readonly onProgress?: Progress } = {},
): ReadDonor {
  const report = onProgress && neverBack(onProgress);
  const kind = fileKind(bytes);
  if (kind === 'zip') {
    const { mesh, ...read } = threeMf(bytes, (share) => report?.(0.9 * share));
    return finished(mesh, '3mf', name, read, report);
  }
  const reading: Progress = (share) => report?.(0.3 * share);
  const soup = kind === 'stl-ascii' ? asciiStl(bytes, reading) : binaryStl(bytes, reading);
  const welded = weldCorners(soup.corners);
  report?.(0.5);
  const { mesh, repairs } = sew(welded, soup.cutShort, (share) => report?.(0.5 + 0.4 * share));
  const { declaredUnit, remarks } = soup;
  const triangles = soup.corners.length / 9;
  return finished(mesh, kind, name, { declaredUnit, triangles, repairs, remarks }, report);
}

function finished(
  mesh: DonorMesh,
  format: DonorFormat,
  name: string,
  read: Omit<ReadDonor, 'mesh' | 'format' | 'sound'>,
  report: Progress | undefined,
): ReadDonor {
  const sound = donorSoundness(mesh);
  report?.(1);
  return { mesh, format, sound, ...read, remarks: [...read.remarks, ...misleading(name, format)] };
}

function misleading(name: string, format: DonorFormat): readonly DonorRemark[] {
  const ending = /\.(stl|3mf)$/i.exec(name)?.[1]?.toLowerCase();
  const content = format === '3mf' ? '3mf' : 'stl';
  if (ending === undefined || ending === content) return [];
  return [
    {
      kind: 'name-misleads',
      sentence: `the name ends in .${ending}, the content is ${content === '3mf' ? 'a 3MF' : 'an STL'}`,
    },
  ];
}

function neverBack(onProgress: Progress): Progress {
  let furthest = 0;
  return (share) => {
    if (share <= furthest) return;
    furthest = Math.min(1, share);
    onProgress(furthest);
  };
}
