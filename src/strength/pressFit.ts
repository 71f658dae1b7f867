/** Elastic properties of one side of a fit. */
export interface Elastic {
  /** MPa, above 0. */
  readonly modulus: number;
  readonly poisson: number;
}

/** A round post pressed into a round socket. Lengths in mm. */
export interface RoundPressFit {
  /** Diameter of the joint, above 0. */
  readonly diameter: number;
  /** Bore of a hollow post, 0 or above, below `diameter`; absent: solid. */
  readonly postBore?: number;
  /** Thickness of the socket's wall, above 0; Infinity for a hole in a large body. */
  readonly wall: number;
  /** Length over which they touch, 0 or above. */
  readonly length: number;
  /** Post diameter less socket diameter before assembly; 0 or below gives no pressure. */
  readonly interference: number;
  readonly post: Elastic;
  readonly socket: Elastic;
  readonly friction: number;
}

export interface PressFitResult {
  /** Pressure on the joint, MPa. */
  readonly pressure: number;
  /** Largest tension along the socket's wall, MPa, at its inner face. */
  readonly hoopStress: number;
  /** Stretch of the socket's inner face, 0.01 is 1 %. */
  readonly hoopStrain: number;
  /** Push that slides the post at full length, N. */
  readonly pushForce: number;
}

/** Pressure, stress and push of a round press fit: thick-walled cylinders after Lame, plane stress.
 *
 *  p = delta / (D [((Do^2 + D^2) / (Do^2 - D^2) + nu_h) / E_h + ((D^2 + di^2) / (D^2 - di^2) - nu_s) / E_s]), hoop stress at the
 *  socket's bore p (Do^2 + D^2) / (Do^2 - D^2), hoop strain (hoop stress + nu_h p) / E_h, push mu p pi D L. Shigley's Mechanical Engineering
 *  Design, press and shrink fits (from memory); the same in Timoshenko, Strength of Materials, part II.
 *  Elastic: a plastic creeps, and pressure falls within days; this is the moment of assembly, the worst one for the socket.
 *  A socket with a closed end is stiffer near it. Throws `RangeError` outside the stated ranges.
 *  @example solid post and socket of one plastic of E = 2000, D = 4, wall 2: p = E delta / (2 D) (1 - (D / Do)^2)
 *  roundPressFit({ diameter: 4, wall: 2, length: 5, interference: 0.04, post: { modulus: 2000, poisson: 0.35 },
 *    socket: { modulus: 2000, poisson: 0.35 }, friction: 0.3 }).pressure // => 7.5 */
export function roundPressFit(fit: RoundPressFit): PressFitResult {
  const { diameter, wall, length, interference, post, socket, friction } = fit;
  const postBore = fit.postBore ?? 0;
  demand('diameter', diameter, diameter > 0 && diameter < Infinity, 'above 0 mm');
  demand('postBore', postBore, postBore >= 0 && postBore < diameter, `0 to below ${diameter} mm (the post)`);
  common(wall, length, interference, post, socket, friction);
  const ratio = (diameter / (diameter + 2 * wall)) ** 2;
  const hollow = (postBore / diameter) ** 2;
  const hoop = (1 + ratio) / (1 - ratio);
  const give =
    (hoop + socket.poisson) / socket.modulus + ((1 + hollow) / (1 - hollow) - post.poisson) / post.modulus;
  const pressure = Math.max(0, interference) / (diameter * give);
  return {
    pressure,
    hoopStress: pressure * hoop,
    hoopStrain: (pressure * (hoop + socket.poisson)) / socket.modulus,
    pushForce: friction * pressure * Math.PI * diameter * length,
  };
}

/** A rectangular post pressed into a rectangular socket. Lengths in mm. */
export interface RectangularPressFit {
  readonly width: number;
  readonly depth: number;
  readonly wall: number;
  readonly length: number;
  /** Post less socket across the width, and across the depth. */
  readonly interference: { readonly width: number; readonly depth: number };
  readonly post: Elastic;
  readonly socket: Elastic;
  readonly friction: number;
}

/** Upper estimate of pressure and push of a rectangular press fit.
 *
 *  The socket's walls are taken not to bow: each pair only stretches, so the faces `w` apart and `d` broad press with
 *  p = delta / (w [d / (2 t E_h) + (1 - nu_s) / E_s]). Real walls bow outwards and give way, so pressure and push come out too high, the more so the
 *  longer the side is against the wall: the old part is never taken to be gentler pressed than it is. For a square and a thin wall it is the
 *  round fit's limit; for a thick wall it lies above the round fit of the same width. (1 - nu_s) supposes both pairs pressed, the stiffer case.
 *  The strain is the mean one along the wall, at most delta / w; the corners, where a bowing wall bends, see more.
 *  Derived here from equilibrium of one half; no handbook. `pressure`, stress and strain are those of the worse pair.
 *  Throws `RangeError` outside the stated ranges. */
export function rectangularPressFit(fit: RectangularPressFit): PressFitResult {
  const { width, depth, wall, length, interference, post, socket, friction } = fit;
  demand('width', width, width > 0 && width < Infinity, 'above 0 mm');
  demand('depth', depth, depth > 0 && depth < Infinity, 'above 0 mm');
  common(wall, length, Math.max(interference.width, interference.depth), post, socket, friction);
  const pair = (across: number, broad: number, delta: number) => {
    const stretch = broad / (2 * wall * socket.modulus);
    const pressure = Math.max(0, delta) / (across * (stretch + (1 - post.poisson) / post.modulus));
    return {
      pressure,
      stress: (pressure * broad) / (2 * wall),
      push: friction * pressure * 2 * broad * length,
    };
  };
  const pairs = [pair(width, depth, interference.width), pair(depth, width, interference.depth)] as const;
  const stress = Math.max(pairs[0].stress, pairs[1].stress);
  return {
    pressure: Math.max(pairs[0].pressure, pairs[1].pressure),
    hoopStress: stress,
    hoopStrain: stress / socket.modulus,
    pushForce: pairs[0].push + pairs[1].push,
  };
}

function common(
  wall: number,
  length: number,
  interference: number,
  post: Elastic,
  socket: Elastic,
  friction: number,
): void {
  demand('wall', wall, wall > 0, 'above 0 mm');
  demand('length', length, length >= 0 && length < Infinity, '0 mm or above');
  demand('interference', interference, Number.isFinite(interference), 'a finite number of mm');
  demand('friction', friction, friction >= 0 && friction < Infinity, '0 or above');
  for (const [name, e] of [
    ['post', post],
    ['socket', socket],
  ] as const) {
    demand(`${name} modulus`, e.modulus, e.modulus > 0 && e.modulus < Infinity, 'above 0 MPa');
    demand(`${name} poisson`, e.poisson, e.poisson >= 0 && e.poisson <= 0.5, '0 to 0.5');
  }
}

function demand(name: string, value: number, allowed: boolean, range: string): void {
  if (!allowed) throw new RangeError(`press fit requires ${name} ${range} (given ${value})`);
}
