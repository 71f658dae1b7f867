import fc from 'fast-check';
import { expect, it } from 'vitest';
import { jobText } from '../../src/job/jobText.ts';

it('puts the readings of one thing on one line', () => {
  const job = { fettle: 1, family: 'clip', readings: { bar: ['1.60', 1.61], post: [] } } as const;
  expect(jobText({ ...job, readings: { bar: [...job.readings.bar], post: [] } })).toBe(`{
  "fettle": 1,
  "family": "clip",
  "readings": {
    "bar": ["1.60", 1.61],
    "post": []
  }
}
`);
});

it('changes no text, whatever is in it', () => {
  const text = fc.oneof(fc.string({ unit: 'binary' }), fc.stringMatching(/^[[\]{}" \n,]*$/));
  fc.assert(
    fc.property(text, fc.array(text), (note, bar) => {
      const job = { fettle: 1, family: 'clip', note, readings: { bar } } as const;
      expect(JSON.parse(jobText(job))).toEqual(JSON.parse(JSON.stringify(job)));
    }),
    { seed: 1, numRuns: 2000 },
  );
});
