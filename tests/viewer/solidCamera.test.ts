import { describe, expect, it } from 'vitest';
import { viewOf } from '../../src/output/drawing/index.ts';
import { identity } from '../../src/solid/placement.ts';
import type { Vec2, Vec3 } from '../../src/solid/vector.ts';
import {
  bestSight,
  between,
  type Camera,
  cameraAfterKey,
  home,
  lookingFrom,
  namedViews,
  panned,
  targetOf,
  turned,
  viewOfCamera,
  zoomed,
} from '../../viewer/solid/camera.ts';
import { onPicture } from '../../viewer/solid/sight.ts';

const close = (a: readonly number[], b: readonly number[]): void => {
  a.forEach((value, k) => {
    expect(value).toBeCloseTo(b[k]!, 9);
  });
};

describe('views by name', () => {
  // The drawing's views are those of ISO 128-3 and, round, of ISO 5456-3.
  it.each([
    ['front', 'front'],
    ['right', 'right'],
    ['top', 'top'],
    ['round', 'isometric'],
  ] as const)('%s is the view of the drawing', (name, drawn) => {
    const view = viewOfCamera({ ...home, ...namedViews[name] }, identity);
    const theirs = viewOf(drawn);
    close(view.right, theirs.right);
    close(view.up, theirs.up);
    close(view.toward, theirs.toward);
  });

  it('look out of the direction they are given', () => {
    const toward: Vec3 = [2 / 3, -1 / 3, 2 / 3];
    close(viewOfCamera(lookingFrom(home, toward), identity).toward, toward);
  });
});

describe('the camera', () => {
  const radius = 5;
  const middle: Vec3 = [1, 2, 3];
  const size: Vec2 = [400, 300];
  const seen = (camera: Camera, p: Vec3): Vec2 => {
    const view = viewOfCamera(camera, identity);
    const scale = (camera.zoom * 300) / 2 / radius;
    return onPicture({ view, target: targetOf(camera, view, middle, radius), scale }, size, p);
  };

  it('keeps what is under the pointer where it is while it zooms', () => {
    const camera = panned(turned(home, 0.3, -0.2), [0.1, -0.2]);
    const p: Vec3 = [2, 1, 4];
    const [x, y] = seen(camera, p);
    const at: Vec2 = [(x - 200) / 150, (150 - y) / 150];
    close(seen(zoomed(camera, 3, at), p), [x, y]);
  });

  it('stays within what shows something', () => {
    expect(zoomed(home, 1e9).zoom).toBe(40);
    expect(zoomed(home, 1e-9).zoom).toBe(0.25);
    expect(turned(home, 0, 99).elevation).toBeCloseTo(Math.PI / 2, 12);
    expect(panned(home, [1e3, -1e3]).pan).toEqual([4, -4]);
  });

  it('goes the short way round', () => {
    const from = { ...home, azimuth: 3 };
    const to = { ...home, azimuth: -3 };
    const halfway = between(from, to, 0.5).azimuth;
    expect(Math.abs(Math.abs(halfway) - Math.PI)).toBeLessThan(0.01);
    close(viewOfCamera(between(from, to, 1), identity).toward, viewOfCamera(to, identity).toward);
  });

  it('obeys keys, and only its own', () => {
    expect(cameraAfterKey(home, 'ArrowRight', false)!.azimuth).toBeGreaterThan(home.azimuth);
    expect(cameraAfterKey(home, 'ArrowUp', false)!.elevation).toBeGreaterThan(home.elevation);
    expect(cameraAfterKey(home, 'ArrowLeft', true)!.pan[0]).toBeLessThan(0);
    expect(cameraAfterKey(home, '+', false)!.zoom).toBeGreaterThan(1);
    expect(cameraAfterKey(home, '-', false)!.zoom).toBeLessThan(1);
    expect(cameraAfterKey(zoomed(turned(home, 1, 1), 3), 'Home', false)).toEqual(home);
    expect(cameraAfterKey(home, 'a', false)).toBeNull();
    expect(cameraAfterKey(home, 'Tab', false)).toBeNull();
  });
});

describe('bestSight', () => {
  it('turns to the side where nothing stands before the spot', () => {
    // Plastic everywhere but straight to the left.
    const plastic = (_: Vec3, [x]: Vec3): number => (x < -0.99 ? 0 : 4);
    close(bestSight([0, 0, 0], [1, 0, 0], plastic), [-1, 0, 0]);
  });

  it('stays where it is when the spot is seen already', () => {
    const toward: Vec3 = [0.6, -0.8, 0];
    close(
      bestSight([0, 0, 0], toward, () => 0),
      toward,
    );
  });
});
