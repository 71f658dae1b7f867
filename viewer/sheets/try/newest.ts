/** Asks one question at a time and, of those that come meanwhile, only the newest. Answers come in the order of asking; one
 *  that fails is left out, for the page says itself when the worker broke. */
export class Newest<A> {
  readonly #take: (answer: A) => void;
  #next: (() => Promise<A>) | undefined;
  #busy = false;

  constructor(take: (answer: A) => void) {
    this.#take = take;
  }

  ask(question: () => Promise<A>): void {
    this.#next = question;
    if (!this.#busy) void this.#run();
  }

  async #run(): Promise<void> {
    this.#busy = true;
    while (this.#next) {
      const question = this.#next;
      this.#next = undefined;
      await question().then(this.#take, () => {});
    }
    this.#busy = false;
  }
}
