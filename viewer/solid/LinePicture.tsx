import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { pathData, type Segment } from '../../src/output/drawing/index.ts';
import type { Vec2 } from '../../src/solid/vector.ts';
import type { SolidLines } from '../spine/answers.ts';
import { placedMesh } from './placedMesh.ts';
import type { PrintSource } from './printSource.ts';
import { onPicture, type Sight } from './sight.ts';
import type { SolidState } from './solidState.ts';

/** Turning rests for this long before it is drawn again, ms. */
const SETTLED = 120;

interface LinePictureProps {
  readonly state: SolidState;
  readonly source: PrintSource;
}

/** The part and the machine around it in lines, for browsers without WebGL. */
export function LinePicture({ state, source }: LinePictureProps) {
  const drawn = useSignal<{ readonly lines: SolidLines; readonly sight: Sight } | null>(null);
  const [part, sight, pose] = [state.part.value, state.sight.value, state.frame.value];
  const machine = state.machine.value;
  useEffect(() => {
    if (!part || !sight) return;
    let newest = true;
    const wait = setTimeout(() => {
      const placements = pose?.placements ?? {};
      const hosts = machine ? part.scene.hosts.filter(({ id }) => placements[id] !== null) : [];
      source
        .lines(
          part.mesh,
          hosts.map(({ id, mesh }) => placedMesh(mesh, placements[id] ?? undefined)),
          sight.view,
        )
        .then(
          (lines) => {
            if (newest) drawn.value = { lines, sight };
          },
          () => {},
        );
    }, SETTLED);
    return () => {
      newest = false;
      clearTimeout(wait);
    };
  }, [part, sight, pose, machine, source, drawn]);
  const [width, height] = state.size.value;
  const shown = drawn.value;
  if (!shown || width === 0) return null;
  const path = (lines: readonly Segment[]): string => pathOf(lines, shown.sight, [width, height]);
  return (
    <svg class="lines" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <path class="machine" d={path(shown.lines.machine)} />
      <path class="part" d={path(shown.lines.part)} />
    </svg>
  );
}

/** Lines on paper about the middle of the picture; path data has y down already. */
function pathOf(lines: readonly Segment[], { view, target, scale }: Sight, size: Vec2): string {
  const [x0, y0] = onPicture({ view, target, scale }, size, [0, 0, 0]);
  return pathData(lines.map((line) => line.map(([x, y]): Vec2 => [x0 + scale * x, scale * y - y0])));
}
