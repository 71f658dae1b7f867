import { DonorRefusal } from '../donorRefusal.ts';
import type { DonorRemark, LengthUnit } from '../types.ts';
import { holdTriangles } from './limits.ts';
import type { Progress, TriangleSoup } from './triangleSoup.ts';
import { unitInHeader } from './unitInHeader.ts';
import { Words } from './words.ts';

const STRIDE = 2 ** 14;

/** Triangles of an STL in text: `solid`, `facet normal`, `outer loop`, three times `vertex`, `endloop`, `endfacet`,
 *  `endsolid` (StereoLithography Interface Specification, 3D Systems, 1989, from memory). Upper or lower case, any blanks,
 *  comments, any number of solids, which are taken together. What stands for a normal is passed over.
 *  Throws `donor_empty`, `donor_text_unclear` with the line, `donor_too_large`. */
export function asciiStl(bytes: Uint8Array, onProgress?: Progress): TriangleSoup {
  const words = new Words(bytes);
  const remarks: DonorRemark[] = [];
  // A facet in text is never shorter than 100 bytes; half of what then fits is a good start.
  let corners = new Float64Array(9 * (16 + Math.ceil(bytes.length / 200)));
  let count = 0;
  let solids = 0;
  let open = false;
  let cutShort: string | null = null;
  let declaredUnit: LengthUnit | null = null;

  while (words.next()) {
    if (words.is('solid')) {
      declaredUnit ??= unitInHeader(words.restOfLine());
      solids++;
      open = true;
    } else if (words.is('endsolid') || (words.is('end') && words.next() && words.is('solid'))) {
      words.restOfLine();
      open = false;
    } else if (words.is('facet')) {
      if (9 * count === corners.length) {
        const larger = new Float64Array(2 * corners.length);
        larger.set(corners);
        corners = larger;
      }
      if (!readFacet(words, corners, 9 * count)) {
        cutShort = `the text ends in the middle of a facet, line ${words.line()}`;
        break;
      }
      count++;
      if (count % STRIDE === 0) {
        holdTriangles(count);
        onProgress?.(words.end / bytes.length);
      }
    } else if (words.last) cutShort = `the text ends with "${words.text()}"`;
    else throw unclear(words, 'a facet or the end of the solid');
  }
  holdTriangles(count);
  if (cutShort === null && open) cutShort = 'the text ends without endsolid';
  if (count === 0)
    throw new DonorRefusal('donor_empty', 'an STL without a triangle', 'a model with a surface');
  if (cutShort !== null) remarks.push({ kind: 'count-wrong', sentence: cutShort });
  if (solids > 1)
    remarks.push({ kind: 'several-solids', sentence: `the file lists ${solids} solids, taken together` });
  return { corners: corners.subarray(0, 9 * count), cutShort, declaredUnit, remarks };
}

/** Words between `facet` and `outer` at most: `normal`, three numbers, and what odd writers add. */
const MOST_BEFORE_LOOP = 8;

/** Reads on from `facet` to `endfacet`; false when the text ends before, if only in the middle of a word. */
function readFacet(words: Words, into: Float64Array, at: number): boolean {
  for (let k = 0; ; k++) {
    if (!words.next()) return false;
    if (words.is('outer')) break;
    if (words.last) return false;
    if (words.is('vertex') || k === MOST_BEFORE_LOOP) throw unclear(words, 'outer loop');
  }
  if (!reads(words, 'loop', 'loop')) return false;
  for (let k = 0; k < 9; k++) {
    if (k % 3 === 0 && !reads(words, 'vertex', 'three lines with vertex')) return false;
    if (!words.next()) return false;
    const value = words.number();
    if (value === undefined && words.last) return false;
    if (value === undefined) throw unclear(words, 'a number');
    into[at + k] = value;
  }
  return closes(words, 'loop') && closes(words, 'facet');
}

/** Reads one word that must stand there; false at the end of the text. */
function reads(words: Words, word: string, allowed: string): boolean {
  if (!words.next()) return false;
  if (words.is(word)) return true;
  if (words.last) return false;
  throw unclear(words, allowed);
}

/** Reads `endloop` or `end loop`; false at the end of the text. */
function closes(words: Words, what: 'loop' | 'facet'): boolean {
  if (!words.next()) return false;
  if (words.is(`end${what}`)) return true;
  const allowed = what === 'loop' ? 'three corners a facet, then endloop' : 'endfacet';
  if (words.is('end')) return reads(words, what, allowed);
  if (words.last) return false;
  throw unclear(words, allowed);
}

const unclear = (words: Words, allowed: string): DonorRefusal =>
  new DonorRefusal('donor_text_unclear', `line ${words.line()} has "${words.text()}"`, allowed);
