import type { ComponentChildren } from 'preact';
import { fileName } from '../../../src/job/fileName.ts';
import { useBench } from '../../bench/bench.ts';
import { useDrawer } from '../../drawer/drawer.ts';
import { jobFile } from '../../drawer/jobFiles.ts';
import { baseOf } from '../../spine/tasks/baseOf.ts';
import type { TakenKind } from '../../spine/tasks/takeAway.ts';
import { Mark } from '../../verdict/Mark.tsx';
import { TakeButton } from './TakeButton.tsx';

/** Kinds of file, what each is for, and whether a set has one a part. */
const kinds: readonly {
  readonly kind: Exclude<TakenKind, 'bundle'>;
  readonly word: string;
  readonly what: string;
  readonly each: boolean;
}[] = [
  {
    kind: 'stl',
    word: 'STL',
    what: 'the part as it lies on the bed, mm; every printing program takes it',
    each: true,
  },
  { kind: '3mf', word: '3MF', what: 'all copies laid out, with their unit, material and terms', each: false },
  { kind: 'drawing', word: 'drawing', what: 'the part with its sizes, to measure the print by', each: true },
  {
    kind: 'report',
    word: 'report',
    what: 'fit, findings, how to put it in; one page to open or print',
    each: false,
  },
];

/** All that a job leaves the bench as, one click each. */
export function TakeSection() {
  const bench = useBench();
  const drawer = useDrawer();
  const job = bench.job.value;
  const outcome = bench.outcome.value;
  const result = bench.made.value?.result;
  const base = baseOf(job);
  // What is wanted is the job as it is now; a verdict on its way does not hold it up.
  const cannot = outcome?.kind === 'refused' || !result;
  const fails = result?.findings.filter(({ verdict }) => verdict === 'fails').length ?? 0;
  const parts = result?.parts ?? [];
  const make = (kind: TakenKind, word: string, part?: string) => async () => {
    const now = bench.job.peek();
    const model = kind === 'bundle' && now.donor ? await drawer.model(now.donor.file) : undefined;
    const files = await bench.spine.ask(word, (spine) => spine.takeAway(now, kind, model));
    return 'kind' in files || part === undefined ? files : files.filter((file) => (file.part ?? '') === part);
  };
  const bundle = `${base}.fettle.zip`;
  const { author, licence } = job;
  return (
    <section class="leaving" aria-labelledby="take-head">
      <h2 id="take-head">Take away</h2>
      {cannot && (
        <p class="aside">
          {outcome?.kind === 'refused'
            ? 'There is no part to take yet: the verdict says what it lacks. The job itself can be taken.'
            : 'The part is being worked out.'}
        </p>
      )}
      {!cannot && fails > 0 && (
        <p class="mind">
          <Mark verdict="fails" /> {fails === 1 ? 'A finding fails' : `${fails} findings fail`}: see the
          verdict before you print it.
        </p>
      )}
      <ul class="files">
        {kinds.flatMap(({ kind, word, what, each }) =>
          (each && parts.length > 1 ? parts : [{ id: undefined, name: '' }]).map(({ id, name }) => (
            <FileRow
              key={`${kind} ${id ?? ''}`}
              name={fileName(base, kind, id ?? '')}
              what={name === '' ? what : `${name}: ${what}`}
            >
              <TakeButton
                label={`Take the ${word}${name === '' ? '' : ` of ${name}`}, ${fileName(base, kind, id ?? '')}`}
                disabled={cannot}
                make={make(kind, `the ${word}`, id)}
              >
                {word}
              </TakeButton>
            </FileRow>
          )),
        )}
        <FileRow
          name={bundle}
          what={`all of it in one, to pass on${job.printer ? ', with your printer' : ''}; by ${author ?? 'nobody named'}, ${licence || 'no licence stated'}: the title block changes that`}
        >
          <TakeButton
            label={`Take the bundle, ${bundle}`}
            disabled={cannot}
            make={make('bundle', 'the bundle')}
          >
            bundle
          </TakeButton>
        </FileRow>
        <FileRow name={jobFile(job).name} what="readings and choices as typed; page and command line open it">
          <TakeButton
            label={`Take the job, ${jobFile(job).name}`}
            make={async () => {
              const { name, text } = jobFile(bench.job.peek());
              return [{ name, type: 'application/json', bytes: new TextEncoder().encode(text) }];
            }}
          >
            job
          </TakeButton>
        </FileRow>
      </ul>
      <Cautions cautions={result?.cautions ?? []} />
    </section>
  );
}

function FileRow({
  name,
  what,
  children,
}: {
  readonly name: string;
  readonly what: string;
  readonly children: ComponentChildren;
}) {
  return (
    <li>
      {children}
      <span class="what">
        <span class="file-name">{name}</span>
        <span class="aside">{what}</span>
      </span>
    </li>
  );
}

/** Where the work can hurt someone or the machine; cannot be hidden. */
function Cautions({ cautions }: { readonly cautions: readonly string[] }) {
  if (cautions.length === 0) return null;
  return (
    <section class="cautions" aria-labelledby="cautions-head">
      <h3 id="cautions-head">
        <Mark verdict="caution" /> Before you print and fit it
      </h3>
      <ul>
        {cautions.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
      <p class="aside">
        Local rules, the safety sheet of the filament's maker and qualified people go before this list.
      </p>
    </section>
  );
}
