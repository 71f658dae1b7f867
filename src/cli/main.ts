#!/usr/bin/env node
import '../arithmetic/index.ts';
import { run } from './run.ts';

// The one place, with worker.ts, that knows which parts there are; loaded when a command asks.
await run(process.argv, {
  families: async () => (await import('../../parts/index.ts')).families,
  // Beside this file, wherever that was built to.
  worker: new URL(import.meta.url.endsWith('.ts') ? 'worker.ts' : 'worker.js', import.meta.url),
});
