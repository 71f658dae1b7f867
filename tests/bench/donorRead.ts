// Reading a donor of a million triangles: `npx tsx tests/bench/donorRead.ts [TRIANGLES]`. Time of each step, and the
// peak of the process's memory, which holds the file itself as well. Each format runs in a process of its own.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { strToU8 } from 'fflate';
import { readDonor } from '../../src/donor/read/readDonor.ts';
import type { DonorMesh } from '../../src/donor/types.ts';
import { stl } from '../../src/output/stl.ts';
import { plainStl, plainText, plainThreeMf } from '../donor/files.ts';

/** A ring with a wavy tube: closed, genus 1, no two triangles alike. Lengths in mm. */
function wavyRing(triangles: number): DonorMesh {
  const around = Math.round(Math.sqrt(triangles));
  const across = Math.round(triangles / (2 * around));
  const positions = new Float64Array(3 * around * across);
  const corners = new Uint32Array(6 * around * across);
  for (let i = 0; i < around; i++)
    for (let j = 0; j < across; j++) {
      const [u, v] = [(2 * Math.PI * i) / around, (2 * Math.PI * j) / across];
      const tube = 10 + Math.sin(7 * u) + Math.cos(5 * v);
      const radius = 40 + tube * Math.cos(v);
      positions.set(
        [radius * Math.cos(u), radius * Math.sin(u), tube * Math.sin(v)].map(Math.fround),
        3 * (i * across + j),
      );
      const [right, up] = [(i + 1) % around, (j + 1) % across];
      const [a, b] = [i * across + j, right * across + j];
      const [c, d] = [right * across + up, i * across + up];
      corners.set([a, b, c, a, c, d], 6 * (i * across + j));
    }
  return { positions, triangles: corners };
}

const files = {
  'stl-binary': (ring: DonorMesh) => plainStl(ring),
  'stl-ascii': (ring: DonorMesh) => strToU8(plainText(ring, (x) => x.toExponential(8))),
  '3mf': plainThreeMf,
} as const;
type Format = keyof typeof files;

function measure(format: Format, file: Uint8Array): void {
  const MIB = 2 ** 20;
  const start = performance.now();
  const startWork = process.cpuUsage();
  const { mesh, sound, repairs } = readDonor(file, 'ring');
  const read = performance.now();
  const { user, system } = process.cpuUsage(startWork);
  if (!sound.manifold || sound.genus !== 1 || repairs.length > 0)
    throw new Error('the ring was not read whole');
  const afterRead = process.resourceUsage().maxRSS / 1024;
  stl(
    { positions: Float32Array.from(mesh.positions), triangles: mesh.triangles },
    { part: 'ring', unit: 'mm', hash: '0' },
  );
  const written = performance.now();
  const peak = process.resourceUsage().maxRSS / 1024;
  console.log(
    `${format}: ${mesh.triangles.length / 3} triangles, file ${(file.length / MIB).toFixed(0)} MiB; ` +
      `read and welded in ${((read - start) / 1000).toFixed(2)} s (${((user + system) / 1e6).toFixed(2)} s of work), peak ${afterRead.toFixed(0)} MiB; ` +
      `written as STL ${((written - read) / 1000).toFixed(2)} s, peak ${peak.toFixed(0)} MiB (goal below 2048)`,
  );
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const count = Number(process.argv[2] ?? 1e6);
  const format = process.argv[3] as Format | undefined;
  if (format !== undefined) measure(format, new Uint8Array(readFileSync(process.argv[4]!)));
  else {
    const folder = mkdtempSync(`${tmpdir()}/donor-`);
    const ring = wavyRing(count);
    for (const [name, make] of Object.entries(files)) {
      writeFileSync(`${folder}/${name}`, make(ring));
      spawnSync('npx', ['tsx', process.argv[1]!, `${count}`, name, `${folder}/${name}`], {
        stdio: 'inherit',
      });
    }
    rmSync(folder, { recursive: true });
  }
}
