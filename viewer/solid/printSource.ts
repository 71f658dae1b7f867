import { effect, type Signal, signal } from '@preact/signals';
import type { PartInTheRound } from '../../src/job/solidView.ts';
import type { View } from '../../src/output/drawing/index.ts';
import type { Mesh } from '../../src/solid/mesh.ts';
import type { Bench } from '../bench/bench.ts';
import type { Made, SolidLines } from '../spine/answers.ts';
import { SpineClient } from '../spine/spineClient.ts';

/** Typing goes on within this time, ms. */
const SETTLED = 300;

/** Asks for what a picture needs beyond the scene: the print, its gaps, layers and motion. By a worker of its own, so that no verdict
 *  waits for a picture; only when the job rests, and only the newest answer is taken. */
export class PrintSource {
  readonly #client: SpineClient;
  /** What came last, and what it is of. */
  readonly shown: Signal<{ readonly of: Made; readonly parts: readonly PartInTheRound[] } | null> =
    signal(null);
  /** Why there is no print to be shown; null when all is well. */
  readonly trouble: Signal<string | null> = signal(null);

  constructor(open: () => Worker) {
    this.#client = new SpineClient(open);
  }

  /** Follows the bench until the function it gives back is called; not while nobody looks at the print. */
  follow(bench: Bench, isWanted: () => boolean = () => true): () => void {
    let waiting: ReturnType<typeof setTimeout> | undefined;
    const stop = effect(() => {
      const made = bench.made.value;
      const turn = this.#client.turn.value;
      clearTimeout(waiting);
      if (!isWanted() || !made || bench.stale.value || this.shown.peek()?.of === made) return;
      const job = bench.job.peek();
      const newest = () => bench.made.peek() === made && this.#client.turn.peek() === turn;
      waiting = setTimeout(() => {
        this.#client
          .ask('the picture', async (spine) => (newest() ? spine.solidView(job) : null))
          .then(
            (parts) => {
              if (parts === null || 'kind' in parts || !newest()) return;
              this.trouble.value = null;
              this.shown.value = { of: made, parts };
            },
            (error) => {
              if (newest()) this.trouble.value = error instanceof Error ? error.message : String(error);
            },
          );
      }, SETTLED);
    });
    return () => {
      stop();
      clearTimeout(waiting);
      this.#client.stop();
    };
  }

  /** Tries again after trouble. */
  again(): void {
    this.trouble.value = null;
    this.#client.restart();
  }

  lines(part: Mesh, machine: readonly Mesh[], view: View): Promise<SolidLines> {
    return this.#client.ask('the drawing', (spine) => spine.solidLines(part, machine, view));
  }
}
