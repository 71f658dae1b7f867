import { expose } from 'comlink';
import type { Spine } from '../../viewer/spine/protocol.ts';

/** A worker on this side of the border: what it is sent goes through a channel of Node, as to a real one. */
export class FakeWorker extends EventTarget {
  readonly #channel = new MessageChannel();
  isGone = false;

  constructor(spine: Partial<Spine>) {
    super();
    const { port1, port2 } = this.#channel;
    expose({ started: async () => true, ...spine }, port2);
    port1.addEventListener('message', ({ data }) => {
      if (!this.isGone) this.dispatchEvent(new MessageEvent('message', { data }));
    });
    port1.start();
  }

  postMessage(message: unknown, transfer: Transferable[] = []): void {
    this.#channel.port1.postMessage(message, transfer);
  }

  terminate(): void {
    this.isGone = true;
    this.#channel.port1.close();
  }

  /** What a browser does when the script of a worker throws or cannot be fetched. */
  fail(message: string): void {
    this.dispatchEvent(Object.assign(new Event('error'), { message }));
  }
}
