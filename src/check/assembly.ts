import type { Route, RouteStep, SocketWall } from '../family/load.ts';
import { SAME_PLASTIC } from '../standards/friction.ts';
import { hostMaterials } from '../standards/materials.ts';
import { crushRibFit } from '../strength/crushRibs.ts';
import { type PressFitResult, rectangularPressFit, roundPressFit } from '../strength/pressFit.ts';
import { wireStiffness } from '../strength/wireSpring.ts';
import type { Check, CheckContext, PlannedInterface } from './context.ts';
import type { Finding } from './finding.ts';
import { mouthState } from './mouthState.ts';
import { mm, newton, percent, unlessHolds } from './verdictOf.ts';

/** Young's modulus of spring steel wire, MPa; from memory of textbook tables. */
const STEEL = 205_000;
/** Peak of stress over mean in a socket that a post is levered in: a triangular pressure doubles the mean, the inner
 *  corners of an old socket half as much again. Common practice, no source. */
const LEVER_PEAK = 3;

/** What one action asks, as shares of what part and machine bear; 1 is the limit. */
interface Demand {
  readonly step: RouteStep;
  readonly share: number;
  /** The same at the tight end of what is likely, where that differs. */
  readonly risk?: number;
  readonly flex: number;
  /** Push asked for, N, and how much of it the old part takes. */
  readonly force: number;
  readonly onHost: number;
  readonly say: string;
}

interface Weighed {
  readonly route: Route;
  readonly demands: readonly Demand[];
  /** The hardest step. */
  readonly worst: Demand;
  /** Push on the old part over all steps, N. */
  readonly onHost: number;
}

/** Every order with what it asks, the gentlest first. Where the hardest steps are alike, the order that spares the old
 *  part is the gentler one. */
function ranked(context: CheckContext): readonly Weighed[] {
  return context.routes
    .map((route) => {
      const demands = route.steps.map((step) => demandOf(context, step));
      const worst = demands.reduce((a, b) => (b.share > a.share ? b : a));
      return { route, demands, worst, onHost: demands.reduce((sum, one) => sum + one.onHost, 0) };
    })
    .sort((a, b) => a.worst.share - b.worst.share || a.onHost - b.onHost);
}

/** The order to put the part in, or null when the family names none. */
export const gentlestRoute = (context: CheckContext): Route | null => ranked(context)[0]?.route ?? null;

/** Every order of putting the part in, with what has to flex and what the old part bears, and the gentler one named. */
export const assembly: Check = (context) => {
  const [gentlest, ...others] = ranked(context);
  // Steps that are only told ask nothing of anything.
  if (!gentlest || gentlest.demands.every(({ step }) => step.kind === 'place')) return [];
  return [
    recommendation(gentlest, others),
    ...[gentlest, ...others].map((one) => findingOf(one, one === gentlest)),
  ];
};

const SOURCE =
  'press fit after Lame (an upper estimate for flat-sided posts), crush ribs by flow pressure, wire as a cantilever 3 E I / L^3, mouth by plane-stress finite elements; aged keycap plastic by common practice, no source';

function findingOf({ route, demands, worst: { share, step } }: Weighed, chosen: boolean): Finding {
  const value = finite(100 * share);
  const risky = demands.some(({ risk = 0 }) => risk > 1);
  // An order that is too rough is no fault of the part while another one is gentle.
  const verdict = share > 1 && chosen ? 'fails' : share > 1 || risky ? 'caution' : 'holds';
  const remedy =
    share > 1
      ? `not this way: ${step.sentence.toLowerCase()} asks too much`
      : 'offer the post up by thumb first; if it does not start, measure it and do not force it';
  return {
    id: `route.${route.id}`,
    title: route.name,
    verdict,
    value,
    limit: 100,
    unit: '%',
    margin: value === null ? null : 100 - value,
    because: demands
      .map(({ say }) => say)
      .filter((say) => say !== '')
      .join('; '),
    source: SOURCE,
    remedy: unlessHolds(verdict, remedy),
    at: null,
    details: Object.fromEntries(
      demands.flatMap(({ step: one, flex, force }, k) =>
        one.kind === 'place'
          ? []
          : [
              [`step ${k + 1}, flex, mm`, flex] as const,
              [`step ${k + 1}, push, N`, finite(force) ?? 'none moves it'] as const,
            ],
      ),
    ),
  };
}

function recommendation({ route, worst }: Weighed, others: readonly Weighed[]): Finding {
  const verdict = worst.share > 1 ? 'fails' : 'holds';
  const against = others.map((other) =>
    Number.isFinite(other.worst.share)
      ? `${other.route.name} would ask ${percent(other.worst.share)} and push on the old part with ${newton(other.onHost)}`
      : `${other.route.name} would not do either`,
  );
  return {
    id: 'route',
    title: `put it in this way: ${route.name}`,
    verdict,
    value: finite(100 * worst.share),
    limit: 100,
    unit: '%',
    margin: finite(100 - 100 * worst.share),
    because: [
      Number.isFinite(worst.share)
        ? `the hardest step asks ${percent(worst.share)} of what part and keycap bear`
        : worst.say,
      ...against,
    ].join('; '),
    source: SOURCE,
    remedy:
      verdict === 'holds'
        ? ''
        : 'no order is gentle enough: an open mouth, a slimmer post or more room along the bar',
    at: null,
  };
}

/** Steps that no push gets done ask infinitely much, which is no number to report. */
const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

const nothing = (step: RouteStep): Demand => ({ step, share: 0, flex: 0, force: 0, onHost: 0, say: '' });

function demandOf(context: CheckContext, step: RouteStep): Demand {
  switch (step.kind) {
    case 'place':
      return nothing(step);
    case 'snap':
      return snapDemand(context, step);
    case 'press':
      return pressDemand(context, step);
    case 'thread':
      return threadDemand(step);
  }
}

function snapDemand(context: CheckContext, step: Extract<RouteStep, { kind: 'snap' }>): Demand {
  const load = context.loads.find(({ id }) => id === step.load);
  if (!load) return nothing(step);
  const outcome = mouthState(context, load, 'predicted');
  if (!outcome.ok)
    return { step, share: Number.POSITIVE_INFINITY, flex: 0, force: 0, onHost: 0, say: outcome.why };
  const { state } = outcome;
  const { force } = state.snap.pushIn;
  const opened = `the arms open ${mm(state.opening)} each side at ${percent(state.strain)} strain`;
  if (force === null) {
    const say = `${opened}, but the lips stand too steep for the bar to spread them`;
    return {
      step,
      share: Number.POSITIVE_INFINITY,
      flex: state.opening,
      force: Number.POSITIVE_INFINITY,
      onHost: 0,
      say,
    };
  }
  return {
    step,
    share: state.strain / state.permissible,
    flex: state.opening,
    force,
    onHost: step.inHand ? 0 : force,
    say: `${opened} under a push of ${newton(force)}, ${step.inHand ? 'in the hand' : 'which the old keycap takes'}`,
  };
}

/** How tight a post may come out: as expected, or at the tight end of what is likely, two standard uncertainties
 *  tighter. */
type Tightness = 'expected' | 'tight end';

function sideOf(
  context: CheckContext,
  id: string,
  tightness: Tightness,
): (Pick<PlannedInterface, 'kind'> & { size: number; interference: number }) | null {
  const one = context.interfaces.find((each) => each.id === id);
  const tighter = tightness === 'expected' ? 0 : 2;
  if (!one) return null;
  return { kind: one.kind, size: one.host, interference: Math.max(0, tighter * one.u - one.clearance) };
}

/** Pressing a post home: pressure on the socket, stretch of its wall, push. */
function pressed(context: CheckContext, socket: SocketWall, tightness: Tightness): PressFitResult | null {
  const { material } = context;
  const host = hostMaterials[socket.material];
  const sides = socket.interfaces.map((id) => sideOf(context, id, tightness)).filter((side) => side !== null);
  const [first, second] = sides;
  if (!first) return null;
  const friction = material.frictionOnSteel.value * SAME_PLASTIC;
  if (first.kind === 'rib') {
    return crushRibFit({
      interference: first.interference,
      length: socket.contact,
      wall: socket.wall,
      strength: material.strengthAlong.value,
      socketModulus: host.modulus.value,
      friction,
    });
  }
  const common = {
    wall: socket.wall,
    length: socket.contact,
    post: { modulus: material.modulusAlong.value, poisson: material.poisson.value },
    socket: { modulus: host.modulus.value, poisson: host.poisson.value },
    friction,
  };
  if (!second) return roundPressFit({ ...common, diameter: first.size, interference: first.interference });
  return rectangularPressFit({
    ...common,
    width: first.size,
    depth: second.size,
    interference: { width: first.interference, depth: second.interference },
  });
}

function pressDemand(context: CheckContext, step: Extract<RouteStep, { kind: 'press' }>): Demand {
  const fit = pressed(context, step.socket, 'expected');
  const tight = pressed(context, step.socket, 'tight end');
  if (!fit || !tight) return nothing(step);
  const host = hostMaterials[step.socket.material];
  const limit = host.permissibleStrain.value;
  const first = context.interfaces.find(({ id }) => id === step.socket.interfaces[0])!;
  const expected =
    fit.pushForce > 0
      ? `pressing the post home stretches the old socket by ${percent(fit.hoopStrain)} of the ${percent(limit)} it bears, under ${newton(fit.pushForce)}`
      : 'the post slides into its socket without stretching it';
  const risk = tight.hoopStrain / limit;
  return {
    step,
    share: fit.hoopStrain / limit,
    risk,
    flex: fit.hoopStrain * first.host,
    force: fit.pushForce,
    onHost: fit.pushForce,
    say:
      risk > 1
        ? `${expected}; at the tight end of what is likely it would crack rather than go in`
        : expected,
  };
}

function threadDemand(step: Extract<RouteStep, { kind: 'thread' }>): Demand {
  const short = Math.max(0, step.needed - step.room);
  if (short === 0) {
    const room = Number.isFinite(step.room)
      ? `${mm(step.room)} of room`
      : 'all the room there is off the machine';
    return {
      ...nothing(step),
      say: `threading asks ${mm(step.needed)} along the bar and has ${room}: nothing flexes`,
    };
  }
  const force =
    wireStiffness({ diameter: step.wire.diameter, length: step.wire.leg, modulus: STEEL }) * short;
  const say = `threading asks ${mm(step.needed)} along the bar and has ${mm(step.room)}: the bar's leg must be sprung by ${mm(short)}, a side push of ${newton(force)}`;
  if (step.lever === null) return { step, share: 0, flex: short, force, onHost: 0, say };
  // Two triangles of pressure, at rim and floor, hold the post against the lever: R = 1.5 M / L.
  const rim = (1.5 * force * step.lever) / step.socket.contact;
  const stress = (LEVER_PEAK * rim) / (2 * step.socket.wall * (step.socket.contact / 2));
  const host = hostMaterials[step.socket.material];
  const share = stress / host.modulus.value / host.permissibleStrain.value;
  return {
    step,
    share,
    flex: short,
    force,
    onHost: rim,
    say: `${say} that levers the post in the old socket with ${newton(rim)} at its rim, ${percent(share)} of what it bears`,
  };
}
