import type { Mesh } from '../../solid/mesh.ts';
import { place } from '../../solid/placement.ts';
import { add, dot, type Placement, times, type Vec2, type Vec3 } from '../../solid/vector.ts';
import { escapeText, project, viewOf } from '../drawing/index.ts';
import { encodePng, frameOf, picture, type Sitter } from '../picture/index.ts';
import { balloonsAround, type NumberedPlace } from './balloonsAround.ts';
import { base64 } from './base64.ts';
import type { ReportFinding, ReportFit, ReportPart } from './reportInput.ts';

/** Size of a picture in its own units. */
const [WIDTH, HEIGHT] = [800, 600];

/** Pixels to each unit, and how much larger than usual the numbers are: a picture shown large has more of the one, a small one
 *  more of the other. */
const shownAs = {
  large: { fineness: 1.5, enlarged: 1 },
  middling: { fineness: 1.5, enlarged: 1.4 },
  small: { fineness: 1, enlarged: 1.7 },
} as const;
type Shown = keyof typeof shownAs;

const view = viewOf('isometric');

/** The part among the machine around it, with the number of each place where they meet. */
export function machinePicture(
  part: ReportPart,
  fits: readonly ReportFit[],
  alt: string,
  how: { readonly shown: Shown; readonly sharpness: number },
): string {
  const sitters: Sitter[] = [
    { mesh: part.mesh, style: 'part' },
    ...part.hosts.map(({ mesh }) => ({ mesh, style: 'ghost' as const })),
  ];
  const places = fits.flatMap(({ number, ...fit }) => (number === null ? [] : [{ number, at: onFace(fit) }]));
  return numberedPicture(sitters, places, alt, how);
}

/** The part as it lies on the bed, with the number of each finding that wants looking at. */
export function bedPicture(
  part: ReportPart,
  findings: readonly (ReportFinding & { readonly number: number })[],
  alt: string,
  sharpness: number,
): string {
  const places = findings.flatMap(({ number, at }) => (at === null ? [] : [{ number, at }]));
  return numberedPicture([{ mesh: placed(part.mesh, part.onBed), style: 'part' }], places, alt, {
    shown: 'small',
    sharpness,
  });
}

/** The middle of the face at which a size ends, the one that looks at the reader: sizes across each other at one place then
 *  have two. */
function onFace({
  kind,
  at,
  across,
  predicted,
}: Pick<ReportFit, 'kind' | 'at' | 'across' | 'predicted'>): Vec3 {
  if (kind === 'step') return at;
  return add(at, times(across, (Math.sign(dot(across, view.toward)) || 1) * (predicted / 2)));
}

function numberedPicture(
  sitters: readonly Sitter[],
  places: readonly { readonly number: number; readonly at: Vec3 }[],
  alt: string,
  { shown, sharpness }: { readonly shown: Shown; readonly sharpness: number },
): string {
  const { fineness, enlarged } = shownAs[shown];
  const [width, height] = [WIDTH, HEIGHT].map((side) => Math.round(side * fineness * sharpness)) as Vec2;
  const of = (style: Sitter['style']) => sitters.flatMap((s) => (s.style === style ? [s.mesh] : []));
  const { scale, middle } = frameOf(of('part'), of('ghost'), view, WIDTH, HEIGHT);
  const onPicture = (p: Vec3): Vec2 => {
    const [x, y] = project(view, p);
    return [WIDTH / 2 + scale * (x - middle[0]), HEIGHT / 2 - scale * (y - middle[1])];
  };
  const numbered = places.map(({ number, at }): NumberedPlace => ({ number, at: onPicture(at) }));
  const png = base64(encodePng(picture(sitters, { width, height, view }), width, height));
  return `<svg class="picture" role="img" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}"><title>${escapeText(alt)}</title><image width="${WIDTH}" height="${HEIGHT}" href="data:image/png;base64,${png}"/>${balloonsAround(numbered, { width: WIDTH, height: HEIGHT, enlarged })}</svg>`;
}

function placed({ positions, triangles }: Mesh, onBed: Placement): Mesh {
  const moved = new Float32Array(positions.length);
  for (let k = 0; k < positions.length; k += 3)
    moved.set(place(onBed, [positions[k]!, positions[k + 1]!, positions[k + 2]!]), k);
  return { positions: moved, triangles };
}
