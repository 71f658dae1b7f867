import { parseLength } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import { Options } from './Options.tsx';
import { Strip } from './Strip.tsx';
import { TextSetting } from './TextSetting.tsx';
import { withPart, withSetting } from './withSetting.ts';

const scales = ['digital', 'dial', 'vernier'] as const;

const lengths = [
  ['resolution', 'Smallest step', '0.01', 'Of the display, dial or vernier.'],
  ['zero', 'Closed jaws show', '0.00', 'Taken off every reading; below 0 with a minus.'],
  [
    'landWidth',
    'Flat on the small jaws',
    'not measured',
    'Its width; in a round hole it makes the jaws read small.',
  ],
  [
    'permissibleError',
    'Permissible error',
    'by DIN 862',
    'Where their certificate says something else: half the width.',
  ],
  ['repeatability', 'Scatter in your hand', '0.02', 'Standard deviation of one reading, where you know it.'],
] as const;

/** The callipers on the bench, and the unit of numbers typed without one. One line until it is opened. */
export function CallipersStrip() {
  const bench = useBench();
  const job = bench.job.value;
  const { callipers } = job;
  const unit = job.unit ?? 'mm';
  const set = (what: string, key: string, text: string) =>
    bench.change(
      `callipers, ${what}`,
      (now) => withPart(now, 'callipers', withSetting(now.callipers, key, text)),
      true,
    );
  const brief = [
    callipers?.name ?? callipers?.scale ?? 'digital',
    `step ${callipers?.resolution ?? '0.01'}`,
    ...(callipers?.zero === undefined ? [] : [`closed they show ${callipers.zero}`]),
    unit === 'in' ? 'inches' : 'mm',
  ];
  return (
    <Strip title="Callipers" brief={brief} heads={['callipers', 'unit']}>
      <Options
        group="unit"
        field="unit"
        name="Numbers without a unit are"
        options={['mm', 'in']}
        chosen={unit}
        pick={(picked) => bench.change('unit', (now) => ({ ...now, unit: picked }))}
        tip={'A unit typed behind a number always counts: 1/8", 3 thou, 2 cm.'}
      />
      <Options
        group="scale"
        field="callipers.scale"
        name="Scale"
        options={scales}
        chosen={callipers?.scale ?? 'digital'}
        pick={(picked) => set('scale', 'scale', picked)}
        tip=""
      />
      <TextSetting
        label="Name"
        numeric={false}
        longest={80}
        value={callipers?.name ?? ''}
        readable={() => true}
        placeholder="no name"
        tip="Measured the printer's coupon with the same pair? Give them the same name there."
        field="callipers.name"
        change={(text) => set('name', 'name', text)}
      />
      {lengths.map(([key, label, placeholder, tip]) => (
        <TextSetting
          key={key}
          label={label}
          value={String(callipers?.[key] ?? '')}
          readable={(text) => parseLength(text, unit, { sign: 'any' }).ok}
          placeholder={placeholder}
          unit={unit}
          tip={tip}
          field={`callipers.${key}`}
          change={(text) => set(label.toLowerCase(), key, text)}
        />
      ))}
    </Strip>
  );
}
