import { beforeAll, describe, expect, it } from 'vitest';
import { assembly } from '../../src/check/assembly.ts';
import type { CheckContext } from '../../src/check/context.ts';
import type { Finding } from '../../src/check/finding.ts';
import { snap } from '../../src/check/snap.ts';
import { build } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import { loadKernel, type ManifoldToplevel, withScope } from '../../src/solid/kernel.ts';
import { demo, type PlainJob, read } from '../job/demo.ts';
import { detail, finding } from './physics.ts';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Findings of snap and assembly, on a context that may be changed first. */
function findings(
  change?: (job: PlainJob) => void,
  alter: (context: CheckContext) => CheckContext = (context) => context,
): Readonly<Record<string, Finding>> {
  const prepared = read(demo(change));
  return withScope(kernel, (scope) => {
    const context = alter(build(scope, prepared, plan(prepared)));
    return Object.fromEntries([...snap(context), ...assembly(context)].map((one) => [one.id, one]));
  });
}

describe('snapping on', () => {
  // Against the strain borne along the layers an upright clip seemed three times gentler than it is.
  it.each(['side', 'upright'])('%s: is held against what the layers bear that way', (lay) => {
    const found = findings((job) => {
      job.choices.lay = lay;
      job.material = 'PLA';
    });
    const strain = finding(found, 'strain.mouth.predicted');
    const route = finding(found, 'route.bar-first');
    expect(route.value!).toBeCloseTo((100 * strain.value!) / strain.limit!, 6);
  });

  it('opens the arms as far as the bar asks, strain and force in proportion', () => {
    const at = (bar: number) =>
      findings(undefined, (context) => ({
        ...context,
        loads: context.loads.map((load) => ({ ...load, bar })),
      }));
    const [narrow, wide] = [at(1.5), at(1.6)].map((found) => finding(found, 'strain.mouth.predicted'));
    const opening = detail(wide!, 'opening each side, mm') / detail(narrow!, 'opening each side, mm');
    expect(detail(wide!, 'opening each side, mm') - detail(narrow!, 'opening each side, mm')).toBeCloseTo(
      0.05,
      9,
    );
    expect(wide!.value! / narrow!.value!).toBeCloseTo(opening, 9);
    expect(detail(wide!, 'lip force, N') / detail(narrow!, 'lip force, N')).toBeCloseTo(opening, 9);
  });

  it('asks a push in proportion to the depth along the bar', () => {
    const of = (times: number) =>
      finding(
        findings(undefined, (context) => ({
          ...context,
          loads: context.loads.map((load) => ({ ...load, depth: load.depth * times })),
        })),
        'push.mouth',
      ).value!;
    expect(of(2) / of(1)).toBeCloseTo(2, 9);
    expect(of(0.5) / of(1)).toBeCloseTo(0.5, 9);
  });

  it('asks nothing of a bar that passes freely', () => {
    const found = findings(undefined, (context) => ({
      ...context,
      loads: context.loads.map((load) => ({ ...load, bar: 1.2 })),
    }));
    expect(finding(found, 'strain.mouth.predicted').value).toBe(0);
    expect(finding(found, 'push.mouth').value).toBe(0);
    expect(finding(found, 'pull.mouth').verdict).toBe('fails');
  });

  it('says in words and without a number that a mouth has closed up', () => {
    const found = findings(
      undefined,
      (context) =>
        ({
          ...context,
          // Moved into the shoulder, where no gap is.
          loads: context.loads.map((load) => ({
            ...load,
            at: [0, load.at[1] + 2.4, -1] as const satisfies number[],
          })),
        }) as CheckContext,
    );
    expect(finding(found, 'strain.mouth.predicted')).toMatchObject({ verdict: 'fails', value: null });
    for (const id of ['route', 'route.keycap-first', 'route.bar-first']) {
      const one = finding(found, id);
      expect(one.value, id).toBeNull();
      expect(one.verdict, id).not.toBe('holds');
      expect(one.because + one.remedy, id).not.toMatch(/Infinity|NaN/);
      expect(JSON.parse(JSON.stringify(one)), id).toEqual(one);
    }
  });
});

describe('threading in the machine', () => {
  it('levers the post in its socket: rim force and stress by hand', () => {
    const found = findings((job) => {
      job.choices.mouth = 'closed';
      job.readings.axialRoom = ['4.51'];
      job.readings.engagement = ['5.01'];
      job.readings.barDiameter = ['1.61'];
      job.readings.reach = ['14.31'];
      job.readings.farSide = ['5.81'];
      job.readings.socketDepth = ['4.61'];
      job.readings.socketWall = ['1.21'];
    });
    // Side push 3 E I / L^3 x 0.5 mm with E = 205,000 MPa, d = 1.6, L = 14.3: 33.8 N. Lever: the drop, 5.8 - 0.8 = 5 mm.
    const push = (3 * 205_000 * Math.PI * 1.6 ** 4 * 0.5) / (64 * 14.3 ** 3);
    // Post 4.6 - 0.4 = 4.2 mm in the socket; two triangles of pressure, each half of it: R x (2/3) L = M.
    const rim = (push * 5) / ((2 / 3) * 4.2);
    // Taken by two walls 1.2 mm thick over half the contact; triangle and corners make the peak three times the mean.
    const stress = (3 * rim) / (2 * 1.2 * 2.1);
    // Aged ABS: E 2386 MPa (solid sheet), bears 0.5 % (common practice, no source).
    const share = (100 * stress) / 2386 / 0.005;
    const one = finding(found, 'route.keycap-first');
    expect(one.value).toBeCloseTo(share, 3);
    expect(one.because).toContain(`${rim.toFixed(1)} N at its rim`);
    expect(one.because).toContain('sprung by 0.50 mm');
    expect(detail(one, 'step 2, push, N')).toBeCloseTo(push, 6);
  });
});
