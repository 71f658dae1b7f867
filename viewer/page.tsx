import { wrap } from 'comlink';
import { render } from 'preact';
import demo from '../parts/stabiliser-clip/demo.job.json' with { type: 'json' };
import type { JobFile } from '../src/job/schema.ts';
import type { Spine } from './spine/protocol.ts';

const worker = new Worker(new URL('./spine/spine.worker.ts', import.meta.url), { type: 'module' });
const spine = wrap<Spine>(worker);
const outcome = await spine.work(demo as JobFile);
render(
  <pre>{JSON.stringify(outcome.kind === 'made' ? [outcome.result.chance, outcome.took] : outcome)}</pre>,
  document.getElementById('page')!,
);
