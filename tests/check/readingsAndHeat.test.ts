import { expect, it } from 'vitest';
import { familyFindings } from '../../src/check/familyFindings.ts';
import { heat } from '../../src/check/heat.ts';
import { readings } from '../../src/check/readings.ts';
import { verdictOf } from '../../src/check/verdictOf.ts';
import { materials } from '../../src/standards/materials.ts';
import { finding, findingsOf } from './physics.ts';

it.each([
  [1.9, 2.1, 'below', 1, 'holds', 0.2],
  [1.9, 2.1, 'below', 0.85, 'caution', 0.2],
  [2.2, 2.1, 'below', 1, 'fails', -0.1],
  [2.1, 2.1, 'below', 1, 'holds', 0],
  [5, 3, 'above', 1, 'holds', 2],
  [3.2, 3, 'above', 0.9, 'caution', 0.2],
  [2.9, 3, 'above', 1, 'fails', -0.1],
] as const)('%d against %d, kept %s, caution from %d: %s', (value, limit, side, caution, verdict, margin) => {
  const judged = verdictOf(value, limit, side, caution);
  expect(judged.verdict).toBe(verdict);
  expect(judged.margin).toBeCloseTo(margin, 9);
});

it('holds heat against what the material bears', () => {
  const at = (temperature: string, material: string) =>
    finding(
      findingsOf([heat], (job) => {
        job.surroundings = { temperature };
        job.material = material;
      }),
      'heat',
    );
  const limit = materials.PLA.serviceTemperature.value;
  expect(at(`${limit - 20} °C`, 'PLA').verdict).toBe('holds');
  expect(at(`${limit - 1} °C`, 'PLA').verdict).toBe('caution');
  expect(at(`${limit + 1} °C`, 'PLA')).toMatchObject({ verdict: 'fails', limit, margin: -1 });
  expect(at(`${limit + 1} °C`, 'ABS').verdict).toBe('holds');
});

it('points at a reading that stands out by its name on the sheet and its number', () => {
  const found = findingsOf([readings], (job) => {
    job.readings.socketWidth = ['4.03', '4.01', '4.30', '4.02', '4.03'];
  });
  const odd = Object.values(found).filter(({ id }) => id.startsWith('reading.socketWidth.outlier'));
  expect(odd).toHaveLength(1);
  expect(odd[0]!.id).toBe('reading.socketWidth.outlier.3');
  expect(odd[0]).toMatchObject({ verdict: 'caution' });
  expect(odd[0]!.because).toContain('socket width');
  expect(findingsOf([readings])).toEqual({});
});

it('finds a round bore binding over the travel, with the numbers', () => {
  const bore = finding(
    findingsOf([familyFindings], (job) => {
      job.choices.guide = 'bore';
    }),
    'binding',
  );
  // Reach 14.2867, end 3.954 above its hinge with the key up and 0.164 with the key down (demo readings less the
  // zero of 0.01): sqrt(14.2867^2 - 0.164^2) - sqrt(14.2867^2 - 3.954^2).
  expect(bore.value).toBeCloseTo(0.5573, 3);
  expect(bore.limit).toBeCloseTo(0.2, 3);
  expect(bore.verdict).toBe('fails');
  expect(bore.because).toContain('0.56 mm');
  expect(bore.remedy).toContain('slot');
  expect(finding(findingsOf([familyFindings]), 'binding').verdict).toBe('holds');
});
