import { formatNumber, parseLength, parseQuantity } from '../../../src/units/index.ts';
import { useBench } from '../../bench/bench.ts';
import { capital } from './capital.ts';
import { rangeShown } from './figures.ts';
import type { MeasureDesk } from './measureDesk.ts';
import { Options } from './Options.tsx';
import { Strip } from './Strip.tsx';
import { TextSetting } from './TextSetting.tsx';
import { withPart, withSetting } from './withSetting.ts';

/** How the part is built: its choices, the sizes that may be set, the text it carries, and how warm it gets. One line until
 *  it is opened. */
export function BuiltStrip({ desk }: { readonly desk: MeasureDesk }) {
  const bench = useBench();
  const facts = desk.facts.value;
  if (!facts) return null;
  const job = bench.job.value;
  const temperature = job.surroundings?.temperature;
  const said = facts.choices.map(({ name, chosen }) => `${name} ${chosen}`);
  return (
    <Strip title="How it is built" brief={said} heads={['choices', 'sizes', 'texts', 'surroundings']}>
      {facts.choices.map(({ id, name, options, chosen, tip }) => (
        <Options
          key={id}
          group={`choice-${id}`}
          field={`choices.${id}`}
          name={capital(name)}
          options={options}
          chosen={job.choices?.[id] ?? chosen}
          pick={(option) =>
            bench.change(name, (now) => ({ ...now, choices: { ...now.choices, [id]: option } }))
          }
          tip={`${tip}.`}
        />
      ))}
      {facts.sizes.map(({ id, name, from, to, unit, tip, normal }) => (
        <TextSetting
          key={id}
          label={capital(name)}
          value={String(job.sizes?.[id] ?? '')}
          readable={(text) =>
            unit === 'mm' ? parseLength(text, desk.unit).ok : parseQuantity(text, 'count').ok || isRatio(text)
          }
          placeholder={normal === null ? 'by readings' : formatNumber(normal)}
          unit={unit === 'mm' ? desk.unit : ''}
          tip={`${tip}, ${rangeShown(from, to, unit, desk.unit)}.`}
          field={`sizes.${id}`}
          change={(text) =>
            bench.change(name, (now) => withPart(now, 'sizes', withSetting(now.sizes, id, text)), true)
          }
        />
      ))}
      {facts.texts.map(({ id, name, longest, tip }) => (
        <TextSetting
          key={id}
          label={capital(name)}
          numeric={false}
          longest={longest}
          value={job.texts?.[id] ?? ''}
          readable={() => true}
          tip={`${tip}, at most ${longest} characters.`}
          field={`texts.${id}`}
          change={(text) =>
            bench.change(name, (now) => withPart(now, 'texts', withSetting(now.texts, id, text)), true)
          }
        />
      ))}
      <TextSetting
        label="Warmest around it"
        numeric={false}
        value={String(temperature ?? '')}
        readable={(text) => parseQuantity(text, 'temperature').ok}
        placeholder="45 °C"
        tip="A closed machine that has run for hours; 45 °C where nothing is said."
        field="surroundings.temperature"
        change={(text) =>
          bench.change(
            'warmest around it',
            (now) => withPart(now, 'surroundings', text === '' ? undefined : { temperature: text }),
            true,
          )
        }
      />
    </Strip>
  );
}

const isRatio = (text: string): boolean => /^\d*[.,]?\d+$/.test(text.trim());
