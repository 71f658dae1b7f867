import type { MouthLoad } from '../family/load.ts';
import type { Check, CheckContext } from './context.ts';
import type { Finding } from './finding.ts';
import { ALONG_LAYERS, angleToLayers, type MouthOutcome, type MouthState, mouthState } from './mouthState.ts';
import { mm, newton, percent, unlessHolds, verdictOf } from './verdictOf.ts';

/** What a thumb does without a tool, N. Common practice, no source. */
const THUMB = 40;
/** A bar that comes out under twice the heaviest key is lost in use: 2 x 1.5 N. */
const HOLD = 3;

const STRAIN_SOURCE =
  'plane-stress finite elements on the profile; limit: share of yield or break strain as in snap-fit design guides, by direction of the layers';
const FORCE_SOURCE =
  'lip force by plane-stress finite elements, (mu + tan a) / (1 - mu tan a) along the way of the bar as in snap-fit design guides';

/** Strain of the arms and the forces of an open mouth, as drawn and as expected off the printer. */
export const snap: Check = (context) =>
  context.loads.flatMap((load) => [
    ...strain(context, load, 'drawn'),
    ...strain(context, load, 'predicted'),
    ...forces(context, load),
  ]);

const word = { drawn: 'as drawn', predicted: 'as expected off the printer' } as const;

function strain(context: CheckContext, load: MouthLoad, which: 'drawn' | 'predicted'): Finding[] {
  const outcome = mouthState(context, load, which);
  const id = `strain.${load.id}.${which}`;
  const title = `strain of the arms, ${word[which]}`;
  if (!outcome.ok) return [unsolved(id, title, outcome)];
  const { state } = outcome;
  const along = angleToLayers(context, load) <= ALONG_LAYERS;
  const limit = state.permissible;
  const { verdict, margin } = verdictOf(100 * state.strain, 100 * limit, 'below', 0.85);
  return [
    {
      id,
      title,
      verdict,
      value: 100 * state.strain,
      limit: 100 * limit,
      unit: '%',
      margin,
      because: `a bar of ${mm(load.bar)} opens a mouth of ${mm(state.mouth)} by ${mm(state.opening)} each side; ${context.material.name} bent ${along ? 'along' : 'across'} the layers bears ${percent(limit)} once`,
      source: STRAIN_SOURCE,
      remedy: unlessHolds(
        verdict,
        along
          ? 'a larger mouth share, or thinner arms'
          : 'lay it on its side so that the arms bend along the layers, or a larger mouth share',
      ),
      at: state.at,
      details: detailsOf(state, load),
    },
  ];
}

function forces(context: CheckContext, load: MouthLoad): Finding[] {
  const outcome = mouthState(context, load, 'predicted');
  if (!outcome.ok) return [];
  const { state } = outcome;
  const { pushIn, pullOut } = state.snap;
  const at = state.at;
  const common = { source: FORCE_SOURCE, unit: 'N', at, details: detailsOf(state, load) };
  const lead = `each lip pushes back with ${newton(state.lipForce)} at full opening`;
  const push: Finding =
    pushIn.force === null
      ? {
          ...common,
          id: `push.${load.id}`,
          title: 'push to snap the bar in',
          verdict: 'fails',
          value: null,
          limit: THUMB,
          margin: null,
          because: 'the lips stand too steep for the bar to spread them: pushing only jams it',
          remedy: 'a larger mouth share or a longer lead-in',
        }
      : {
          ...common,
          id: `push.${load.id}`,
          title: 'push to snap the bar in',
          value: pushIn.force,
          limit: THUMB,
          ...verdictOf(pushIn.force, THUMB, 'below', 0.75),
          because: `${lead}; limit: what a thumb does without a tool`,
          remedy: unlessHolds(
            verdictOf(pushIn.force, THUMB, 'below', 0.75).verdict,
            'a larger mouth share, or thinner arms',
          ),
        };
  // A bar that locks against being pulled out holds better than any force.
  const pull: Finding =
    pullOut.force === null
      ? {
          ...common,
          id: `pull.${load.id}`,
          title: 'pull that frees the bar',
          verdict: 'holds',
          value: null,
          limit: HOLD,
          margin: null,
          because: 'the lips lock behind the bar: it cannot be pulled straight out again, only sideways',
          remedy: '',
        }
      : {
          ...common,
          id: `pull.${load.id}`,
          title: 'pull that frees the bar',
          value: pullOut.force,
          limit: HOLD,
          ...verdictOf(pullOut.force, HOLD, 'above', 1),
          because: `${lead}; limit: twice the heaviest key, 1.5 N (ISO 9241-4, ANSI/HFES 100)`,
          remedy: unlessHolds(
            verdictOf(pullOut.force, HOLD, 'above', 1).verdict,
            'a smaller mouth share, or thicker arms',
          ),
        };
  return [push, pull];
}

function unsolved(id: string, title: string, { why }: Extract<MouthOutcome, { ok: false }>): Finding {
  return {
    id,
    title,
    verdict: 'fails',
    value: null,
    limit: null,
    unit: '%',
    margin: null,
    because: why,
    source: STRAIN_SOURCE,
    remedy: 'a larger mouth share, or a printer profile from the coupon',
    at: null,
  };
}

const detailsOf = (state: MouthState, load: MouthLoad): Record<string, number> => ({
  'mouth, mm': state.mouth,
  'opening each side, mm': state.opening,
  'bar, mm': load.bar,
  'depth along the bar, mm': load.depth,
  'lip force, N': state.lipForce,
  'lip force per mm of depth, N/mm': state.lipForcePerDepth,
  'modulus, MPa': state.modulus,
});
