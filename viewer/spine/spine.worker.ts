import { expose } from 'comlink';
import wasm from 'manifold-3d/manifold.wasm?url';
import { config } from 'zod';
import { families } from '../../parts/index.ts';
import { make } from '../../src/job/make.ts';
import { prepare } from '../../src/job/prepare.ts';
import { Refused } from '../../src/job/problem.ts';
import { parseJob } from '../../src/job/readJob.ts';
import { sceneOf } from '../../src/job/scene.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import type { Outcome, Spine } from './protocol.ts';

// Compiled schemas would need eval, which the page's policy forbids.
config({ jitless: true });

// Not awaited here: what the page sends before the worker listens would be lost.
const loading = loadKernel(() => wasm);

const spine: Spine = {
  async work(job): Promise<Outcome> {
    const kernel = await loading;
    const start = performance.now();
    try {
      const parsed = parseJob(job, families);
      const prepared = prepare(parsed.job, parsed.family);
      const result = make(kernel, prepared);
      const took = performance.now() - start;
      return { kind: 'made', result, scene: sceneOf(kernel, prepared), took };
    } catch (error) {
      if (error instanceof Refused) return { kind: 'refused', problems: error.problems };
      throw error;
    }
  },
};

expose(spine);
