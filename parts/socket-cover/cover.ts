import {
  armBay,
  armSizes,
  armSweep,
  clearOfCorners,
  type Drawn,
  faceCells,
  fittingHeight,
  panelRecess,
  panelRow,
  rowSpan,
  screwRim,
  type Values,
} from '../../src/family/index.ts';

type Opening =
  | 'openingWidth'
  | 'openingHeight'
  | 'openingDiameter'
  | 'openingFlat'
  | 'cornerRadius'
  | 'pitch';
type Panel = 'panelThickness' | 'recessWidth' | 'rowWidth' | 'recessHeight' | 'recessDepth';
type Behind = 'roomBehind' | 'nearGap' | 'nearDepth';
type Bought = 'screw' | 'head' | 'screwSpacing' | 'connectorDiameter' | 'connectorFlat';
type Choice =
  | 'opening'
  | 'openings'
  | 'held'
  | 'sits'
  | 'near'
  | 'connector'
  | 'lettering'
  | 'vents'
  | 'behind';
type Arm = 'arm' | 'armWidth' | 'bite' | 'reach' | 'play';

/** What the declaration hands to its functions, before and after sizes are settled; names as on the sheet, mm. */
export type Read = Values<Opening | Panel | Behind | Bought, Choice, never>;
export type Cover = Read & Values<Arm | 'flange' | 'overlap' | 'vent' | 'letterHeight', Choice, never>;

/** Wall of the plug, and what is kept free inside it for tools and nuts, mm. */
const WALL = 1.6;
const INSIDE = 0.5;
/** Largest capitals unless the job says more, mm: the field of raised ones is bridged, and printers bridge some 10 mm. */
const MOST = 7;

/** Where connector, letters and slots go on the face. */
function cellsOf(d: Read, arms: { readonly arm: number; readonly bite: number }) {
  const { connector, lettering, vents, held } = d.choices;
  const all = { connector, label: lettering, vents } as const;
  const things = (['connector', 'label', 'vents'] as const).filter((thing) => all[thing] !== 'none');
  const deep = held === 'spring arms' ? armSweep(arms) : WALL;
  const [row, margin] = [panelRow(d), [WALL + INSIDE, deep + INSIDE] as const];
  const cells = faceCells(row, things, margin);
  return { ...cells, ...(cells.vents && { vents: clearOfCorners(cells.vents, row.opening, margin) }) };
}

/** Sizes when the job says nothing. */
export function normalSizes(d: Read) {
  const arms = armSizes({ ...d, row: panelRow(d) }, d.material);
  const { label } = cellsOf(d, arms);
  const flange = d.choices.sits === 'recessed' ? Math.max(1, Math.min(2, d.recessDepth - 0.6)) : 2;
  const letterHeight = label ? fittingHeight(label, d.texts?.label ?? '', MOST) : 5;
  return { ...arms, flange, overlap: 2.5, vent: 0.9, letterHeight };
}

/** Every piece of the cover, as its block wants it; null for what it has not. */
export function layout(d: Cover, drawn: Drawn) {
  const { sits, held, connector, lettering } = d.choices;
  const [row, cells, flush] = [panelRow(d), cellsOf(d, d), sits === 'flush'];
  const through = flush ? (drawn['plate.depth'] ?? d.recessDepth) : d.flange;
  const [spring, screwed] = [held === 'spring arms', held === 'screws'];
  const hold = cells.connector
    ? { force: 15, why: '15 N let a plug be drawn gently from a connector in it' }
    : { force: 2, why: '2 N, some hundred times its weight, keep a cover in that nobody pulls at' };
  return {
    ...{ row, through, at: [0, 0, through] as const },
    screws: screwed ? { ...d, through, between: rowSpan(row) } : null,
    plate: {
      ...{ row, thickness: through, overlap: d.overlap, recess: panelRecess(d), flush },
      screws: screwed ? { half: d.screwSpacing / 2, around: screwRim(d) } : null,
    },
    plug: {
      ...{ row, depth: Math.max(WALL, d.panelThickness), bay: spring ? armBay(d.armWidth) : 0, wall: WALL },
      fit: screwed ? ('free' as const) : ('sliding' as const),
    },
    arms: spring ? { ...d, row, hold } : null,
    connector: cells.connector
      ? { ...d, cell: cells.connector, connectorFlat: connector === 'D' ? d.connectorFlat : null, through }
      : null,
    label: cells.label
      ? { ...d, cell: cells.label, text: d.texts?.label ?? '', style: lettering, face: through }
      : null,
    vents: cells.vents ? { cell: cells.vents, vent: d.vent, through } : null,
  };
}
