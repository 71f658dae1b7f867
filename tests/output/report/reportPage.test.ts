import { createHash } from 'node:crypto';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { reportPage } from '../../../src/output/report/index.ts';
import type { ReportInput } from '../../../src/output/report/reportInput.ts';
import { fakeReport, fit } from './fakeReport.ts';
import { all, readPage, skeleton, textOf, textsOf, withClass } from './readPage.ts';

// Pictures are looked at in one test; the others need not wait for their pixels.
const quick = { sharpness: 0.05 };
const text = reportPage(fakeReport, quick);
const page = readPage(text);

/** The same input with every text but ids and words of a list replaced. */
function hostile(input: ReportInput, evil: string): ReportInput {
  const told = JSON.parse(JSON.stringify({ ...input, parts: [] }), (key, value: unknown) => {
    const kept = ['kind', 'readTo', 'verdict', 'jaw', 'unit', 'calibrated', 'scale', 'hash', 'id'];
    return typeof value === 'string' && !kept.includes(key) ? evil : value;
  }) as ReportInput;
  const details = Object.fromEntries([[evil, evil]]);
  return {
    ...told,
    findings: told.findings.map((finding) => ({ ...finding, ...(finding.details && { details }) })),
    parts: input.parts.map((part) => ({
      ...part,
      hosts: part.hosts.map((host) => ({ ...host, name: evil })),
    })),
  };
}

describe('reportPage', () => {
  it('tells all there is to tell, in the order of the work', () => {
    const headings = all(page, '*')
      .filter(({ tagName }) => /^h[1-6]$/.test(tagName))
      .map((heading) => textOf(heading));
    expect(headings.filter((heading) => !/^\d/.test(heading) || /^\d\. /.test(heading))).toEqual([
      'Pegs, Halden 80 terminal',
      'Will it fit?',
      'What stands against it',
      'Mind',
      '1. Print it',
      '2. Measure the print before it goes near the machine',
      '3. Put it in',
      'How it meets the machine',
      'What earlier prints changed',
      'What was read',
      'What was checked',
      'These 2 hold',
      'Where the limits come from',
      'What was changed on the model',
      'To make it again',
      'What is not promised',
    ]);
    const whole = textOf(all(page, 'body')[0]);
    const said = [
      'From the attic.',
      'about 2 min. Then 97 %',
      'calibrated 20 Nov 2026',
      '41 of 0.2 mm, the first one 0.24 mm; lines 0.42 mm wide',
      '0.65 g each, 1.3 g together',
      // Twice 41 minutes, to five of them.
      'About 1 h 20 min for all 2',
      'by the clock',
      'Push the peg in.',
      '3.40 mm shorter, leaves a trace',
      'fettle make peg.job.json',
      'Licence: CC-BY-4.0, K. Ahlers.',
      'force, N: 12.3',
    ];
    expect(said.filter((words) => !whole.includes(words))).toEqual([]);
    expect(textsOf(page, 'settings')).toContainEqual(['lead-in', '0.40 mm as usual']);
    expect(textsOf(page, 'settings')).toContainEqual(['shape', 'round']);
    expect(textsOf(page, 'changes')).toEqual([['hole width', '3.84 mm', '3.80 mm', 'It felt tight.']]);
  });

  it('names cautions and what stands against it on the first sheet', () => {
    const first = textOf(withClass(page, 'sheet')[0]);
    expect(first).toContain('Unplug it first.');
    expect(first).toContain('strain of the arms 1.9 % (at most 2.1 %) Print it upright.');
    expect(first).toContain('1 caution, none fails');
  });

  it('says what of the print may be read', () => {
    // post = machine - clearance: 4.02 - 0.15 and 4.02 - 0.
    expect(textsOf(page, 'sizes').map((row) => row.slice(2, 5))).toEqual([['3.84', '3.94', '3.87 .. 4.02']]);
  });

  it('puts the number of a finding wherever it is spoken of', () => {
    expect(textsOf(page, 'fits')[0]![0]).toBe('2');
    const places = all(withClass(page, 'figures')[0]!, 'text').map(textOf);
    expect(places).toEqual(['2']);
    const onBed = all(withClass(page, 'figures')[1]!, 'text').map(textOf);
    expect(onBed).toEqual(['1']);
    expect(all(page, 'article').map((one) => one.getAttribute('id'))).toEqual(['finding-1']);
    expect(textsOf(page, 'holds').map(([number]) => number)).toEqual(['2', '3']);
  });

  it('points at the part where a number of the first picture leads', () => {
    const [picture] = withClass(readPage(reportPage(fakeReport, { sharpness: 0.5 })), 'picture');
    const place = withClass(picture!, 'place')[0]!;
    const data = all(picture!, 'image')[0]!.getAttribute('href')!.split(',')[1]!;
    const png = PNG.sync.read(Buffer.from(data, 'base64'));
    const [x, y] = ['cx', 'cy'].map((name) =>
      Math.round((Number(place.getAttribute(name)) * png.width) / 800),
    );
    const pixel = [...png.data.subarray(4 * (y! * png.width + x!), 4 * (y! * png.width + x!) + 3)];
    // The part is blue, paper and ghosts are not.
    expect(pixel[2]! - pixel[0]!).toBeGreaterThan(20);
  });

  it('says plainly what is not there', () => {
    const bare = reportPage(
      {
        ...fakeReport,
        ...{ chance: null, shares: [], advice: null, fits: [], findings: [], readings: [], refits: [] },
        ...{ changes: [], assembly: null, printer: { ...fakeReport.printer, calibrated: null } },
        again: { ...fakeReport.again, note: '', author: '', licence: '', settings: [] },
      },
      quick,
    );
    const read = readPage(bare);
    const whole = textOf(all(read, 'body')[0]);
    expect(whole).toContain('Not known');
    expect(whole).toContain('Nobody has measured this printer');
    expect(whole).toContain('No order of putting it in is stated');
    expect(whole).not.toMatch(/NaN|undefined|Infinity|null/);
    expect(withClass(read, 'fits')).toEqual([]);
    // A link needs where it leads.
    const ids = new Set(all(read, '*').map((one) => one.getAttribute('id')));
    const broken = all(read, 'a').map((one) => one.getAttribute('href')!.slice(1));
    expect(broken.filter((id) => !ids.has(id))).toEqual([]);
  });

  it('shows a window without one of its ends as such', () => {
    const read = readPage(
      reportPage({ ...fakeReport, fits: [{ ...fit, window: [0.05, Infinity], clearance: 0.21 }] }, quick),
    );
    expect(textsOf(read, 'fits')[0]![6]).toBe('from 0.05');
    // 3.94 + 0.21 - 0.05.
    expect(textsOf(read, 'sizes')[0]![4]).toBe('up to 4.10');
  });

  it.each([
    `"><script>alert(1)</script><img src=x onerror='x'>`,
    `</style></title><base href="//a.example">`,
    `' onload='x' style="color:red" --> <!-- ]]>`,
    '&lt;b&gt; \u0000\u001f\u202e',
  ])('takes every text for text: %j', (evil) => {
    const attacked = reportPage(hostile(fakeReport, evil), quick);
    const plain = reportPage(hostile(fakeReport, 'plain'), quick);
    expect(attacked).not.toBe(plain);
    expect(skeleton(attacked)).toEqual(skeleton(plain));
    const read = readPage(attacked);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is replaced
    const shown = evil.replace(/[\u0000-\u001f]/g, '\ufffd').replace(/\s+/g, ' ');
    expect(textOf(all(read, 'h1')[0])).toBe(shown);
    expect(textOf(all(read, 'body')[0]).split(shown).length).toBeGreaterThan(30);
  });

  it('takes ids for text where they become attributes', () => {
    const evil = `"><script>x</script>`;
    const attacked = reportPage(
      {
        ...fakeReport,
        fits: [{ ...fit, id: evil }],
        readings: fakeReport.readings.map((reading) => ({ ...reading, id: evil })),
        family: { ...fakeReport.family, id: evil },
      },
      quick,
    );
    expect(skeleton(attacked)).toEqual(skeleton(text));
  });

  it('fetches and runs nothing, and its policy lets it look as it does', () => {
    expect(text).not.toMatch(/<script|<link|<img|<iframe|@import|url\(|javascript:|\son\w+=|\sstyle=/i);
    expect(text).not.toMatch(/https?:/);
    const [policy] = all(page, 'meta').filter((one) => one.hasAttribute('http-equiv'));
    const style = text.slice(text.indexOf('<style>') + 7, text.indexOf('</style>'));
    const hash = createHash('sha256').update(style).digest('base64');
    expect(policy!.getAttribute('content')).toBe(
      `default-src 'none'; style-src 'sha256-${hash}'; img-src data:; base-uri 'none'; form-action 'none'`,
    );
    // A policy binds only what comes after it.
    expect(text.indexOf('http-equiv')).toBeLessThan(text.indexOf('<style>'));
  });

  it('gives the same text twice', () => {
    expect(reportPage(fakeReport, quick)).toBe(text);
  });

  // WCAG 2.2: 1.1.1, 1.3.1, 2.4.6, 3.1.1, 4.1.1.
  it('can be heard as well as seen', () => {
    expect(page.getAttribute('lang')).toBe('en');
    const levels = all(page, '*').flatMap(({ tagName }) =>
      /^h[1-6]$/.test(tagName) ? [Number(tagName[1])] : [],
    );
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    levels.forEach((level, k) => {
      expect(level - (levels[k - 1] ?? 0)).toBeLessThanOrEqual(1);
    });
    expect(all(page, 'th').length).toBeGreaterThan(20);
    for (const head of all(page, 'th')) expect(['row', 'col']).toContain(head.getAttribute('scope'));
    for (const svg of all(page, 'svg')) {
      const said = svg.getAttribute('aria-label') ?? textOf(all(svg, 'title')[0]);
      if (svg.getAttribute('aria-hidden') === 'true') expect(said).toBe('');
      else expect([svg.getAttribute('role'), said !== '']).toEqual(['img', true]);
    }
    const ids = all(page, '*').flatMap((one) => one.getAttribute('id') ?? []);
    expect(new Set(ids).size).toBe(ids.length);
    for (const link of all(page, 'a')) expect(ids).toContain(link.getAttribute('href')!.slice(1));
    for (const section of all(page, 'section'))
      expect(ids).toContain(section.getAttribute('aria-labelledby'));
  });
});
