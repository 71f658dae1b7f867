import type { Contour, Vec2 } from '../solid/vector.ts';

/** The part of a profile below the line y = `cut`, for looking at an arm without the body that holds it.
 *
 *  Each contour is broken into the chains that run below the line; the cut ends, sorted along the line, pair up into
 *  the spans of material on it (even-odd), which close the chains again. Works for profiles in several pieces, with
 *  holes, and for holes cut by the line. A vertex on the line counts as above it.
 *
 *  `contours` in mm, outer ones counter-clockwise, holes clockwise. Returns contours of the same sense; `[]` when
 *  nothing lies below.
 *  @example profileBelow([[[0, 0], [2, 0], [2, 3], [0, 3]]], 1) // => [[[0, 1], [0, 0], [2, 0], [2, 1]]] */
export function profileBelow(contours: readonly Contour[], cut: number): Contour[] {
  const whole: Contour[] = [];
  const chains: Contour[] = [];
  for (const contour of contours) {
    const below = contour.map((p) => p[1] < cut);
    if (below.every(Boolean)) {
      whole.push(contour.map((p): Vec2 => [p[0], p[1]]));
      continue;
    }
    const n = contour.length;
    for (let i = 0; i < n; i++) {
      const enters = !below[i] && below[(i + 1) % n];
      if (!enters) continue;
      const chain: Contour = [crossing(contour[i]!, contour[(i + 1) % n]!, cut)];
      let j = (i + 1) % n;
      for (; below[j]; j = (j + 1) % n) chain.push([contour[j]![0], contour[j]![1]]);
      chain.push(crossing(contour[(j + n - 1) % n]!, contour[j]!, cut));
      chains.push(chain);
    }
  }
  // Every end of every chain, along the line; neighbours 0-1, 2-3, ... bound the spans of material.
  const ends = chains.flatMap((chain, c) => [
    { x: chain[0]![0], c, start: true },
    { x: chain[chain.length - 1]![0], c, start: false },
  ]);
  ends.sort((a, b) => a.x - b.x || a.c - b.c || Number(a.start) - Number(b.start));
  const partner = new Map<string, number>();
  for (let i = 0; i + 1 < ends.length; i += 2) {
    const [a, b] = [ends[i]!, ends[i + 1]!];
    // Material lies below the line, so a span is walked from an exit to an entry.
    const [from, to] = a.start ? [b, a] : [a, b];
    if (from.start || !to.start) return whole; // contours that cross themselves have no inside
    partner.set(`${from.c}`, to.c);
  }
  const used = new Set<number>();
  for (let c = 0; c < chains.length; c++) {
    if (used.has(c)) continue;
    const joined: Contour = [];
    for (let k: number | undefined = c; k !== undefined && !used.has(k); k = partner.get(`${k}`)) {
      used.add(k);
      joined.push(...chains[k]!);
    }
    if (joined.length >= 3) whole.push(joined);
  }
  return whole;
}

function crossing(a: Readonly<Vec2>, b: Readonly<Vec2>, cut: number): Vec2 {
  const t = (cut - a[1]) / (b[1] - a[1]);
  return [a[0] + t * (b[0] - a[0]), cut];
}
