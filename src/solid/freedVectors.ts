import type { CrossSection, Manifold, ManifoldToplevel } from 'manifold-3d';

/** A C++ vector as the library hands it to JavaScript; `get` makes a copy with memory of its own. */
interface Vector<T> {
  size(): number;
  get(index: number): T;
  push_back(value: T): void;
  delete(): void;
}
type Point = { readonly x: number; readonly y: number };
type Polygons = Vector<Vector<Point>>;

/** What the library keeps to itself. */
interface Inner {
  readonly Vector_vec2: new () => Vector<Point>;
  readonly Vector2_vec2: new () => Polygons;
  _Extrude(polygons: Polygons, height: number, divisions: number, twist: number, top: Point): Manifold;
}

/** In the order of the library's numbers for them. */
const FILL_RULES = ['EvenOdd', 'NonZero', 'Positive', 'Negative'] as const;

/** Makes the library free the polygon vectors it makes on the way. manifold-3d 3.5 forgets the copies that `toPolygons`
 *  reads from, the polygons that `extrude` starts from, and those a `CrossSection` is built of: some 100 kB a make, for
 *  ever, as nothing collects wasm memory. Same results, and nothing else changes.
 *  The memory test of tests/job/make.test.ts fails without it, so it says when a newer version needs it no more. */
export function freeVectors(kernel: ManifoldToplevel): void {
  const inner = kernel as unknown as Inner;
  const plain = kernel.CrossSection;
  const methods = Object.getPrototypeOf(plain.prototype) as CrossSection & { _ToPolygons(): Polygons };

  type Contours = readonly (readonly [number, number])[][];
  const Raw = methods.constructor as new (polygons: Polygons, rule: number) => CrossSection;
  const built = (
    given: Contours | Contours[number],
    rule: (typeof FILL_RULES)[number] = 'Positive',
  ): CrossSection => {
    const contours = (typeof given[0]?.[0] === 'number' ? [given] : given) as Contours;
    return using(new inner.Vector2_vec2(), (polygons) => {
      for (const contour of contours)
        using(new inner.Vector_vec2(), (points) => {
          for (const [x, y] of contour) points.push_back({ x, y });
          polygons.push_back(points);
        });
      return new Raw(polygons, FILL_RULES.indexOf(rule));
    });
  };
  kernel.CrossSection = new Proxy(plain, {
    construct: (_, args) => Reflect.apply(built, undefined, args),
  });

  methods.toPolygons = function (this: typeof methods) {
    return using(this._ToPolygons(), (polygons) =>
      each(polygons, (contour) =>
        using(contour, (points) => each(points, ({ x, y }): [number, number] => [x, y])),
      ),
    );
  };

  methods.extrude = function (
    this: typeof methods,
    height,
    divisions = 0,
    twist = 0,
    top = [1, 1],
    centred = false,
  ) {
    // A single number shrinks one way only: so does the library.
    const [x, y] = typeof top === 'number' ? [top, 0] : top;
    const solid = using(this._ToPolygons(), (polygons) =>
      inner._Extrude(polygons, height, divisions, twist, { x, y }),
    );
    if (!centred) return solid;
    return using(solid, (uncentred) => uncentred.translate([0, 0, -height / 2]));
  };
}

const each = <T, R>(vector: Vector<T>, read: (item: T) => R): R[] =>
  Array.from({ length: vector.size() }, (_, k) => read(vector.get(k)));

function using<T extends { delete(): void }, R>(handle: T, work: (handle: T) => R): R {
  try {
    return work(handle);
  } finally {
    handle.delete();
  }
}
