import { beforeAll, describe, expect, it } from 'vitest';
import { verdict } from '../../src/cli/verdict.ts';
import { make } from '../../src/job/make.ts';
import type { MakeResult } from '../../src/job/result.ts';
import { type JobFile, jobSchema } from '../../src/job/schema.ts';
import { percent } from '../../src/output/words/index.ts';
import { loadKernel } from '../../src/solid/kernel.ts';
import { quantityTyped } from '../../viewer/title/quantityTyped.ts';
import { withText } from '../../viewer/title/withText.ts';
import { doubtRows } from '../../viewer/verdict/doubtRows.ts';
import { fieldOfDoubt, placeOf } from '../../viewer/verdict/placeOf.ts';
import { problemWords } from '../../viewer/verdict/problemWords.ts';
import {
  limitWords,
  markOf,
  nextStep,
  problemsHeadline,
  spokenProblems,
  spokenVerdict,
} from '../../viewer/verdict/verdictWords.ts';
import { demo, type PlainJob, problemsIn, read } from '../job/demo.ts';
import { plain } from './plainLooks.ts';

const kernel = await loadKernel();
const made: Record<string, MakeResult> = {};
const changes: Readonly<Record<string, (job: PlainJob) => void>> = {
  good: () => undefined,
  'printer nobody measured': (job) => Reflect.deleteProperty(job, 'printer'),
  'few readings': (job) => {
    job.readings.socketWidth = ['3.96', '4.08'];
    Object.assign(job.printer, { outerGrowth: { value: 0.055, u: 0.003 }, repeatability: 0.008 });
  },
  tight: (job) => {
    job.fits['socket.width'] = 'H8/p6';
  },
  fails: (job) => {
    job.material = 'PLA';
    Object.assign(job, { surroundings: { temperature: '70' } });
  },
};
beforeAll(() => {
  for (const [name, change] of Object.entries(changes)) made[name] = make(kernel, read(demo(change)));
});

describe('a verdict on the page', () => {
  it.each(Object.keys(changes))('tells of %s what the terminal tells', (name) => {
    const result = made[name]!;
    const terminal = verdict(result, [], plain).join('\n');
    const [, figure] = /fits first time {2}(\S+(?: %| \d+ %)?)/.exec(terminal)!;
    const [, sum] = /findings {2}(.+)/.exec(terminal)!;
    const spoken = spokenVerdict(result, null);
    expect(spoken.startsWith(figure!)).toBe(true);
    expect(spoken).toContain(sum!);
    const next = /next: (.+) -> (.+)/.exec(terminal);
    if (next && !/fails/.test(markOf(result))) {
      expect(spoken).toContain(next[1]!);
      expect(spoken).toContain(next[2]!);
    }
  });

  it('has the sign of its gravest finding, and a triangle for a chance that is not good', () => {
    expect(['good', 'tight', 'fails'].map((name) => markOf(made[name]!))).toEqual([
      'holds',
      'caution',
      'fails',
    ]);
    expect(markOf({ ...made.good!, chance: 0.93 })).toBe('caution');
    expect(markOf({ ...made.good!, chance: null })).toBe('caution');
  });

  it('leads to what helps most', () => {
    expect(nextStep(made.good!, null)!.to).toEqual({ field: 'bed' });
    expect(nextStep(made['printer nobody measured']!, null)!.to).toEqual({ field: 'coupon' });
    const fails = nextStep(made.fails!, null)!;
    if (!('balloon' in fails.to)) throw new RangeError('a finding that fails comes first');
    const finding = made.fails!.findings[fails.to.balloon - 1]!;
    expect(finding.verdict).toBe('fails');
    expect(fails.words).toBe(finding.remedy);
    // A poor chance and a print that may crack the keycap: never "print it".
    const tight = nextStep(made.tight!, 1)!;
    expect(tight.to).not.toEqual({ field: 'bed' });
  });

  it('leads to the print that lies on the bench', () => {
    const step = nextStep(made.good!, 2)!;
    expect(step).toMatchObject({ words: 'read and try print 2', to: { field: 'print' } });
    expect(placeOf('print')).toMatchObject({ sheet: 'try', fields: ['print'] });
    expect(spokenVerdict(made.good!, 2)).toMatch(/Next: read and try print 2\.$/);
  });

  it('leads to the reading that three more numbers would make surer, and promises what comes of them', () => {
    const result = made['few readings']!;
    const step = nextStep(result, null)!;
    expect(step.to).toEqual({ field: 'readings.socketWidth' });
    expect(placeOf('readings.socketWidth')).toMatchObject({ sheet: 'measure', reading: 'socketWidth' });
    expect(step.brings).toContain(percent(result.advice!.to));
    // Three more readings about the same mean that scatter as the first two and the prior let expect: by hand, a variance of
    // ((10 - 2) 0.02^2 + 0.0072) / (10 - 2 + 1) = 0.00116 each, so a sum of squares of 0.0035.
    const after = read(
      demo((job) => {
        changes['few readings']!(job);
        job.readings.socketWidth = ['3.96', '4.08', '3.978', '4.02', '4.062'];
      }),
    );
    expect(make(kernel, after).chance).toBeCloseTo(result.advice!.to, 2);
    expect(result.advice!.to - result.advice!.from).toBeGreaterThan(0.01);
  });

  it('names the surface likeliest to go wrong', () => {
    const { interfaces } = made.tight!;
    const worst = interfaces.reduce((a, b) => (b.chance < a.chance ? b : a));
    expect(limitWords(made.tight!)).toContain(worst.name);
    expect(limitWords({ ...made.tight!, chance: null })).toBe('');
    // The window there is the job's, so its class may not be named as the source.
    expect(made.tight!.findings.find(({ id }) => id === `clearance.${worst.id}`)!.source).toContain('job');
  });
});

describe('a problem on the page', () => {
  const wrongs: readonly ((job: PlainJob) => void)[] = [
    (job) => Object.assign(job, { readings: {} }),
    (job) => job.readings.barDiameter!.push('4O.2'),
    (job) => job.readings.barDiameter!.push('40.2 mm'),
    (job) => Object.assign(job.choices, { mouth: 'wide', colour: 'red' }),
    (job) => Object.assign(job.sizes, { leadIn: 'long', nothing: 3 }),
    (job) => Object.assign(job, { material: 'PET-G', printer: 'mine.printer.json' }),
    (job) => Object.assign(job, { surroundings: { temperature: 'hot' } }),
    (job) => Object.assign(job, { callipers: { resolution: 'fine' } }),
    (job) => Object.assign(job.fits, { bar: [0.3, 0.1] }),
    (job) => Object.assign(job, { quantity: 0, title: 7 }),
    (job) => Object.assign(job.sizes, { arm: '0.1' }),
  ];
  const problems = wrongs.flatMap((wrong) => problemsIn(JSON.stringify(demo(wrong))));

  it('is told without a path of a file', () => {
    expect(problems.length).toBeGreaterThan(20);
    for (const problem of problems) {
      const { name, what, wanted } = problemWords(problem);
      expect(name).toMatch(/^[a-zA-Z0-9 ,'()-]+$/);
      expect(name).not.toMatch(/[a-z][A-Z]/);
      expect(what).not.toBe('');
      expect(wanted).toBe(problem.allowed);
    }
  });

  it('leads to its reading, by the id that the job has', () => {
    const readings = problems.filter(({ field }) => field.startsWith('readings.'));
    const asked = new Set(Object.keys(demo().readings));
    expect(readings.length).toBeGreaterThan(14);
    for (const { field } of readings) expect(asked).toContain(placeOf(field).reading);
  });

  it('leads from the very field to what it is a part of', () => {
    expect(placeOf('trials[1].inspected.readings.bar[0]')).toEqual({
      sheet: 'try',
      fields: ['trials.inspected.readings.bar', 'trials.inspected.readings', 'trials.inspected', 'trials'],
    });
    expect(placeOf('licence')).toEqual({ sheet: null, fields: ['licence'] });
  });

  it('counts readings apart from mistakes', () => {
    const missing = problemsIn(JSON.stringify(demo(wrongs[0]!)));
    expect(problemsHeadline(missing)).toBe(`${missing.length} readings to go.`);
    expect(spokenProblems(missing)).toMatch(/^Not yet\. Bar diameter has not been read\. And \d+ more\.$/);
    expect(problemsHeadline(problemsIn(JSON.stringify(demo(wrongs[1]!))))).toBe(
      'One thing to put right first.',
    );
    expect(spokenProblems([])).toBe('');
  });

  it('shows what was typed as it was typed', () => {
    const [problem] = problemsIn(JSON.stringify(demo(wrongs[1]!)));
    expect(problemWords(problem!).what).toMatch(/^4O\.2 /);
  });
});

describe('doubts', () => {
  it('lead to where they come from', () => {
    const ids = ['reading:bar', 'resolution:bar', 'calliper:inside', 'printer:scale.x', 'ladder:socket', ''];
    expect(ids.map(fieldOfDoubt)).toEqual([
      'readings.bar',
      'readings.bar',
      'callipers',
      'printer',
      'ladders.socket',
      null,
    ]);
  });

  it('every cause the pipeline names leads somewhere', () => {
    const causes = Object.values(made).flatMap(({ shares }) => shares.map(({ id }) => id));
    expect(causes.length).toBeGreaterThan(30);
    expect(causes.filter((id) => fieldOfDoubt(id) === null)).toEqual([]);
  });

  it('add up to all of it, the longest bar full', () => {
    const shares = [0.5, 0.2, 0.15, 0.1, 0.04, 0.008, 0.002].map((share, k) => ({
      ...{ id: `reading:r${k}`, label: `r${k}` },
      share,
    }));
    const rows = doubtRows(shares, 3);
    expect(rows).toHaveLength(4);
    expect(rows.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    expect(rows[0]!.length).toBe(1);
    expect(rows.at(-1)).toMatchObject({ id: '', label: 'everything else' });
    expect(rows.at(-1)!.length).toBeCloseTo(0.15 / 0.5, 12);
    expect(doubtRows([], 3)).toEqual([]);
  });
});

describe('the title block', () => {
  // The schema of the job file is the judge.
  it.each(['1', ' 12 ', '1000', '0', '1001', '1.5', '-2', '', 'two', '1e2', '0x10', '007'])(
    'takes the quantity %j as the job file does',
    (text) => {
      const quantity = quantityTyped(text);
      if (quantity === null) {
        const number = /^[\d.-]+$/.test(text.trim()) ? Number(text) : Number.NaN;
        expect(jobSchema.shape.quantity.safeParse(number).success).toBe(false);
      } else expect(jobSchema.shape.quantity.parse(quantity)).toBe(Number(text));
    },
  );

  it.each(['title', 'author', 'licence'] as const)(
    'leaves an empty %s out, as the job file wants it',
    (field) => {
      const job = { ...demo(), [field]: 'MIT' } as unknown as JobFile;
      for (const text of ['', '  ']) {
        const emptied = withText(job, field, text);
        expect(emptied).not.toHaveProperty(field);
        expect(jobSchema.safeParse(emptied).success).toBe(true);
      }
      expect(withText(job, field, 'K. Ahlers ')[field]).toBe('K. Ahlers ');
      expect(withText(job, field, 'MIT')).toBe(job);
    },
  );
});
