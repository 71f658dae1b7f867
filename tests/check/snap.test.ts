import { describe, expect, it } from 'vitest';
import { layerDirection } from '../../src/check/layerDirection.ts';
import { snap } from '../../src/check/snap.ts';
import { materials } from '../../src/standards/materials.ts';
import type { PlainJob } from '../job/demo.ts';
import { detail, exact, finding, findingsOf } from './physics.ts';

const of = (change?: (job: PlainJob) => void) => findingsOf([snap, layerDirection], change);
const share = (value: number) => (job: PlainJob) => {
  job.printer = exact(job.printer);
  job.sizes.mouthShare = value;
};

describe('strain of the arms', () => {
  it('is the same drawn and printed on a printer that prints what is drawn', () => {
    const found = of(share(0.8));
    const [drawn, printed] = [finding(found, 'strain.mouth.drawn'), finding(found, 'strain.mouth.predicted')];
    expect(printed.value! / drawn.value!).toBeCloseTo(1, 2);
    expect(drawn.value).toBeGreaterThan(1);
    // Opening as the bar asks: half of what the mouth lacks.
    const opening = (detail(drawn, 'bar, mm') - detail(drawn, 'mouth, mm')) / 2;
    expect(detail(drawn, 'opening each side, mm')).toBeCloseTo(opening, 9);
    expect(detail(drawn, 'mouth, mm')).toBeCloseTo(0.8 * detail(drawn, 'bar, mm'), 3);
  });

  it('does not hang on the modulus, while the force is proportional to it', () => {
    const [petg, pla] = ['PETG', 'PLA'].map((material) =>
      of((job) => {
        share(0.85)(job);
        job.material = material;
      }),
    );
    const strain = (found: typeof petg) => finding(found!, 'strain.mouth.drawn').value!;
    // Poisson's ratio differs a little and is all that is left.
    expect(strain(pla) / strain(petg)).toBeCloseTo(1, 1);
    const force = (found: typeof petg) => detail(finding(found!, 'strain.mouth.drawn'), 'lip force, N');
    const modulus = materials.PLA.modulusAlong.value / materials.PETG.modulusAlong.value;
    expect(force(pla) / force(petg) / modulus).toBeCloseTo(1, 1);
  });

  it('grows as the mouth narrows, and so do push and pull', () => {
    const found = [0.95, 0.9, 0.85, 0.8, 0.75].map((value) => of(share(value)));
    for (const id of ['strain.mouth.drawn', 'push.mouth', 'pull.mouth']) {
      const values = found.map((one) => finding(one, id).value!);
      for (let k = 1; k < values.length; k++) expect(values[k], id).toBeGreaterThan(values[k - 1]!);
    }
    // PETG bears 2.6 % once (70 % of a yield strain near 3.75 %): three quarters of the bar is past it.
    expect(finding(found[4]!, 'strain.mouth.drawn').verdict).toBe('fails');
    expect(finding(found[0]!, 'strain.mouth.drawn').verdict).toBe('holds');
  });

  it('is told where it is: inside the box of the part, on its arms', () => {
    const { at } = finding(of(share(0.85)), 'strain.mouth.drawn');
    expect(at).not.toBeNull();
    // On the bed the part runs from its mouth at y = 0 to the tip of its post.
    expect(at![1]).toBeGreaterThan(0);
    expect(at![1]).toBeLessThan(4);
  });

  it('per mm of depth times the depth is the force of a lip', () => {
    const one = finding(of(share(0.85)), 'strain.mouth.drawn');
    const perDepth = detail(one, 'lip force per mm of depth, N/mm');
    expect(perDepth * detail(one, 'depth along the bar, mm')).toBeCloseTo(detail(one, 'lip force, N'), 9);
  });
});

describe('direction of the layers', () => {
  it('is along the arms on its side', () => {
    const one = finding(of(), 'layers.mouth');
    expect(one).toMatchObject({ verdict: 'holds', value: 0 });
  });

  it('is across them upright, with the lower strain that bears', () => {
    const upright = of((job) => {
      job.choices.lay = 'upright';
      job.material = 'PLA';
    });
    expect(finding(upright, 'layers.mouth')).toMatchObject({ verdict: 'caution' });
    expect(finding(upright, 'layers.mouth').value).toBeCloseTo(90, 6);
    const limit = finding(upright, 'strain.mouth.predicted').limit;
    expect(limit).toBeCloseTo(100 * materials.PLA.permissible.onceAcross.value, 9);
    expect(limit).toBeLessThan(100 * materials.PLA.permissible.onceAlong.value);
  });
});

it('says nothing of a mouth that is closed', () => {
  expect(
    of((job) => {
      job.choices.mouth = 'closed';
    }),
  ).toEqual({});
});
