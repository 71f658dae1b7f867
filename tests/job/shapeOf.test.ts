import { expect, it } from 'vitest';
import { make } from '../../src/job/make.ts';
import { Refused } from '../../src/job/problem.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { demo, read } from './demo.ts';

it('refuses a fit so loose that no post is left to draw, and names it', async () => {
  const prepared = read(
    demo((job) => {
      job.fits = { 'socket.width': [3, 4.5] };
    }),
  );
  const kernel = await loadKernel();
  let caught: unknown;
  try {
    make(kernel, prepared);
  } catch (error) {
    caught = error;
  }
  expect(caught).toBeInstanceOf(Refused);
  const [problem] = (caught as Refused).problems;
  expect(problem).toMatchObject({ code: 'shape_not_possible', field: 'fits' });
  expect(problem!.value).toContain('socket.width');
  expect(problem!.reason).toContain('leave nothing to draw');
});
