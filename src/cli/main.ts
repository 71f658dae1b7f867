#!/usr/bin/env node
import { run } from './run.ts';

// The one place that knows which parts there are; loaded when a command asks.
await run(process.argv, {
  families: async () => (await import('../../parts/index.ts')).families,
});
