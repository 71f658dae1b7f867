interface Event {
  readonly time: number;
  readonly item: number;
  readonly version: number;
}

/** A queue that hands out the earliest first; ties by item, so that the same events always come in the same order. */
export class EarliestFirst {
  readonly #heap: Event[] = [];

  push(time: number, item: number, version: number): void {
    const heap = this.#heap;
    heap.push({ time, item, version });
    for (let k = heap.length - 1; k > 0; ) {
      const parent = (k - 1) >> 1;
      if (!before(heap[k]!, heap[parent]!)) break;
      [heap[k], heap[parent]] = [heap[parent]!, heap[k]!];
      k = parent;
    }
  }

  pop(): Event | undefined {
    const heap = this.#heap;
    const first = heap[0];
    const last = heap.pop();
    if (first === undefined || last === undefined || heap.length === 0) return first;
    heap[0] = last;
    for (let k = 0; ; ) {
      let least = k;
      for (const child of [2 * k + 1, 2 * k + 2])
        if (child < heap.length && before(heap[child]!, heap[least]!)) least = child;
      if (least === k) return first;
      [heap[k], heap[least]] = [heap[least]!, heap[k]!];
      k = least;
    }
  }
}

const before = (a: Event, b: Event): boolean =>
  a.time < b.time || (a.time === b.time && (a.item < b.item || (a.item === b.item && a.version < b.version)));
