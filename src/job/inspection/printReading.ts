import type { Interface } from '../../family/interface.ts';
import type { ReadingSpec } from '../../family/reading.ts';
import { idOf, type MemberJob } from '../members.ts';
import type { TrialRecord } from '../trialSchema.ts';

/** How one size of a print is read with callipers. */
export interface PrintReading {
  /** Interface, as in the result. */
  readonly id: string;
  /** What is asked at the bench; its range is about what the reading should be. */
  readonly spec: ReadingSpec;
  /** A size that ends at the axis of a hollow is read to the near wall; half the printed width of this interface is added. */
  readonly half?: string;
}

/** A place where part and machine meet, as far as its reading goes. */
export interface ReadMeeting {
  /** As in the result: "front-left.stem", "front left: stem in hole". */
  readonly id: string;
  readonly name: string;
  readonly one: Interface;
  readonly part: Pick<MemberJob, 'member'>;
}

/** Readings the sheet asks for; two is the least that shows whether a reading can be trusted. */
const TIMES = 3;

/** How far a print may be from what was expected before a reading of it is refused as one of something else: this share of
 *  the size, and at least so many mm. Common practice, no source. */
const FAR = { share: 0.25, least: 1 } as const;

/** How to read each size of a print, from what the record of its trial expected of it. Interfaces the record does not
 *  know are left out. */
export const printReadings = (
  meetings: readonly ReadMeeting[],
  { sizes }: Pick<TrialRecord, 'sizes'>,
): readonly PrintReading[] =>
  meetings.flatMap((meeting) => {
    const size = sizes[meeting.id];
    return size === undefined ? [] : [printReading(meeting, size.predicted, sizes)];
  });

function printReading(
  { id, name, one, part: { member } }: ReadMeeting,
  expected: number,
  sizes: TrialRecord['sizes'],
): PrintReading {
  const half = one.kind === 'step' && one.hollow !== undefined ? idOf(member, one.hollow) : undefined;
  const width = half === undefined ? 0 : (sizes[half]?.predicted ?? 0);
  const typical = expected - width / 2;
  const far = Math.max(FAR.least, FAR.share * typical);
  const inside = one.kind === 'bore' || one.kind === 'slot';
  const round = one.round !== undefined || (one.kind === 'bore' && one.hydraulic === undefined);
  return {
    id,
    spec: {
      name,
      jaw: inside ? 'inside' : 'outside',
      round: inside && round,
      from: Math.max(0.1, Number((typical - far).toFixed(2))),
      to: Number((typical + far).toFixed(2)),
      typical,
      times: TIMES,
      tip: tipFor(one, round),
    },
    ...(half !== undefined && { half }),
  };
}

/** Where the jaws go, for the bench. */
function tipFor({ kind, hollow, centres }: Interface, round: boolean): string {
  if (kind === 'step') {
    if (centres)
      return 'From an edge of one to the same edge of the other: read over both outer edges and take one width off';
    return hollow === undefined
      ? 'Large jaws over both ends of this size, clear of seams and strings; the depth rod where the jaws do not reach'
      : 'Large jaws over the wall alone: one jaw in the hollow, the other on the face the size starts from; half the hollow is added for you';
  }
  if (kind === 'bore' || kind === 'slot')
    return round
      ? 'Small jaws inside, past the first layers, turned until they show the most'
      : 'Small jaws between the two walls, past the first layers, rocked until they show the least';
  return round
    ? 'Large jaws around it, above the first layers and off the seam, turned a little between readings'
    : 'Large jaws over the two faces, above the first layers, clear of seams and strings';
}
