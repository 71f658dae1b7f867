/** A wire bar that is hinged at one end and carries something at the other that moves straight: a key that a bar keeps
 *  level, a flap on a link. Lengths in mm. */
export interface SwingLengths {
  /** Middle of the hinge to middle of the bar's end. */
  readonly reach: number;
  /** How far the end stands above the hinge line before it moves; negative below it. */
  readonly rise: number;
  /** How far the end goes down. */
  readonly travel: number;
}

/** How the end of such a bar moves, `down` mm into its travel. NaN where the bar is too short to get there. */
export interface Swing extends SwingLengths {
  /** How far the end has slid away from the hinge, across the travel, mm. */
  readonly slideAt: (down: number) => number;
  /** How far the bar has turned, radians about x. */
  readonly turnAt: (down: number) => number;
  /** Slope of the bar's leg before it moves, radians above the level. */
  readonly slope: number;
  /** The slide over the whole travel: least, greatest, range and middle, mm. */
  readonly slide: {
    readonly least: number;
    readonly greatest: number;
    readonly range: number;
    readonly middle: number;
  };
  /** Whether the bar is long enough for the whole travel. */
  readonly reaches: boolean;
}

/** The end runs on a circle about its hinge while what it carries goes straight: y = sqrt(reach^2 - height^2). It is
 *  furthest from the hinge where the bar lies level, which may be within the travel. Never throws.
 *  @example swing({ reach: 5, rise: 4, travel: 4 }).slide.range // => 2 */
export function swing({ reach, rise, travel }: SwingLengths): Swing {
  const from = (down: number): number => Math.sqrt(reach ** 2 - (rise - down) ** 2);
  const slideAt = (down: number): number => from(down) - from(0);
  const level = Math.min(travel, Math.max(0, rise));
  const at = [0, level, travel].map(slideAt);
  const [least, greatest] = [Math.min(...at), Math.max(...at)];
  return {
    ...{ reach, rise, travel, slideAt },
    turnAt: (down) => Math.asin(rise / reach) - Math.asin((rise - down) / reach),
    slope: Math.asin(rise / reach),
    slide: { least, greatest, range: greatest - least, middle: (least + greatest) / 2 },
    reaches: reach > Math.max(Math.abs(rise), Math.abs(rise - travel)),
  };
}
