import { DOMParser, type Element, type Node } from '@xmldom/xmldom';

/** A page read by a parser that is not ours; throws where the markup is broken. */
export function readPage(page: string): Element {
  const parser = new DOMParser({
    onError: (level, message) => {
      if (level !== 'warning') throw new Error(`${level}: ${message}`);
    },
  });
  // Only what HTML lets stand without an end tag is closed first; everything else has to be well formed by itself.
  const closed = page.replace(/<!doctype html>\n/i, '').replace(/<meta ([^>]*)>/g, '<meta $1/>');
  return parser.parseFromString(closed, 'text/xml').documentElement!;
}

export const all = (of: Element, tag: string): Element[] => [...of.getElementsByTagName(tag)];

export const withClass = (of: Element, name: string): Element[] =>
  all(of, '*').filter((one) => (one.getAttribute('class') ?? '').split(' ').includes(name));

/** The text of an element as it is read, blanks as one. */
export const textOf = (of: Node | undefined): string => (of?.textContent ?? '').replace(/\s+/g, ' ').trim();

/** The rows of the body of a table, each as its cells. */
export const rowsOf = (page: Element, table: string): Element[][] =>
  all(page, 'table')
    .filter((one) => one.getAttribute('class') === table)
    .flatMap((one) =>
      all(all(one, 'tbody')[0]!, 'tr').map((row) =>
        [...row.childNodes].filter((node): node is Element => node.nodeType === 1),
      ),
    );

/** The texts of the cells of a table's rows. */
export const textsOf = (page: Element, table: string): string[][] =>
  rowsOf(page, table).map((cells) => cells.map(textOf));

/** Names of tags and attributes in order: what a text must never add to. */
export const skeleton = (page: string): string[] =>
  [...page.matchAll(/<(\/?[a-zA-Z!][^\s>]*)([^>]*)>/g)].map(
    ([, tag, rest]) => `${tag} ${[...rest!.matchAll(/([\w:-]+)="/g)].map(([, name]) => name).join(' ')}`,
  );
