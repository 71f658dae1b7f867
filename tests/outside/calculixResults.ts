import { readFileSync } from 'node:fs';

/** Blocks of a CalculiX .frd file that nodes have numbers in: displacements, forces, strains. */
type Block = 'DISP' | 'FORC' | 'TOSTRAIN';

/** Numbers of every node, by block and node; a block the file does not have is empty. */
export function calculixResults(path: string): Readonly<Record<Block, ReadonlyMap<number, number[]>>> {
  const out: Record<Block, Map<number, number[]>> = { DISP: new Map(), FORC: new Map(), TOSTRAIN: new Map() };
  let block: Map<number, number[]> | undefined;
  for (const line of readFileSync(path, 'utf8').split('\n')) {
    if (line.startsWith(' -4')) block = out[line.slice(5, 13).trim() as Block];
    else if (line.startsWith(' -3')) block = undefined;
    else if (line.startsWith(' -1') && block !== undefined) {
      const values: number[] = [];
      for (let k = 13; k + 12 <= line.length; k += 12) values.push(Number(line.slice(k, k + 12)));
      block.set(Number(line.slice(3, 13)), values);
    }
  }
  return out;
}
