// Renders the picture that stands in each family's README, and the drawing of its demo: `npm run pictures`, or of some:
// `npm run pictures case-foot`.
// No screen is needed.
import { readFileSync, writeFileSync } from 'node:fs';
import { Resvg } from '@resvg/resvg-js';
import { families } from '../../parts/index.ts';
import { partDrawings } from '../../src/job/drawing.ts';
import { build, make } from '../../src/job/make.ts';
import { plan } from '../../src/job/plan.ts';
import { readJob } from '../../src/job/readJob.ts';
import { sceneOf } from '../../src/job/scene.ts';
import { encodePng, picture } from '../../src/output/picture/index.ts';
import { loadKernel, withScope } from '../../src/solid/kernel.ts';
import { meshOf } from '../../src/solid/meshOf.ts';
import { inverse, matrix } from '../../src/solid/placement.ts';

const [width, height] = [1200, 900];
const kernel = await loadKernel();
const wanted = process.argv.slice(2);
for (const { id } of families.filter((one) => wanted.length === 0 || wanted.includes(one.id))) {
  const prepared = readJob(readFileSync(`parts/${id}/demo.job.json`, 'utf8'), families);
  const pixels = withScope(kernel, (scope) => {
    const { solid, onBed, hosts } = build(scope, prepared, plan(prepared));
    const part = meshOf(scope.keep(solid.transform(matrix(inverse(onBed)))));
    const shown = hosts.filter(({ part: host }) =>
      ['bar', 'socket', 'panel', 'board', 'bore'].includes(host.id),
    );
    return picture(
      [
        { mesh: part, style: 'part' },
        ...shown.map(({ solid: host }) => ({ mesh: meshOf(host), style: 'ghost' as const })),
      ],
      { width, height },
    );
  });
  writeFileSync(`parts/${id}/picture.png`, encodePng(pixels, width, height));
  const [sheet] = partDrawings(make(kernel, prepared), sceneOf(kernel, prepared));
  const drawn = new Resvg(sheet!.svg, { background: 'white', fitTo: { mode: 'width', value: width } });
  writeFileSync(`parts/${id}/drawing.png`, drawn.render().asPng());
  console.log(`wrote picture.png and drawing.png in parts/${id}`);
}
