import exceptions from 'spdx-exceptions/index.json' with { type: 'json' };
import deprecated from 'spdx-license-ids/deprecated.json' with { type: 'json' };
import ids from 'spdx-license-ids/index.json' with { type: 'json' };
import { describe, expect, it } from 'vitest';
import { licenceOf } from '../../src/job/licence.ts';

describe('licenceOf', () => {
  it('knows every id of the SPDX licence list, whatever the case of its letters, and gives it as the list has it', () => {
    expect(ids.length).toBeGreaterThan(500);
    for (const id of [...ids, ...deprecated])
      for (const typed of [id, id.toLowerCase(), id.toUpperCase(), `  ${id}\n`])
        expect(licenceOf(typed)).toEqual({ licence: id });
  });

  it('could mistake no id for another by its case', () => {
    const all = [...ids, ...deprecated, ...exceptions].map((id) => id.toLowerCase());
    expect(new Set(all).size).toBe(all.length);
  });

  // SPDX specification 2.3, annex D.4, examples of composite expressions (from memory).
  it.each([
    'LGPL-2.1-only OR MIT',
    'LGPL-2.1-only AND MIT AND BSD-2-Clause',
    'GPL-2.0-or-later WITH Bison-exception-2.2',
    'LGPL-2.1-only OR BSD-3-Clause AND MIT',
    'MIT AND (LGPL-2.1-or-later OR BSD-3-Clause)',
    'CDDL-1.0+',
    'LicenseRef-23',
    'DocumentRef-spdx-tool-1.2:LicenseRef-MIT-Style-2',
  ])('takes %s as it stands, and in small letters', (expression) => {
    expect(licenceOf(expression)).toEqual({ licence: expression });
    const small = expression.replace(/[^\s()]+/g, (word) =>
      word.includes('Ref-')
        ? word.replace(/(Document|License)Ref/g, (of) => of.toLowerCase())
        : word.toLowerCase(),
    );
    expect(licenceOf(small)).toEqual({ licence: expression });
  });

  it.each([
    ['CC BY-SA 4.0', 'CC-BY-SA-4.0'],
    ['apache 2.0', 'Apache-2.0'],
  ])('puts blanks within an id right: %s', (typed, licence) => {
    expect(licenceOf(typed)).toEqual({ licence });
  });

  it.each([
    ['CC-BY', /Did you mean CC-BY-4\.0\?/, /not in the SPDX/],
    ['CC-BY-40', /Did you mean CC-BY-4\.0\?/, /not in the SPDX/],
    ['cc0', /Did you mean CC0-1\.0\?/, /not in the SPDX/],
    ['mit or apche-2.0', /Did you mean Apache-2\.0\?/, /not in the SPDX/],
    ['all rights reserved', /MIT$/, /not in the SPDX/],
    ['MIT AND', /MIT$/, /no whole expression/],
    ['(MIT', /such as CC-BY-4\.0/, /no whole expression/],
    ['', /MIT$/, /no whole expression/],
    ['Classpath-exception-2.0', /such as/, /no whole expression/],
    ['MIT\u0000', /such as/, /not in the SPDX/],
    ['('.repeat(200), /such as/, /no whole expression/],
    ['__proto__', /such as/, /not in the SPDX/],
  ])('refuses %j', (typed, allowed, reason) => {
    expect(licenceOf(typed)).toMatchObject({
      code: 'licence_unknown',
      allowed: expect.stringMatching(allowed),
      reason: expect.stringMatching(reason),
    });
  });
});
