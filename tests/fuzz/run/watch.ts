import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Message, Order } from './messages.ts';
import type { Failure } from './report.ts';
import { HANGS, type KindTally, slow, Tally, usual } from './tally.ts';

const HANDS = fileURLToPath(new URL('hands.ts', import.meta.url));
/** Without a word for so long, an input never ends, ms. */
const SILENCE = 10 * 60_000;
/** Cases measured a second time for being slow, of each kind. */
const SUSPECTS = 2;

interface Watched {
  readonly tallies: readonly KindTally[];
  readonly failures: readonly Failure[];
}

/** Has inputs of these kinds tried until the time is up, by a process that is begun anew where an input fails,
 *  hangs or takes it down. */
export async function watched(kinds: readonly string[], seed: number, minutes: number): Promise<Watched> {
  const until = Date.now() + minutes * 60_000;
  const tally = new Tally(kinds);
  const failures: Failure[] = [];
  const lost: Record<string, number> = {};
  const fail = (failure: Failure): void => {
    failures.push(failure);
    // At once, too: a long run is worth a look before it is over.
    console.error(`failed: ${failure.kind} ${failure.seed}`);
  };
  while (Date.now() < until) {
    const from = Object.fromEntries(kinds.map((kind) => [kind, tally.counts[kind]! + (lost[kind] ?? 0)]));
    const left = await obeyed({ what: 'try', kinds, seed, from, until }, (ended) => {
      tally.add(ended);
      if (ended.failed !== undefined) fail({ kind: ended.kind, seed: ended.seed, said: ended.failed });
    });
    if (left !== undefined) {
      lost[left.kind] = (lost[left.kind] ?? 0) + 1;
      fail(left);
    }
  }
  failures.push(...(await hanging(tally)));
  return { tallies: tally.kinds, failures };
}

/** Slow cases that are as slow once more. */
async function hanging(tally: Tally): Promise<readonly Failure[]> {
  const suspects = tally.kinds.flatMap((each) => slow(each).slice(0, SUSPECTS));
  const usualOf = new Map(tally.kinds.map((each) => [each.kind, usual(each)]));
  const found: Failure[] = [];
  if (suspects.length === 0) return found;
  // The first one of a process warms it up.
  const left = await obeyed(
    { what: 'again', cases: [suspects[0]!, ...suspects] },
    ({ kind, seed, ms, outcome }) => {
      const times = ms / usualOf.get(kind)!({ outcome });
      const seen = found.findIndex((one) => one.seed === seed && one.kind === kind);
      if (seen >= 0) found.splice(seen, 1);
      if (times > HANGS)
        found.push({ kind, seed, said: `takes ${times.toFixed(0)} times the median of its kind` });
    },
  );
  return left === undefined ? found : [...found, left];
}

/** Gives an order and listens; the input at hand when the process broke down or fell silent, if it did. */
function obeyed(
  order: Order,
  ended: (message: Extract<Message, { what: 'ended' }>) => void,
): Promise<Failure | undefined> {
  return new Promise((resolve) => {
    const child: ChildProcess = fork(HANDS, { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
    let hand: Failure | undefined;
    let alarm: NodeJS.Timeout | undefined;
    const wait = (): void => {
      clearTimeout(alarm);
      alarm = setTimeout(() => {
        if (hand) hand = { ...hand, said: `no end after ${SILENCE / 60_000} minutes` };
        child.kill('SIGKILL');
      }, SILENCE);
    };
    wait();
    child.on('message', (message: Message) => {
      wait();
      if (message.what === 'begins')
        hand = { kind: message.kind, seed: message.seed, said: 'ended the process' };
      else {
        hand = undefined;
        ended(message);
      }
    });
    child.on('exit', (code) => {
      clearTimeout(alarm);
      resolve(
        hand ?? (code === 0 ? undefined : { kind: 'any', seed: 0, said: `the process ended with ${code}` }),
      );
    });
    child.send(order);
  });
}
