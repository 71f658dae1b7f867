import { describe, expect, it } from 'vitest';
import { Remembered, remembering } from '../../src/remembered/remembered.ts';
import { type ManifoldToplevel, Scope } from '../../src/solid/kernel.ts';

/** Scopes only pass the kernel on. */
const kernel = {} as ManifoldToplevel;

/** A memory, and what lives in wasm memory by its name. */
function shelf(most?: number) {
  const known = new Remembered(most);
  const alive = new Set<string>();
  const made: string[] = [];
  const held = (scope: Scope, name: string, bytes = 0): { readonly name: string } =>
    known.held(
      scope,
      'solid',
      name,
      (own) => {
        made.push(name);
        alive.add(name);
        own.keep({ delete: () => alive.delete(name) });
        return { name };
      },
      () => bytes,
    );
  return { known, alive, made, held };
}

describe('plain results', () => {
  it('are worked out once for every content, and are the very same object', () => {
    const known = new Remembered();
    let worked = 0;
    const square = (x: number) =>
      known.of('square', { x }, () => {
        worked++;
        return { y: x * x };
      });
    expect(square(3)).toBe(square(3));
    expect(square(4)).toEqual({ y: 16 });
    expect(worked).toBe(2);
    expect(known.tally).toMatchObject({ found: 1, made: 2 });
  });

  it('of one step are none of another', () => {
    const known = new Remembered();
    expect(known.of('a', 1, () => 'a')).toBe('a');
    expect(known.of('b', 1, () => 'b')).toBe('b');
  });

  it('that failed are not kept', () => {
    const known = new Remembered();
    const fails = () =>
      known.of('a', 1, () => {
        throw new RangeError('no');
      });
    expect(fails).toThrow('no');
    expect(known.of('a', 1, () => 'yes')).toBe('yes');
  });

  it('stay within bounds, the last used longest', () => {
    const known = new Remembered(100_000);
    let worked = 0;
    const list = (k: number) =>
      known.of('list', k, () => {
        worked++;
        return new Float64Array(5000).fill(k);
      });
    list(1);
    list(2);
    list(1);
    list(3);
    expect(worked).toBe(3);
    list(1);
    expect(worked).toBe(3);
    list(2);
    expect(worked).toBe(4);
    expect(known.tally.bytes).toBeLessThanOrEqual(100_000);
  });
});

describe('what lives in wasm memory', () => {
  it('outlives the scope it was asked for with, until it is forgotten', () => {
    const { known, alive, made, held } = shelf();
    for (let k = 0; k < 3; k++) {
      const scope = new Scope(kernel);
      expect(held(scope, 'a').name).toBe('a');
      scope.close();
    }
    expect(made).toEqual(['a']);
    expect([...alive]).toEqual(['a']);
    known.forget();
    expect(alive.size).toBe(0);
    expect(known.tally.bytes).toBe(0);
  });

  it('is freed only when nobody uses it any more', () => {
    const { alive, held } = shelf(1000);
    const [one, other] = [new Scope(kernel), new Scope(kernel)];
    held(one, 'a', 800);
    held(other, 'a', 800);
    held(other, 'b', 800);
    expect([...alive].sort()).toEqual(['a', 'b']);
    one.close();
    expect(alive.has('a')).toBe(true);
    other.close();
    expect([...alive]).toEqual(['b']);
  });

  it('stays while what was made of it does', () => {
    const { known, alive, held } = shelf();
    const scope = new Scope(kernel);
    known.held(
      scope,
      'turned',
      'a',
      (own) => held(own, 'a'),
      () => 0,
    );
    scope.close();
    expect([...alive]).toEqual(['a']);
    known.forget();
    expect(alive.size).toBe(0);
  });

  it('is freed when making it fails halfway', () => {
    const { known, alive, held } = shelf();
    const scope = new Scope(kernel);
    const fails = () =>
      known.held(
        scope,
        'turned',
        'a',
        (own) => {
          own.keep({ delete: () => alive.delete('half') });
          alive.add('half');
          held(own, 'a');
          throw new RangeError('no');
        },
        () => 0,
      );
    expect(fails).toThrow('no');
    expect([...alive]).toEqual(['a']);
    scope.close();
    known.forget();
    expect(alive.size).toBe(0);
  });

  it('is gone with the work where nobody remembers', () => {
    const { alive, held } = shelf();
    const scope = new Scope(kernel);
    remembering(undefined, (known) => {
      known.held(
        scope,
        's',
        1,
        (own) => {
          alive.add('s');
          return own.keep({ delete: () => alive.delete('s') });
        },
        () => 0,
      );
      held(scope, 'kept');
      scope.close();
      expect(alive.has('s')).toBe(true);
    });
    expect(alive.has('s')).toBe(false);
    expect(alive.has('kept')).toBe(true);
  });
});
