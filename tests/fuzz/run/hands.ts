// Tries one input after the other, in a process of its own, so that one that never ends can be ended from outside.
import '../../../src/arithmetic/index.ts';
import type { Kind } from '../kind.ts';
import { kinds } from '../kinds/index.ts';
import { type Case, oneCase, processorTime, seedsOf } from '../oneCase.ts';
import { keepFailure } from './keepFailure.ts';
import type { Message, Order } from './messages.ts';

const say = (message: Message): void => void process.send?.(message);
const kindNamed = (name: string): Kind => kinds.find((kind) => kind.name === name)!;

async function tried(kind: Kind, seed: number): Promise<Case> {
  say({ what: 'begins', kind: kind.name, seed });
  const done = await oneCase(kind, seed);
  const { ms, outcome } = done;
  const failed = 'failed' in outcome ? outcome.failed : undefined;
  if (failed !== undefined) keepFailure(kind, done);
  say({
    ...{ what: 'ended', kind: kind.name, seed, ms },
    outcome: 'made' in outcome ? outcome.made : 'refused' in outcome ? 'refused' : 'failed',
    codes: 'refused' in outcome ? [...new Set(outcome.refused)] : [],
    ...(failed !== undefined && { failed }),
  });
  return done;
}

async function obey(order: Order): Promise<void> {
  if (order.what === 'again') {
    for (const { kind, seed } of order.cases) await tried(kindNamed(kind), seed);
    return;
  }
  // Whichever kind had the least time goes next, so that quick ones come often and slow ones come at all.
  const lists = order.kinds.map((name) => {
    const kind = kindNamed(name);
    return { kind, seeds: seedsOf(order.seed, kind), next: order.from[name] ?? 0, spent: 0 };
  });
  while (Date.now() < order.until) {
    const turn = lists.reduce((a, b) => (b.spent < a.spent ? b : a));
    const before = processorTime();
    const { outcome } = await tried(turn.kind, turn.seeds(turn.next));
    // A fault may have left the memory of the geometry library in any state: a new process goes on.
    if ('failed' in outcome) return;
    turn.next++;
    turn.spent += processorTime() - before;
  }
}

process.on('message', async (order: Order) => {
  await obey(order);
  process.disconnect();
});
