import { render } from 'preact';
import './look/index.css';
import { App } from './App.tsx';
import { Bench } from './bench/bench.ts';
import { JobHistory } from './bench/jobHistory.ts';
import { SpineClient } from './spine/spineClient.ts';
import { exampleJob } from './start/exampleJob.ts';
import { openWorker } from './start/openWorker.ts';

const history = new JobHistory({ now: exampleJob, past: [], future: [] });
const bench = new Bench(history, new SpineClient(openWorker));
render(<App bench={bench} />, document.getElementById('page')!);
