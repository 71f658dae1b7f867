import { describe, expect, it } from 'vitest';
import type { PlainJob } from '../job/demo.ts';
import { detail, finding, routes } from './physics.ts';

const closed = (axialRoom: string) => (job: PlainJob) => {
  job.choices.mouth = 'closed';
  job.readings.axialRoom = [axialRoom];
  // The scale of these callipers shows 0.01 mm when closed.
  job.readings.engagement = ['5.01'];
  job.readings.barDiameter = ['1.61'];
  job.readings.reach = ['14.31'];
};

describe('a closed bore, threaded in the machine', () => {
  it('names what room is missing, and the side push of the bar by 3 E I / L^3', () => {
    const found = routes(closed('4.51'));
    const first = finding(found, 'route.keycap-first');
    // Half a millimetre short: E = 205,000 MPa, I = pi 1.6^4 / 64 = 0.32170 mm^4, L = 14.3 mm.
    const force = ((3 * 205_000 * 0.3216990877) / 14.3 ** 3) * 0.5;
    expect(detail(first, 'step 2, flex, mm')).toBeCloseTo(0.5, 6);
    expect(detail(first, 'step 2, push, N')).toBeCloseTo(force, 3);
    expect(first.because).toContain('sprung by 0.50 mm');
    expect(first.because).toContain(`${force.toFixed(1)} N`);
  });

  it('recommends the bar first, off the machine', () => {
    const found = routes(closed('4.51'));
    expect(finding(found, 'route').title).toContain('clips on the bar first');
    expect(finding(found, 'route').verdict).toBe('holds');
    expect(finding(found, 'route.keycap-first').value!).toBeGreaterThan(
      finding(found, 'route.bar-first').value!,
    );
    expect(finding(found, 'route.keycap-first').verdict).toBe('caution');
  });

  it('flexes nothing where there is room enough', () => {
    const first = finding(routes(closed('6.01')), 'route.keycap-first');
    expect(detail(first, 'step 2, flex, mm')).toBe(0);
    expect(first.because).toContain('nothing flexes');
    expect(first.verdict).toBe('holds');
  });

  it('asks more of the old socket the less room there is', () => {
    const asked = ['4.91', '4.51', '4.01', '3.01'].map(
      (room) => finding(routes(closed(room)), 'route.keycap-first').value!,
    );
    for (let k = 1; k < asked.length; k++) expect(asked[k]).toBeGreaterThan(asked[k - 1]!);
  });
});

describe('an open mouth', () => {
  it('is snapped on in the hand, where nothing old takes the push', () => {
    const found = routes();
    expect(finding(found, 'route').title).toContain('clips on the bar first');
    expect(finding(found, 'route').because).toMatch(/push on the old part with \d+\.\d N/);
    expect(finding(found, 'route.bar-first').because).toContain('in the hand');
  });
});

describe('a post that is meant to be tight', () => {
  const tight = (window: [number, number]) => (job: PlainJob) => {
    job.fits = { 'socket.width': window };
  };

  it('stretches the socket in proportion to how tight it is', () => {
    const asked = [-0.01, -0.02, -0.04].map((lo) => {
      const one = finding(routes(tight([lo - 0.001, lo + 0.001])), 'route.keycap-first');
      return detail(one, 'step 1, push, N');
    });
    expect(asked[0]).toBeGreaterThan(0);
    expect(asked[1]! / asked[0]!).toBeCloseTo(2, 1);
    expect(asked[2]! / asked[0]!).toBeCloseTo(4, 1);
  });

  it('fails when it would crack the old keycap either way', () => {
    const found = routes(tight([-0.3, -0.2]));
    expect(finding(found, 'route').verdict).toBe('fails');
    expect(finding(found, 'route').remedy).toContain('no order is gentle enough');
  });

  it('is a caution when only the tight end of what is likely would crack it', () => {
    const found = routes(tight([-0.01, 0.05]));
    const one = finding(found, 'route.bar-first');
    expect(one.verdict).toBe('caution');
    expect(one.because).toContain('at the tight end of what is likely it would crack');
    expect(one.remedy).toContain('do not force it');
  });
});
